"""What one method has to reach, and from where."""

from __future__ import annotations

from dataclasses import replace

from becket.book.tackle import Pass, State
from becket.method.crane_state import Deed
from becket.method.facts import gather_facts
from becket.method.order import apply_deed, order_deeds
from becket.method.rules import walk
from becket.method.scene import first_state, scene_of
from becket.method.site import Site
from becket.method.step_sentences import words_of
from tests.method.golden_crane import golden_book
from tests.method.steps.scenes import SETTINGS, deeds, scene, state_before

MAIN, BALL = scene("main:2", "main:4"), scene("main:4", "ball:1")


def test_no_path_or_no_position_is_no_scene() -> None:
    book, site = golden_book(), Site(counterweight=9000.0, outriggers="full")
    four, seven = State(block="main", falls=4), State(block="main", falls=7)
    for states, where in (((four, seven), site), ((four, four), site), ((four, State(block="main", falls=2)), Site())):
        assert scene_of(book, SETTINGS, gather_facts(book, SETTINGS, states, where)) is None


def test_no_rope_to_leave_is_no_scene() -> None:
    facts = MAIN.facts
    assert scene_of(MAIN.book, SETTINGS, replace(facts, leave=None)) is None
    assert scene_of(MAIN.book, SETTINGS, replace(facts, lowering=None)) is None
    assert scene_of(MAIN.book, SETTINGS, facts) is not None


def test_the_first_state_is_the_pattern_that_is_on() -> None:
    state = first_state(MAIN)
    assert [str(p) for p in state.path] == ["head 4", "block 4"]
    assert (state.hanging, state.dead_end, state.weight_line) == ("main", "head b", "dead-end fall")
    assert first_state(scene("ball:1", "main:4")).weight_line == "last fall"


def test_where_the_weight_comes_off_in_the_low_position_no_override_is_needed() -> None:
    """The head stands high enough there: the boom stops there for the weight, and goes no further."""
    position = MAIN.facts.position.position
    assert position is not None
    answer = replace(MAIN.facts.position, position=replace(position, override=None))
    high = replace(MAIN, facts=replace(MAIN.facts, position=answer))
    assert high.is_low_in_window
    assert not high.needs_override
    order = order_deeds(high)
    assert order.stuck is None
    assert walk(high, order.deeds) == ()
    assert not {"override_on", "override_off"} & {d.kind for d in order.deeds}
    assert words_of(high, Deed(kind="down_to_window")).do.startswith("Boom down into -1.5 deg. Stop")
    assert words_of(high, Deed(kind="down_to_low")).do == "Boom stays at -1.5 deg: read it."


def test_the_switch_decides_about_the_override_and_the_book_about_the_wedge() -> None:
    assert MAIN.needs_override
    assert not MAIN.is_low_in_window
    free = scene("main:4", "main:2", "switch lets the boom down")
    assert not free.needs_override
    assert not free.is_low_in_window
    for goes_through, comes_off in ((True, False), (False, True), (None, True)):
        off = None if goes_through is None else not goes_through
        assert replace(MAIN, path=replace(MAIN.path, fitting_comes_off=off)).takes_wedge_out is comes_off


def test_a_keeper_closes_the_sheaves_that_it_names_on_the_block_that_hangs() -> None:
    pin = MAIN.keeper("block pin left")
    assert MAIN.holds(pin, Pass(place="block", sheave=3), "main")
    assert not MAIN.holds(pin, Pass(place="block", sheave=4), "main")
    assert not MAIN.holds(pin, Pass(place="head", sheave=3), "main")
    assert not MAIN.holds(pin, Pass(place="block", sheave=3), "ball")
    assert MAIN.holds(MAIN.keeper("head bar"), Pass(place="head", sheave=3), "ball")


def test_rope_lies_under_a_keeper_while_a_pass_is_in_its_groove() -> None:
    listed = deeds("main:2", "main:4")
    start = first_state(MAIN)
    assert MAIN.has_rope_under(MAIN.keeper("block pin right"), start)  # head 4, block 4
    assert not MAIN.has_rope_under(MAIN.keeper("block pin left"), start)
    bare = state_before(MAIN, listed, "look_sheaves")
    assert not any(MAIN.has_rope_under(k, bare) for k in MAIN.keepers)
    threaded = state_before(MAIN, listed, "make_dead_end")
    assert not MAIN.has_rope_under(MAIN.keeper("dead-end pin"), threaded)
    whole = apply_deed(MAIN, threaded, next(d for d in listed if d.kind == "make_dead_end"))
    assert all(MAIN.has_rope_under(k, whole) for k in MAIN.keepers)


def test_keepers_of_a_block_that_goes_and_of_one_that_comes() -> None:
    pins = [k for k in BALL.keepers if k.at == "block"]
    assert pins
    assert all(BALL.is_old_block(k) and not BALL.is_new_block(k) for k in pins)
    back = scene("ball:1", "main:4")
    assert all(back.is_new_block(k) and not back.is_old_block(k) for k in back.keepers if k.at == "block")
    assert not any(MAIN.is_old_block(k) or MAIN.is_new_block(k) for k in MAIN.keepers)
    assert not any(BALL.is_old_block(k) for k in BALL.keepers if k.at != "block")


def test_slack_keepers_of_the_block_are_those_of_the_one_that_hangs() -> None:
    name = "slack bar on the block"
    assert [k.name for k in scene("main:2", "main:4", name).slack_keepers_at_block] == ["block bar"]
    assert scene("ball:1", "main:4", name).slack_keepers_at_block == ()
    assert MAIN.slack_keepers_at_block == ()
