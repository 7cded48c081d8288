"""Needs of rope, keepers, dead end and counts: each holds on its printed way, and bites when its fact is changed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from becket.book.tackle import Pass
from becket.method import rope_needs as r
from becket.method.crane_state import Deed
from becket.method.needs import Need
from tests.method.steps.scenes import deeds, scene, state_before

STAYS, GOES, COMES = ("main:2", "main:4"), ("main:4", "ball:1"), ("ball:1", "main:4")
SLACK = "slack bar on the block"
SIX = (Pass(place="head", sheave=6),)
OUT = {"keepers_out": frozenset({"head bar"})}
PIN = {"keepers_out": frozenset({"block pin left"})}
NONE: dict[str, Any] = {"keepers_out": frozenset()}
NOT_DONE: dict[str, Any] = {"done": frozenset()}
BITES: list[tuple[Need, tuple[str, str], str, dict[str, Any]]] = [
    (r.ON_GROUND, STAYS, "count_sheaves", {"operator": "cab"}),
    (r.TIGHT_KEEPERS_OUT, STAYS, "down_to_window", PIN),
    (r.KEEPER_MOVES, STAYS, "tight_keeper_out", {"falls": "slack"}),
    (r.KEEPER_MOVES, STAYS, "tight_keeper_out", {"block": "hangs"}),
    (r.KEEPER_MOVES, STAYS, "slack_keeper_out", {"boom": "weight window"}),
    (r.KEEPER_MOVES, STAYS, "slack_keeper_in", {"falls": "tight"}),
    (r.KEEPER_HERE, STAYS, "tight_keeper_in", {"hanging": "ball"}),
    (r.KEEPER_OUT, STAYS, "tight_keeper_in", NONE),
    (r.KEEPER_IN, STAYS, "dead_end_pin_out", {"keepers_out": frozenset({"dead-end pin"})}),
    (r.HEAD_OPEN, STAYS, "count_out_head", OUT),
    (r.HEAD_CLOSED, STAYS, "up_to_tight", OUT),
    (r.HEAD_CLOSED, STAYS, "up_to_tight", {"clips_out": frozenset({"dead-end pin"})}),
    (r.ALL_IN, STAYS, "lift_off", PIN),
    (r.ALL_IN, STAYS, "lift_off", {"clips_out": frozenset({"block pin left"})}),
    (r.PATH_WHOLE_FOR_KEEPER, STAYS, "slack_keeper_in", {"path": SIX}),
    (r.PATH_WHOLE_FOR_KEEPER, STAYS, "slack_keeper_in", {"rope_end": "held"}),
    (r.BARE, GOES, "bare_keeper_in", {"path": scene(*GOES).before.path}),
    (r.BLOCKS_COUNTED, GOES, "compare_counts", NOT_DONE),
    (r.NEW_BLOCK_OPEN, COMES, "count_out_new", OUT),
    (r.SLACK, STAYS, "hold_end", {"falls": "tight"}),
    (r.END_HELD, STAYS, "dead_end_pin_out", NOT_DONE),
    (r.END_FREE, STAYS, "draw_out", {"rope_end": "fixed"}),
    (r.END_FREE, STAYS, "draw_out", {"dead_end": "head b"}),
    (r.END_MADE, STAYS, "weight_on", NOT_DONE),
    (r.END_MADE, STAYS, "weight_on", {"dead_end": "head a"}),
    (r.DEAD_END_PINS_OUT, STAYS, "open_dead_end", OUT),
    (r.LAST_PASS, STAYS, "draw_out", {"path": SIX}),
    (r.LAST_PASS, STAYS, "draw_out", {"path": ()}),
    (r.NEXT_PASS, STAYS, "thread", {"path": SIX}),
    (r.GROOVE_OPEN, STAYS, "thread", PIN),
    (r.PATH_BARE, STAYS, "look_sheaves", {"path": SIX}),
    (r.PATH_WHOLE, STAYS, "make_dead_end", {"path": SIX}),
    (r.OLD_BLOCK_AWAY, GOES, "exchange_block", {"block": "steadied"}),
    (r.NEW_BLOCK_HERE, GOES, "thread", {"hanging": "main"}),
    (r.OLD_BLOCK_CLOSED, GOES, "take_block_away", PIN),
    (r.SEEN, STAYS, "thread", {"done": frozenset({Deed(kind="look_sheaves"), Deed(kind="look_end")})}),
    (r.COUNTED, STAYS, "lift_off", NOT_DONE),
]


@pytest.mark.parametrize(
    ("need", "change", "kind", "changes"), BITES, ids=[f"{i} {case[0].why}" for i, case in enumerate(BITES)]
)
def test_it_holds_on_the_printed_way_and_bites_when_its_fact_is_changed(
    need: Need, change: tuple[str, str], kind: str, changes: dict[str, Any]
) -> None:
    one, listed = scene(*change), deeds(*change)
    deed = next(d for d in listed if d.kind == kind)
    state = state_before(one, listed, kind)
    assert need.test(one, state, deed)
    assert not need.test(one, replace(state, **changes), deed)


def test_a_dead_end_that_was_never_opened_is_not_made_anew() -> None:
    """Before the change the dead end is where the new pattern wants it: nothing is counted on the strength of that."""
    state = state_before(scene(*STAYS), deeds(*STAYS), "slack_keeper_out")
    assert state.dead_end == scene(*STAYS).after.dead_end
    assert not r.END_MADE.test(scene(*STAYS), state, Deed(kind="count_in_head"))


def test_slack_keepers_of_the_block_are_out_and_counted() -> None:
    one, listed = scene(*STAYS, SLACK), deeds(*STAYS, SLACK)
    state, deed = state_before(one, listed, "count_out_block_low"), Deed(kind="count_out_block_low")
    assert r.SLACK_BLOCK_OPEN.test(one, state, deed)
    assert not r.SLACK_BLOCK_OPEN.test(one, replace(state, keepers_out=frozenset({"block pin"})), deed)
    closing = state_before(one, listed, "compare_counts")
    assert r.BLOCKS_COUNTED.test(one, closing, deed)
    assert not r.BLOCKS_COUNTED.test(one, replace(closing, done=closing.done - {deed}), deed)


def test_every_need_of_the_module_is_tried_here() -> None:
    named = {id(v) for v in vars(r).values() if isinstance(v, Need)}
    assert named == {id(row[0]) for row in BITES} | {id(r.SLACK_BLOCK_OPEN)}
