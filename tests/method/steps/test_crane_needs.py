"""Needs of boom, block, winch, switch and people: each holds on its printed way, and bites when its fact is changed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from becket.method import crane_needs as c
from becket.method.crane_state import Deed
from becket.method.needs import Need
from tests.method.steps.scenes import deeds, scene, state_before

SCENE, LISTED = scene("main:2", "main:4"), deeds("main:2", "main:4")
BITES: list[tuple[Need, str, dict[str, Any]]] = [
    (c.AREA_SET, "slew", {"area": False}),
    (c.RIGGER_CLEAR, "down_to_low", {"rigger": "in"}),
    (c.IN_CAB, "down_to_low", {"operator": "ground"}),
    (c.ISOLATED, "weight_off", {"controls": "live"}),
    (c.RIGGER_IN, "weight_off", {"rigger": "clear"}),
    (c.LIVE, "down_to_low", {"controls": "isolated"}),
    (c.BLOCK_STANDS, "call_in", {"block": "hangs"}),
    (c.BLOCK_STANDS, "call_in", {"block": "away"}),
    (c.STEADIED, "thread", {"block": "stands"}),
    (c.LENGTH_SET, "set_hook", {"length_set": False}),
    (c.HOOK_SET, "lock_winch", {"hook_set": False}),
    (c.HOOK_READ, "lock_winch", {"done": frozenset({Deed(kind="measure_hook")})}),
    (c.WINCH_LOCKED, "down_to_touch", {"winch": "free"}),
    (c.WINCH_FREE, "spool", {"winch": "locked"}),
    (c.HANGS_WHOLE, "free_winch", {"keepers_out": frozenset({"head bar"})}),
    (c.HANGS_WHOLE, "free_winch", {"rope_end": "held"}),
    (c.HANGS_WHOLE, "free_winch", {"block": "stands"}),
    (c.BLOCK_HANGS, "down_to_touch", {"block": "stands"}),
    (c.SWITCH_LIVE, "down_to_window", {"weight": "off"}),
    (c.SWITCH_LIVE, "down_to_window", {"switch": "tried by hand"}),
    (c.WEIGHT_OFF, "down_to_low", {"weight": "line"}),
    (c.WEIGHT_ON, "weight_off", {"weight": "off"}),
    (c.WEIGHT_ON_ITS_LINE, "up_to_tight", {"weight_line": "last fall"}),
    (c.WEIGHT_ON_ITS_LINE, "up_to_tight", {"weight": "off"}),
    (c.SWITCH_TRIED, "up_to_tight", {"switch": "dead"}),
    (c.NOT_ON_SLACK, "prove_switch", {"falls": "slack"}),
    (c.NOT_ON_SLACK, "prove_switch", {"block": "stands"}),
    (c.OVERRIDE_ON_IF_NEEDED, "down_to_low", {"override": "off"}),
    (c.OVERRIDE_OFF, "call_in", {"override": "on"}),
    (c.OVERRIDE_ON, "override_off", {"override": "off"}),
    (c.OVERRIDE_SEEN, "lift_off", {"done": frozenset({Deed(kind="enter_override")})}),
    (c.STEADY_FIRST, "down_to_window", {"block": "stands"}),
    (c.INDICATOR_READ, "lift_off", {"indicator": "old"}),
    (c.INDICATOR_READ, "lift_off", {"done": frozenset({Deed(kind="enter_indicator")})}),
]


@pytest.mark.parametrize(("need", "kind", "changes"), BITES, ids=[f"{i} {case[0].why}" for i, case in enumerate(BITES)])
def test_it_holds_on_the_printed_way_and_bites_when_its_fact_is_changed(
    need: Need, kind: str, changes: dict[str, Any]
) -> None:
    deed = next(d for d in LISTED if d.kind == kind)
    state = state_before(SCENE, LISTED, kind)
    assert need.test(SCENE, state, deed)
    assert not need.test(SCENE, replace(state, **changes), deed)


def test_a_line_that_the_book_does_not_name_is_never_the_right_one() -> None:
    one = replace(SCENE, path=replace(SCENE.path, switch_weight_after=None))
    state = replace(state_before(SCENE, LISTED, "up_to_tight"), weight_line=None)
    assert not c.WEIGHT_ON_ITS_LINE.test(one, state, Deed(kind="up_to_tight"))


def test_what_the_book_says_of_pattern_and_override() -> None:
    state, deed = state_before(SCENE, LISTED, "override_on"), Deed(kind="override_on")
    assert c.CONFIRMED.test(SCENE, state, deed)
    assert c.OVERRIDE_ALLOWED.test(SCENE, state, deed)
    facts = replace(SCENE.facts, is_confirmed=False)
    assert not c.CONFIRMED.test(replace(SCENE, facts=facts), state, deed)
    position = SCENE.facts.position.position
    assert position is not None
    without = replace(SCENE.facts.position, position=replace(position, override=None))
    assert not c.OVERRIDE_ALLOWED.test(replace(SCENE, facts=replace(SCENE.facts, position=without)), state, deed)


def test_every_need_of_the_module_is_tried_here() -> None:
    named = {id(v) for v in vars(c).values() if isinstance(v, Need)}
    assert named == {id(need) for need, kind, changes in BITES} | {id(c.CONFIRMED), id(c.OVERRIDE_ALLOWED)}
