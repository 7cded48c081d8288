"""Methods with one fault put in: what is unsafe is refused with a rule and a step, what is harmless is named here."""

from __future__ import annotations

from random import Random

import pytest

from becket.method.crane_state import Deed
from becket.method.deeds import SIGNING
from becket.method.order import apply_deed, unmet_needs
from becket.method.rules import RULES, walk
from becket.method.scene import Scene, first_state
from becket.verdict import Verdict
from tests.method.steps.checker import why_not
from tests.method.steps.scenes import CASES, CHANGES, deeds, failed, scene
from tests.method.steps.test_rules import job_of

STILL = "nothing moves between them, controls isolated, and neither gives what the other needs"
ALONE = "two entries of two people, or of two things: each is made alone and hidden"
LOOK = "a look or an entry, no act: what it looks at does not change between the two"
SAME_KEEPERS = "two keepers of one stop: which comes first does not matter"

HARMLESS = {
    ("read_stand", "see_stand"): ALONE,
    ("measure_hook", "read_hook"): ALONE,
    ("read_touch", "call_in"): LOOK + ": the angle stays when the engine is off",
    ("tight_keeper_out", "tight_keeper_out"): SAME_KEEPERS,
    ("count_out_block", "steady"): "the falls are tight: counting before or after the chocks, at the same stop",
    ("no_limit_card", "clear_out"): "the card hangs before the boom moves, whether the rigger is out already or not",
    ("slack_keeper_out", "hold_end"): "both before the dead-end pin: a keeper drawn lets nothing run",
    ("slack_keeper_out", "slack_keeper_out"): SAME_KEEPERS,
    ("hold_end", "count_out_head"): LOOK,
    ("dead_end_pin_out", "count_out_block_low"): "the pin is not one of the block's keepers",
    ("count_out_block_low", "count_out_head"): ALONE,
    ("count_out_head", "mark_rope"): LOOK,
    ("see_sheaves", "look_end"): "operator at the sheaves, rigger at the end, or the other way round",
    ("look_end", "count_in_old"): LOOK,
    ("look_end", "bare_keeper_in"): "the end is looked at apart from the block; both before the first pass",
    ("bare_keeper_in", "bare_keeper_in"): SAME_KEEPERS,
    ("bare_keeper_out", "bare_keeper_out"): SAME_KEEPERS,
    ("count_out_new", "thread"): "the keepers of the new block are out and stay out while the rope goes in",
    ("slack_keeper_in", "slack_keeper_in"): SAME_KEEPERS,
    ("slack_keeper_in", "weight_on"): STILL,
    ("see_lamp", "count_in_head"): "the lamp comes only while the weight is held up: later it asks for a second lift",
    ("count_in_head", "operator_down"): "the rigger counts while the operator comes down: two people, two places",
    ("count_sheaves", "place_operator"): ALONE,
    ("seated", "call_in"): LOOK + ": tight ropes stay tight when the engine is off",
    ("tight_keeper_in", "tight_keeper_in"): SAME_KEEPERS,
    ("count_in_block", "count_ropes"): ALONE,
    ("count_ropes", "box_rigger"): ALONE,
    ("box_rigger", "box_operator"): ALONE,
    ("box_operator", "place_rigger"): ALONE,
    ("enter_indicator", "read_indicator"): ALONE,
    ("read_indicator", "enter_override"): ALONE,
    ("enter_override", "see_override"): ALONE,
    ("card_off", "spool"): "the card says that there is no hoist limit; it is proved by then",
    ("sign_operator", "sign_rigger"): "two signatures under the same record",
}


def assert_refused(one: Scene, mutant: tuple[Deed, ...], what: str) -> None:
    """Fail unless a mutant is refused with a rule, a step inside the list and a reason [-]."""
    found = failed(one, mutant)
    assert found, what
    for answer in found.values():
        assert answer.name in RULES
        assert answer.verdict is Verdict.FAIL
        assert answer.why
        assert answer.step is None or 1 <= answer.step <= len(mutant)
    if not what.startswith("drop sign"):
        assert any(answer.step is not None for answer in found.values()), what


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_every_step_dropped_is_refused(before: str, after: str, name: str) -> None:
    """No step of a method is there for nothing."""
    one, listed = scene(before, after, name), deeds(before, after, name)
    for i, deed in enumerate(listed):
        assert_refused(one, listed[:i] + listed[i + 1 :], f"drop {deed}")


@pytest.mark.parametrize(("before", "after"), CHANGES)
def test_every_step_done_twice_is_refused(before: str, after: str) -> None:
    one, listed = scene(before, after), deeds(before, after)
    for i, deed in enumerate(listed):
        assert_refused(one, (*listed[: i + 1], *listed[i:]), f"twice {deed}")


def swaps_let_through(before: str, after: str, name: str) -> set[tuple[str, str]]:
    """Return the kinds of neighbours whose swap breaks no rule; every other swap is refused with its reason [-]."""
    one, listed = scene(before, after, name), deeds(before, after, name)
    found = set()
    for i in range(len(listed) - 1):
        a, b = listed[i], listed[i + 1]
        mutant = (*listed[:i], b, a, *listed[i + 2 :])
        if walk(one, mutant):
            assert_refused(one, mutant, f"swap {a} | {b}")
        else:
            found.add((a.kind, b.kind))
    return found


def test_every_swap_of_neighbours_is_refused_or_named_as_harmless() -> None:
    found = set[tuple[str, str]]()
    for case in CASES:
        here = swaps_let_through(*case)
        assert here <= set(HARMLESS), (case, here - set(HARMLESS))
        found |= here
    assert found == set(HARMLESS)


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_a_step_moved_anywhere_is_judged_as_by_the_second_statement(before: str, after: str, name: str) -> None:
    """Longer moves, by chance with a fixed start: the whole list, not only up to the first fault."""
    one, listed = scene(before, after, name), deeds(before, after, name)
    job, chance, refused = job_of(one, listed), Random(7), 0
    for _ in range(100):
        rest = list(listed)
        deed = rest.pop(chance.randrange(len(rest)))
        rest.insert(chance.randrange(len(rest) + 1), deed)
        log = [(d.kind, d.of) for d in rest]
        second = [why for i, (kind, of) in enumerate(log) for why in why_not(job, log[:i], kind, of)]
        breaks = walk(one, tuple(rest))
        assert bool(breaks) is bool(second), (deed, second, breaks)
        refused += bool(breaks)
    assert 70 < refused <= 100


@pytest.mark.parametrize(("before", "after", "name"), [CASES[0], CASES[4], CASES[5]])
def test_after_one_fault_every_later_step_is_judged_as_by_the_second_statement(
    before: str, after: str, name: str
) -> None:
    """One step left out, the walk goes on: each later step is let through by both statements or by none."""
    one, listed = scene(before, after, name), deeds(before, after, name)
    job = job_of(one, listed)
    for i, dropped in enumerate(listed):
        state, log = first_state(one), list[tuple[str, str]]()
        for deed in listed[:i] + listed[i + 1 :]:
            if len(log) >= i and deed.kind not in SIGNING:
                product, second = bool(unmet_needs(one, state, deed)), why_not(job, log, deed.kind, deed.of)
                assert product is bool(second), (dropped, deed, second, unmet_needs(one, state, deed))
            state = apply_deed(one, state, deed)
            log.append((deed.kind, deed.of))
