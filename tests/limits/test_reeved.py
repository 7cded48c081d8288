"""What follows from a pattern alone, kept for the very same book."""

from __future__ import annotations

import gc
from dataclasses import replace
from itertools import combinations

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.book.tackle import State
from becket.limits import reeved
from becket.limits.reeved import nearness_of, reeved_of, work_out_reeved
from becket.mechanics.crossing import least_distance
from becket.reeving.crossings import PlanPlaces, fall_lines
from tests.crane import invented_book, invented_settings

FOUR = State(block="main", falls=4)


def test_it_is_worked_out_once_for_one_book() -> None:
    book = invented_book()
    assert reeved_of(book, invented_settings(), FOUR) is reeved_of(book, invented_settings(), FOUR)


def test_a_changed_book_is_worked_out_anew() -> None:
    book = invented_book()
    before = reeved_of(book, invented_settings(), FOUR)
    changed = replace(book, head=replace(book.head, sheaves={**book.head.sheaves, 2: -0.2}))
    after = reeved_of(changed, invented_settings(), FOUR)
    assert before is not None
    assert after is not None
    assert before.first_side != after.first_side


def test_nothing_is_kept_of_a_book_that_is_gone() -> None:
    book = invented_book()
    reeved_of(book, invented_settings(), FOUR)
    kept = len(reeved._KNOWN)
    del book
    gc.collect()
    assert len(reeved._KNOWN) < kept


def test_a_pattern_that_is_not_on_file_has_nothing() -> None:
    assert reeved_of(invented_book(), invented_settings(), State(block="main", falls=7)) is None


def test_the_first_sheave_and_the_offsets() -> None:
    book = invented_book()
    four = work_out_reeved(book, invented_settings(), book.patterns[4])
    assert four.first_side == 0.165
    assert four.fleet_offset == 0.165  # fall 2, block 2 to head 4, held in the middle


places = st.floats(-0.5, 0.5)
points = st.tuples(places, places)
ends = st.integers(2, 6).flatmap(lambda n: st.tuples(*[st.lists(points, min_size=n, max_size=n)] * 2))


@settings(derandomize=True, deadline=None, max_examples=150)
@given(ends, st.floats(0.3, 60))
def test_the_bound_is_never_more_than_the_distance_in_space(
    ends: tuple[list[tuple[float, float]], ...], length: float
) -> None:
    plan = PlanPlaces(tops=tuple(ends[0]), lows=tuple(ends[1]))
    lines = fall_lines(plan, length)
    nearest = min(least_distance(a, b) for a, b in combinations(lines, 2))
    assert nearness_of(plan).at_least(length) <= nearest + 1e-9
    assert nearness_of(plan).at_least(length / 2) <= nearest + 1e-9  # it holds for every longer fall
