"""The rules, against a second statement of them, over all orders of windows of a method and any deed at any moment."""

from __future__ import annotations

import pytest

from becket.method.crane_state import CraneState, Deed
from becket.method.deeds import SIGNING
from becket.method.order import apply_deed, unmet_needs
from becket.method.rules import left_open
from becket.method.scene import Scene, first_state
from tests.method.steps.checker import Job, Pin, why_not
from tests.method.steps.scenes import CASES, deeds, scene

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
        switch_stops_the_boom="derrick down" in one.book.switch.stops,
        override_listed=position is not None and position.override is not None,
        confirmed=one.facts.is_confirmed,
        everything=frozenset(
            (d.kind, d.of) for d in listed if d.kind not in ("sign_operator", "sign_rigger", "call_in", "clear_out")
        ),
    )


def product_accepts(one: Scene, state: CraneState, deed: Deed) -> bool:
    """Return whether the product's walk lets a deed through in a state [-]."""
    return not unmet_needs(one, state, deed) and not (
        deed.kind in SIGNING and [b for b in left_open(one, state, signing=True) if b.rule != "hands"]
    )


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_any_deed_at_any_moment_is_let_through_by_both_statements_or_by_none(
    before: str, after: str, name: str
) -> None:
    one, listed = scene(before, after, name), deeds(before, after, name)
    job, state, log, seen = job_of(one, listed), first_state(one), [], set()
    for done in listed:
        for deed in {*listed, Deed(kind="call_in"), Deed(kind="clear_out")}:
            product, second = product_accepts(one, state, deed), why_not(job, log, deed.kind, deed.of)
            assert product is not bool(second), (len(log), deed, second, unmet_needs(one, state, deed))
            seen.add(product)
        state = apply_deed(one, state, done)
        log.append((done.kind, done.of))
    assert seen == {True, False}


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
