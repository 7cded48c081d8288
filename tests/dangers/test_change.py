"""Ways to a wrong pass in the change: position, ground, the way down."""

from __future__ import annotations

import re
from dataclasses import replace
from math import radians
from typing import Any

from becket.book.crane import Book
from becket.book.tackle import State
from becket.method.change import Change, work_out_change
from becket.method.crane_state import Deed
from becket.method.option import change_option
from becket.method.order import order_deeds
from becket.method.position import PositionAnswer, find_position
from becket.method.rules import prove_rules
from becket.method.scene import Scene, scene_of
from becket.method.site import Site
from becket.method.step import Step
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


def scene() -> Scene:
    """Return the scene of the change from two to four falls [-]."""
    found = scene_of(invented_book(), invented_settings(), change(invented_book()).facts)
    assert found is not None
    return found


def deeds() -> list[Deed]:
    """Return the printed method, deed by deed [-]."""
    return list(order_deeds(scene()).deeds)


def broken_by(changed: list[Deed]) -> set[str]:
    """Return the rules that a changed method breaks [-]."""
    assert changed != deeds()
    return {rule.name for rule in prove_rules(scene(), tuple(changed)) if rule.verdict is not Verdict.PASS}


def without(*kinds: str) -> list[Deed]:
    """Return the method without the deeds of these kinds [-]."""
    return [deed for deed in deeds() if deed.kind not in kinds]


def moved(kind: str, before: str) -> list[Deed]:
    """Return the method with one deed put before another [-]."""
    (one,) = (deed for deed in deeds() if deed.kind == kind)
    rest = [deed for deed in deeds() if deed is not one and deed.kind != kind]
    place = next(i for i, deed in enumerate(rest) if deed.kind == before)
    return [*rest[:place], one, *rest[place:]]


def step_of(kind: str) -> Step:
    """Return the step that a person reads for a deed [-]."""
    every = deeds()
    place = next(i for i, deed in enumerate(every) if deed.kind == kind)
    return change(invented_book()).steps[place]


def test_head_over_the_block_with_the_switch_weight_on() -> None:
    """The weight comes off in a window before the head is within trip distance of the block."""
    good = change(invented_book())
    assert good.simulation is not None
    assert good.simulation.weight_window is not None
    assert "switch" in broken_by(without("weight_off"))
    assert broken_by(moved("down_to_low", "weight_off"))


def test_hook_set_before_telescoping_or_at_another_angle() -> None:
    """Telescoping comes before the hook is set, and the angle of the setting is part of the answer."""
    good = change(invented_book())
    assert good.rope_to_leave is not None
    assert good.rope_to_leave.at_angle <= radians(25)
    assert broken_by(moved("set_hook", "telescope"))
    assert broken_by(moved("lock_winch", "telescope"))


def test_override_left_on() -> None:
    """Its "off" is a step of its own, before anybody goes in again, and is entered by both, unseen."""
    assert "override" in broken_by(without("override_off"))
    assert broken_by(without("enter_override"))
    assert broken_by(without("see_override"))
    for kind in ("enter_override", "see_override"):
        assert step_of(kind).blind
        assert step_of(kind).value_asked is not None


def test_switch_proved_on_slack_rope() -> None:
    """Proved under power, before the first lift and only after the block hangs on the new falls."""
    assert broken_by(moved("prove_switch", "lift_off"))
    assert broken_by(moved("prove_switch", "up_to_tight"))
    assert broken_by(without("prove_switch"))


def test_count_known_beforehand() -> None:
    """Both counts are blind, by two persons, and stand before the pattern's number is shown."""
    assert {step_of(kind).who for kind in ("count_sheaves", "count_ropes")} == {"operator", "rigger"}
    for kind in ("count_sheaves", "count_ropes"):
        assert step_of(kind).blind
        assert broken_by(without(kind))
        assert broken_by(moved("compare_counts", kind))


def test_keepers_closed_clips_not_rope_not_under() -> None:
    """Keepers and clips are counted apart, out and in; each is tugged with the rope under it."""
    for kind in ("count_out_block", "count_out_head", "count_in_block", "count_in_head"):
        asked = step_of(kind).value_asked or ""
        assert "keepers" in asked
        assert "clips" in asked
        assert step_of(kind).blind
        assert broken_by(without(kind))
    assert "tug" in step_of("tight_keeper_in").do.lower()
    assert broken_by(without("tight_keeper_in"))
    assert broken_by(without("slack_keeper_in"))


def test_indicator_set_to_the_falls_other_block() -> None:
    """Falls and block, by both, before the block leaves the ground."""
    for kind in ("enter_indicator", "read_indicator"):
        asked = step_of(kind).value_asked or ""
        assert "falls" in asked
        assert "block" in asked
        assert step_of(kind).blind
        assert broken_by(without(kind))
        assert broken_by(moved("lift_off", kind))


def test_spooled_with_the_block_alone() -> None:
    """The spooling step names the load that gives the tension which the rope's maker wants; without a figure, none."""
    load = re.search(r"(\d+\.\d) t", step_of("spool").do)
    assert load is not None
    assert float(load[1]) > 0.48  # more than the block
    assert broken_by(without("spool"))
    silent = replace(invented_book(), rope=replace(invented_book().rope, spooling_tension=None))
    assert not any(re.search(r"under about", step.do) for step in change(silent).steps)


def test_position_that_needs_an_override_the_manual_does_not_allow() -> None:
    """The switch stops the boom above the low position; a book that lists no override has no change there."""
    assert change(invented_book()).verdict is Verdict.PASS
    assert change(replace(invented_book(), override=())).verdict is not Verdict.PASS


def test_rule_that_is_not_proved() -> None:
    """Every rule of the method is there and proved; a change without them all is no pass."""
    good = change(invented_book())
    assert len(good.rules) == 18
    assert all(rule.verdict is Verdict.PASS for rule in good.rules)
