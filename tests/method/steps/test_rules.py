"""The rules, against a second statement of them, over all orders of windows of a method and any deed at any moment."""

from __future__ import annotations

from random import Random

import pytest

from becket.method.crane_state import CraneState, Deed
from becket.method.deeds import SIGNING
from becket.method.order import apply_deed, unmet_needs
from becket.method.rules import RULES, left_open, prove_rules, walk
from becket.method.scene import Scene, first_state
from becket.verdict import Verdict
from tests.method.steps.checker import Job, Pin, why_not
from tests.method.steps.scenes import CASES, deeds, failed, moved, scene, without

WINDOW = 8


def job_of(one: Scene, listed: tuple[Deed, ...]) -> Job:
    """Return a change in plain words, for the second statement of the rules [-]."""
    position = one.facts.position.position
    return Job(
        old=tuple(map(str, one.before.path)),
        new=tuple(map(str, one.after.path)),
        shared=len(one.path.keep),
        old_block=one.before.block,
        new_block=one.after.block,
        pins=tuple(Pin(name=k.name, at=k.at, block=k.block, holds=k.holds, draw=k.draw) for k in one.path.keepers),
        override_needed=position is not None and position.override is not None,
        override_listed=position is not None and position.override is not None,
        confirmed=one.facts.is_confirmed,
        everything=frozenset(
            (d.kind, d.of) for d in listed if d.kind not in ("sign_operator", "sign_rigger", "call_in", "clear_out")
        ),
    )


def product_accepts(one: Scene, state: CraneState, deed: Deed) -> bool:
    """Return whether the product's walk lets a deed through in a state [-]."""
    return not unmet_needs(one, state, deed) and not (deed.kind in SIGNING and left_open(one, state, signing=True))


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_any_deed_at_any_moment_is_let_through_by_both_statements_or_by_none(
    before: str, after: str, name: str
) -> None:
    one, listed = scene(before, after, name), deeds(before, after, name)
    job, state, seen = job_of(one, listed), first_state(one), set[bool]()
    log: list[tuple[str, str]] = []
    for done in listed:
        for deed in {*listed, Deed(kind="call_in"), Deed(kind="clear_out")}:
            product, second = product_accepts(one, state, deed), why_not(job, log, deed.kind, deed.of)
            assert product is not bool(second), (len(log), deed, second, unmet_needs(one, state, deed))
            seen.add(product)
        state = apply_deed(one, state, done)
        log.append((done.kind, done.of))
    assert seen == {True, False}


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_any_deed_on_random_ways_through_the_method(before: str, after: str, name: str) -> None:
    """The states that other right orders lead to, not only those of the printed one."""
    one, listed = scene(before, after, name), deeds(before, after, name)
    job, chance = job_of(one, listed), Random(2026)
    every = sorted({*listed, Deed(kind="call_in"), Deed(kind="clear_out")}, key=str)
    lengths = []
    for _ in range(2):
        state, log = first_state(one), list[tuple[str, str]]()
        while len(log) < 110:
            accepted = []
            for deed in every:
                product, second = product_accepts(one, state, deed), why_not(job, log, deed.kind, deed.of)
                assert product is not bool(second), (log, deed, second, unmet_needs(one, state, deed))
                accepted += [deed] if product else []
            if not accepted:
                break
            deed = chance.choice([d for d in accepted if d.kind not in ("call_in", "clear_out")] or accepted)
            state = apply_deed(one, state, deed)
            log.append((deed.kind, deed.of))
        lengths.append(len(log))
    assert max(lengths) > 20


def count_orders(one: Scene, job: Job, state: CraneState, log: list[tuple[str, str]], left: tuple[Deed, ...]) -> int:
    """Return how many orders of the deeds that are left both statements accept; fail where they differ [-].

    A deed that is refused at its place is refused whatever follows: a broken order is not looked at further.
    """
    if not left:
        return 1
    orders = 0
    for i, deed in enumerate(left):
        if deed in left[:i]:
            continue
        product, second = product_accepts(one, state, deed), why_not(job, log, deed.kind, deed.of)
        assert product is not bool(second), (log[-WINDOW:], deed, second, unmet_needs(one, state, deed))
        if product:
            rest = left[:i] + left[i + 1 :]
            orders += count_orders(one, job, apply_deed(one, state, deed), [*log, (deed.kind, deed.of)], rest)
    return orders


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_all_orders_of_every_window_of_eight_deeds(before: str, after: str, name: str) -> None:
    """Every one of the 8! orders of every eight neighbours, those before them done."""
    one, listed = scene(before, after, name), deeds(before, after, name)
    job, state, found = job_of(one, listed), first_state(one), []
    for start in range(len(listed) - WINDOW + 1):
        log = [(d.kind, d.of) for d in listed[:start]]
        found.append(count_orders(one, job, state, log, listed[start : start + WINDOW]))
        state = apply_deed(one, state, listed[start])
    assert min(found) >= 1
    assert max(found) > 1


def test_every_rule_is_asked_somewhere() -> None:
    """Dropping one deed after the other, and closing too early, breaks each of the 18 rules at least once."""
    broken = set()
    for before, after in (("main:2", "main:4"), ("main:4", "ball:1")):
        one, listed = scene(before, after), deeds(before, after)
        broken |= {b.rule for i in range(len(listed)) for b in walk(one, listed[:i] + listed[i + 1 :])}
    assert len(RULES) == 18
    assert broken == set(RULES)


def test_a_rule_names_the_first_step_that_breaks_it_and_why() -> None:
    one, listed = scene("main:2", "main:4"), deeds("main:2", "main:4")
    mutant = without(listed, "steady")
    answer = failed(one, mutant)["steady_then_slack"]
    assert mutant[(answer.step or 0) - 1].kind == "down_to_window"
    assert answer.why == "the block is not steadied before the falls go slack"
    assert all(a.verdict is Verdict.PASS and a.step is None for a in prove_rules(one, listed))


def test_a_list_that_ends_early_is_open_at_its_end() -> None:
    one, listed = scene("main:2", "main:4"), deeds("main:2", "main:4")
    for end in range(len(listed)):
        assert "order" in failed(one, listed[:end]), end
    half = failed(one, listed[: [d.kind for d in listed].index("thread")])
    assert {"path", "dead_end", "keepers_counted", "switch", "winch", "indicator", "hands"} <= set(half)
    assert half["path"].step is None
    assert half["path"].why == "the rope does not run as the pattern says"


def test_signing_before_the_end_is_closing_what_is_not_whole() -> None:
    one, listed = scene("main:2", "main:4"), deeds("main:2", "main:4")
    for kind in ("compare_counts", "lift_off", "prove_switch", "spool", "first_lift"):
        found = failed(one, moved(listed, "sign_operator", kind))
        assert found["broken_off"].step is not None, kind
        assert found["order"].step == found["broken_off"].step, kind
    assert listed[-2:] == (Deed(kind="sign_operator"), Deed(kind="sign_rigger"))
