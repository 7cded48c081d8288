"""What went wrong on real cranes, and the step, rule or check that would have caught it: there, and biting.

Incidents as told by regulators and industry bodies (named at each test). Taken out or done late, the step is refused
with the rule that asks for it. Numbers of the incidents are those of docs/theory/steps.md, "Incidents".
"""

from __future__ import annotations

from dataclasses import replace
from math import radians

import pytest

from becket.book.tackle import State
from becket.method.change import work_out_change
from becket.method.crane_state import Deed
from becket.method.leave import rope_to_leave
from becket.method.lowering import lower_and_raise
from becket.method.order import unmet_needs
from becket.method.scene import Scene
from becket.method.site import Site
from becket.verdict import Verdict
from tests.method.golden_crane import golden_book
from tests.method.steps.scenes import SETTINGS, deeds, failed, method, moved, scene, state_before, without

CHANGE = ("main:2", "main:4")
ONE, LISTED = scene(*CHANGE), deeds(*CHANGE)


def step_of(kind: str, of: str = "", change: tuple[str, str] = CHANGE) -> str:
    """Return what the printed step of a deed says [-]."""
    listed = deeds(*change)
    i = next(i for i, d in enumerate(listed) if d.kind == kind and (not of or d.of == of))
    step = method(*change).steps[i]
    return f"{step.do} {step.look_for or ''} {step.value_asked or ''}"


def breaks_at(listed: tuple[Deed, ...], rule: str, one: Scene = ONE) -> Deed:
    """Return the deed at which a list breaks a rule; fail where it does not [-]."""
    answer = failed(one, listed)[rule]
    assert answer.verdict is Verdict.FAIL
    assert answer.step is not None
    return listed[answer.step - 1]


def test_h1_right_number_of_falls_wrong_path() -> None:
    """Queensland regulator's safety alert, event of May 2019: rope led to another sheave, side load broke it."""
    threads = [i for i, d in enumerate(LISTED) if d.kind == "thread"]
    assert [LISTED[i].of for i in threads] == ["head 3", "block 3", "head 5", "block 5"]
    for i in threads:
        assert method(*CHANGE).steps[i].value_asked == "sheave number read"
        place, number = LISTED[i].of.split()
        wrong = (*LISTED[:i], Deed(kind="thread", of=f"{place} {int(number) + 1}"), *LISTED[i + 1 :])
        assert breaks_at(wrong, "path") == wrong[i]
        assert "path" in failed(ONE, LISTED[:i] + LISTED[i + 1 :])
    assert "read their numbers" in step_of("count_sheaves")
    assert breaks_at(without(LISTED, "count_sheaves"), "two_counts").kind == "operator_up"


def test_h3_limit_proved_on_the_old_falls_is_not_proved_on_the_new() -> None:
    """Queensland regulator's safety alert, March 2022: hoist limit not effective, three events in three months."""
    assert state_before(ONE, LISTED, "telescope").switch == "proved"
    assert state_before(ONE, LISTED, "up_to_tight").switch == "tried by hand"
    assert breaks_at(without(LISTED, "prove_switch"), "switch").kind == "card_off"
    assert breaks_at(moved(LISTED, "prove_switch", "telescope"), "switch").kind == "prove_switch"
    assert breaks_at(without(LISTED, "prove_before"), "switch").kind == "telescope"
    assert "telescope out, derrick down" in step_of("prove_switch")


def test_h4_override_left_on() -> None:
    """Queensland mines inspectorate's alert: limit override left on since the start of the shift."""
    assert step_of("override_off").startswith("Override off, key out.")
    assert breaks_at(without(LISTED, "override_off"), "override").kind == "call_in"
    assert breaks_at(without(LISTED, "see_override"), "override").kind == "lift_off"
    assert breaks_at(without(LISTED, "enter_override"), "override").kind == "lift_off"
    without_override = deeds("main:4", "main:2", "switch lets the boom down")
    assert {"enter_override", "see_override"} <= {d.kind for d in without_override}  # on since the shift began


def test_h7_two_block_while_the_boom_comes_down() -> None:
    """International Association of Drilling Contractors, alert 00-28: two-block while lowering the boom to its rest."""
    way, leave = ONE.facts.way, ONE.facts.leave
    assert way is not None
    assert leave is not None
    assert leave.target is not None
    names = {f.name: f.verdict for f in lower_and_raise(way, leave.target).findings}
    assert names["two-block, going down"] is Verdict.PASS
    close = {f.name: f.verdict for f in lower_and_raise(way, way.trips + way.margin).findings}
    assert close["two-block, going down"] is Verdict.FAIL
    less = scene("main:4", "main:2").facts.way
    assert less is not None
    assert "switch, going down" in rope_to_leave(less).least_because


def test_h9_rope_climbed_off_its_sheave_when_slack() -> None:
    """International Marine Contractors Association, safety flash 03/00."""
    assert "every sheave" in step_of("seated")
    assert breaks_at(without(LISTED, "seated"), "boom_takes_block").kind == "tight_keeper_in"
    ball = scene("main:4", "ball:1")
    dropped = without(deeds("main:4", "ball:1"), "seated")
    assert breaks_at(dropped, "boom_takes_block", ball).kind == "count_in_block"


@pytest.mark.parametrize("name", ["head bar", "dead-end pin", "block pin left", "block pin right"])
def test_h11_keepers_never_refitted(name: str) -> None:
    """Trade press on drum spooling: keepers taken off to change falls, some never refitted."""
    kind = "tight_keeper_in" if name.startswith("block") else "slack_keeper_in"
    left_out = without(LISTED, kind, name)
    assert breaks_at(left_out, "keepers_counted").kind in ("count_in_head", "count_in_block")
    assert "order" in failed(ONE, left_out)
    for count in ("count_out_block", "count_out_head", "count_in_head", "count_in_block", "box_rigger", "box_operator"):
        assert "keepers_counted" in failed(ONE, without(LISTED, count)), count


def test_h12_pin_or_clip_fell() -> None:
    """IMCA safety flash 26/17; Step Change in Safety: clip failed or not fitted, pins fell 25 m and 44 m."""
    for keeper in ONE.keepers:
        kind = "tight_keeper_in" if keeper.draw == "tight" else "slack_keeper_in"
        text = step_of(kind, keeper.name)
        assert keeper.lock is not None
        assert keeper.name in text
        assert keeper.lock in text
        assert "Tug each" in text
        closing = state_before(ONE, LISTED, "lift_off")
        only_clip = replace(closing, clips_out=frozenset({keeper.name}))
        assert {need.rule for need in unmet_needs(ONE, only_clip, Deed(kind="lift_off"))} == {"keepers_counted"}


def test_h13_damaged_head_sheave_missed() -> None:
    """Western Australia, significant incident report 237, 2014: a 2 kg piece of a head sheave fell."""
    for look in ("look_sheaves", "see_sheaves", "look_end"):
        found = breaks_at(without(LISTED, look), "seen")
        assert found.kind in ("thread", "see_sheaves"), look
    assert "cracks" in step_of("look_sheaves")
    late = moved(LISTED, "look_sheaves", "make_dead_end")
    assert breaks_at(late, "seen").kind == "see_sheaves"


def test_h17_wedge_fell_on_a_hand() -> None:
    """IMCA safety flash 16/18: a 15 kg wedge fell and crushed a hand."""
    assert "Say what you hold up: wedge socket, pin." in step_of("hold_end")
    assert "Name the wedge" in step_of("open_dead_end")
    assert breaks_at(without(LISTED, "hold_end"), "dead_end").kind == "dead_end_pin_out"


def test_h19_block_toppled_as_the_rope_went_slack() -> None:
    """Western Australia, significant incident report 154: a 3 t block toppled, five hurt."""
    assert "firm level ground" in step_of("steady")
    assert breaks_at(without(LISTED, "steady"), "steady_then_slack").kind == "down_to_window"
    assert breaks_at(moved(LISTED, "steady", "weight_off"), "steady_then_slack").kind == "down_to_window"
    ball = scene("main:4", "ball:1")
    loose = without(deeds("main:4", "ball:1"), "steady_new")
    assert "hands" in failed(ball, loose)


def test_h21_loose_rope_end_ran_away() -> None:
    """US Occupational Safety and Health Administration, accident 202452769: a loose rope end ran, leg lost."""
    assert step_of("hold_end").startswith("Hold the rope's end.")
    late = moved(LISTED, "dead_end_pin_out", "hold_end")
    assert breaks_at(late, "dead_end").kind == "dead_end_pin_out"
    assert "End stays tied" in step_of("open_dead_end")


def test_h22_overturned_with_nothing_on_the_hook() -> None:
    """Ireland, industry alert of 2024; Queensland 2021: boom out, nothing on the hook, warnings overridden."""
    book, states = golden_book(), (State(block="main", falls=2), State(block="main", falls=4))
    light = work_out_change(book, SETTINGS, *states, Site(counterweight=5000.0, outriggers="full"))
    assert light.position is None
    assert light.verdict is not Verdict.PASS
    assert not light.steps
    row = next(r for r in book.rereeve if r.length == 33.4)
    low = replace(book, rereeve=(replace(row, lowest=radians(6.0)),))  # the bare boom is not permitted lower
    assert work_out_change(low, SETTINGS, *states, Site(counterweight=9000.0, outriggers="full")).position is None
    heavy = replace(book, rereeve=(replace(row, rated=500.0),))  # under block and rope
    assert work_out_change(heavy, SETTINGS, *states, Site(counterweight=9000.0, outriggers="full")).position is None
    for entry in ("read_stand", "see_stand"):
        assert breaks_at(without(LISTED, entry), "configuration").kind == "slew"
