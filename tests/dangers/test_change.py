"""Ways to a wrong pass in the change: position, ground, the way down."""

from __future__ import annotations

from dataclasses import replace
from math import radians
from typing import Any

from becket.book.crane import Book
from becket.book.tackle import State
from becket.method.change import Change, work_out_change
from becket.method.option import change_option
from becket.method.position import PositionAnswer, find_position
from becket.method.site import Site
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings, sealed

SITE = Site(counterweight=7000.0, outriggers="full", free_radius=40.0, ground=0.0, slope=0.0)
TWO, FOUR = State(block="main", falls=2), State(block="main", falls=4)


def position(book: Book | None = None, **site: Any) -> PositionAnswer:
    """Return the position for two to four falls [-]."""
    return find_position(
        book if book is not None else invented_book(), invented_settings(), TWO, FOUR, replace(SITE, **site)
    )


def change(book: Book) -> Change:
    """Return the change from two to four falls [-]."""
    return work_out_change(book, invented_settings(), TWO, FOUR, SITE)


def test_there_is_a_position_before_anything_is_wrong() -> None:
    assert position().position is not None
    assert position().verdict is Verdict.PASS


def test_position_for_another_counterweight() -> None:
    assert position(counterweight=5000.0).position is None
    assert position(counterweight=None).position is None
    assert position(outriggers="half").position is None
    assert position(outriggers=None).position is None


def test_position_on_a_slope() -> None:
    assert position(slope=radians(3.1)).position is None
    assert position(slope=radians(-3.1)).position is None
    assert "slope" in position(slope=None).asked


def test_position_without_room() -> None:
    assert position(free_radius=9.0).position is None
    assert "free radius" in position(free_radius=None).asked


def test_position_rated_under_block_and_rope() -> None:
    book = invented_book()
    weak = replace(book, rereeve=tuple(replace(row, rated=400.0) for row in book.rereeve))
    silent = replace(book, rereeve=tuple(replace(row, rated=None) for row in book.rereeve))
    assert position(weak).position is None
    assert position(silent).position is None


def test_wind_of_the_position_is_shown() -> None:
    found = position().position
    assert found is not None
    assert found.wind == 9.0


def test_hand_height_without_sag() -> None:
    book = invented_book()
    unmeasured = replace(book, boom=replace(book.boom, sag=None))
    other_lengths = replace(book, boom=replace(book.boom, sag={9.8: 0.01}))
    assert position(unmeasured).position is None
    assert position(unmeasured).verdict is Verdict.UNKNOWN
    assert position(other_lengths).position is None


def test_head_on_the_block() -> None:
    """A manual that wants more room over the block than hands can reach leaves no window."""
    book = invented_book()
    blocks = {**book.blocks, "main": replace(book.blocks["main"], clear=1.1)}
    assert position(sealed(replace(book, blocks=blocks))).position is None
    blank = {**book.blocks, "main": replace(book.blocks["main"], clear=None)}
    assert position(sealed(replace(book, blocks=blank))).position is None


def test_two_block_on_the_way_down() -> None:
    """The hook is left low enough that the head keeps trip distance and margin while the block hangs."""
    good = change(invented_book())
    assert good.simulation is not None
    switch = invented_book().switch
    assert switch.trips is not None
    assert switch.margin is not None
    kept = switch.trips + switch.margin
    assert good.simulation.least_hanging_down >= kept - 1e-9
    long_trip = replace(invented_book(), switch=replace(switch, trips=9.0))
    assert change(long_trip).verdict is not Verdict.PASS
    assert change(replace(invented_book(), switch=replace(switch, trips=None))).verdict is not Verdict.PASS
    assert change(replace(invented_book(), switch=replace(switch, margin=None))).verdict is not Verdict.PASS


def test_head_over_the_block_with_the_switch_weight_on() -> None:
    """The weight comes off in a window before the head is within trip distance of the block."""
    good = change(invented_book())
    assert good.simulation is not None
    assert good.simulation.weight_window is not None
    order = [step.do for step in good.steps]
    off = next(i for i, words in enumerate(order) if "weight" in words.lower() and "off" in words.lower())
    assert 0 < off < len(order)


def test_hook_set_before_telescoping_or_at_another_angle() -> None:
    """Telescoping comes before the hook is set, and the angle of the setting is part of the answer."""
    good = change(invented_book())
    assert good.rope_to_leave is not None
    assert good.rope_to_leave.at_angle <= radians(25)
    words = [step.do.lower() for step in good.steps]
    telescoping = [i for i, text in enumerate(words) if "telescop" in text]
    set_hook = [i for i, text in enumerate(words) if "hook to" in text or "under the head" in text]
    assert telescoping
    assert set_hook
    assert max(telescoping[:1]) < min(set_hook)


def test_change_with_an_unconfirmed_pattern() -> None:
    odd = work_out_change(invented_book(), invented_settings(), TWO, State(block="main", falls=5), SITE)
    assert odd.verdict is not Verdict.PASS
    assert not odd.is_confirmed
    option = change_option(
        invented_book(),
        invented_settings(),
        TWO,
        State(block="main", falls=5),
        SITE,
        boom_before=17.0,
        boom_after=17.0,
        carried="crane",
    )
    assert option.verdict is not Verdict.PASS


def steps_with(*words: str) -> list[int]:
    """Return the indexes of the steps that hold all these words [-]."""
    steps = change(invented_book()).steps
    return [i for i, s in enumerate(steps) if all(w in f"{s.do} {s.look_for} {s.value_asked}".lower() for w in words)]


def test_override_left_on() -> None:
    """Its "off" is a step of its own, entered unseen, before anybody goes in again."""
    steps = change(invented_book()).steps
    (on,), (off,) = steps_with("override on"), steps_with("override off")
    goes_in = next(i for i in steps_with("rigger goes in") if i > on)
    assert on < off < goes_in
    assert steps[off].blind
    assert steps[off].value_asked is not None


def test_switch_proved_on_slack_rope() -> None:
    """Proved under power, before the first lift and only after the block hangs on the new falls."""
    proof = steps_with("slack rope is no proof")
    assert proof
    assert steps_with("block leaves the ground")[-1] < proof[-1]
    assert proof[-1] < steps_with("first lift")[-1]


def test_count_known_beforehand() -> None:
    """Both counts are blind and stand before the step at which the pattern's number is shown."""
    steps = change(invented_book()).steps
    (shown,) = steps_with("counts are shown together")
    counts = [i for i in steps_with("falls", "count") if i < shown and steps[i].value_asked and "falls" in (
        steps[i].value_asked or ""
    )]  # fmt: skip
    assert {steps[i].who for i in counts} == {"operator", "rigger"}
    assert all(steps[i].blind for i in counts)


def test_keepers_closed_clips_not_rope_not_under() -> None:
    """Keepers and clips are counted apart, out and in; each is tugged with the rope under it."""
    steps = change(invented_book()).steps
    asked = [s.value_asked for s in steps if s.value_asked and "keepers" in s.value_asked]
    assert any("keepers out, clips out" in words for words in asked)
    assert any("keepers in, clips in" in words for words in asked)
    assert steps_with("put", "tug", "rope under it")


def test_indicator_set_to_the_falls_other_block() -> None:
    """Falls and block, by both, before the block leaves the ground."""
    steps = change(invented_book()).steps
    entered = [i for i, s in enumerate(steps) if s.value_asked and "falls" in s.value_asked and "block" in s.value_asked
               and "indicator" in s.phase.lower()]  # fmt: skip
    assert {steps[i].who for i in entered} == {"operator", "rigger"}
    assert all(steps[i].blind for i in entered)
    assert max(entered) < steps_with("block leaves the ground")[-1]


def test_spooled_with_the_block_alone() -> None:
    """The spooling step names the tension in the rope and the load on the hook that gives it."""
    (spool,) = steps_with("least wraps", "raise again")
    text = change(invented_book()).steps[spool].do
    assert "kN" in text
    assert " t on the hook" in text
    silent = replace(invented_book(), rope=replace(invented_book().rope, spooling_tension=None))
    words = " ".join(step.do for step in change(silent).steps)
    assert "6.2 kN" not in words


def test_position_that_needs_an_override_the_manual_does_not_allow() -> None:
    """The switch stops the boom above the low position; a book that lists no override has no change there."""
    assert change(invented_book()).verdict is Verdict.PASS
    assert change(replace(invented_book(), override=())).verdict is not Verdict.PASS


def test_rule_that_is_not_proved() -> None:
    """Every rule of the method is there and proved; a change without them all is no pass."""
    good = change(invented_book())
    assert len(good.rules) == 18
    assert all(rule.verdict is Verdict.PASS for rule in good.rules)
