"""Needs that any deed may have."""

from __future__ import annotations

from dataclasses import replace

from becket.method import needs as n
from becket.method.crane_state import Deed
from becket.method.scene import first_state
from tests.method.steps.scenes import scene

SCENE = scene("main:2", "main:4")
START = first_state(SCENE)
STEADY = Deed(kind="steady")


def test_a_deed_is_done_once() -> None:
    need = n.once()
    assert need.rule == "order"
    assert need.test(SCENE, START, STEADY)
    assert not need.test(SCENE, START.with_done(STEADY), STEADY)
    assert need.test(SCENE, START.with_done(Deed(kind="thread", of="head 3")), Deed(kind="thread", of="head 5"))


def test_one_deed_after_another() -> None:
    need = n.after("steady", "steady_then_slack")
    assert (need.rule, need.why) == ("steady_then_slack", "'steady' comes before this")
    assert not need.test(SCENE, START, Deed(kind="other"))
    assert need.test(SCENE, START.with_done(STEADY), Deed(kind="other"))
    assert n.after("thread", of="head 3").why == "'thread head 3' comes before this"


def test_the_boom_at_its_stop() -> None:
    need = n.at_boom("low", "hands")
    assert need.why == "the boom is not at its stop 'low'"
    assert not need.test(SCENE, START, STEADY)
    assert need.test(SCENE, replace(START, boom="low"), STEADY)


def test_the_next_pass_is_that_of_the_pattern_and_none_on_another_way() -> None:
    three, block_three = SCENE.after.path[:2]
    assert n.next_pass(SCENE, START) is None  # the old rope still runs
    assert n.next_pass(SCENE, replace(START, path=())) == three
    assert n.next_pass(SCENE, replace(START, path=(three,))) == block_three
    assert n.next_pass(SCENE, replace(START, path=(block_three,))) is None
    assert n.next_pass(SCENE, replace(START, path=SCENE.after.path)) is None
