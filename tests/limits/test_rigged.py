"""What the reeving that is on can do."""

from __future__ import annotations

from dataclasses import replace
from math import floor
from typing import Any

import pytest

from becket.book.charts import ChartCounts
from becket.book.crane import Book
from becket.book.tackle import State
from becket.errors import NotOnFileError
from becket.limits.answer import RiggedAnswer
from becket.limits.rigged import rigged_limits
from becket.limits.table import row_of
from becket.verdict import Verdict
from tests.crane import invented_book, invented_lift, invented_settings
from tests.limits.asking import book_with, without_pattern

GRAVITY = 9.80665
FALL = 17.554658190185226  # greatest fall length of the invented lift [m]


def _rigged(falls: int, book: Book | None = None, **lift: Any) -> RiggedAnswer:
    asked = invented_lift(load=None, load_basis=None, rigging=None, **lift)
    return rigged_limits(book or invented_book(), invented_settings(), State(block="main", falls=falls), asked)


def _verdict(falls: int, load: float, book: Book | None = None, **lift: Any) -> Verdict:
    asked = invented_lift(load=load, rigging=0.0, **lift)
    return row_of(book or invented_book(), invented_settings(), State(block="main", falls=falls), asked).verdict


def test_two_falls_are_governed_by_the_lead_line() -> None:
    found = _rigged(2)
    gross = 36_000 * 0.98 * (1 + 0.98) / GRAVITY  # layer 4, friction of the head sheave and of the block's
    assert found.greatest_load == floor(gross - 480 - 2 * FALL * 1.28)
    assert (found.verdict, found.load_governs) == (Verdict.PASS, "lead_line_pull")


def test_six_falls_are_governed_by_the_chart() -> None:
    found = _rigged(6)
    # 12.5 t at 7 m; at this load four falls are needed, so the rope of two counts
    assert found.greatest_load == floor(12_500 - 480 - 2 * FALL * 1.28)
    assert found.load_governs == "chart"


def test_every_lighter_load_passes_on_six_falls() -> None:
    found = _rigged(6).greatest_load
    assert found is not None
    for load in range(0, int(found) + 1, 97):
        assert _verdict(6, float(load)) is Verdict.PASS
    assert _verdict(6, found + 1) is Verdict.FAIL


@pytest.mark.parametrize("falls", [2, 3, 4, 6])
def test_it_is_the_greatest_whole_kilogram(falls: int) -> None:
    found = _rigged(falls).greatest_load
    assert found is not None
    assert _verdict(falls, found) is Verdict.PASS
    assert _verdict(falls, found + 1) is not Verdict.PASS


def test_every_lighter_load_passes_too_where_a_chart_counts_falls_beyond_need() -> None:
    # a rope of 20 kg a metre: what the chart counts drops by hundreds of kilograms where one fall more is needed
    heavy = book_with(rope={"mass": 20.0}, winch={"drag": 0.0}, block={"mass": 4000.0})
    heavy = replace(heavy, falls_table=None if heavy.falls_table is None else replace(heavy.falls_table, printed=False))
    found = _rigged(4, heavy)
    assert found.greatest_load is not None
    for load in range(0, int(found.greatest_load) + 1, 41):
        assert _verdict(4, float(load), heavy) is Verdict.PASS


def test_the_hook_anywhere_from_bottom_to_top_counts() -> None:
    high, low = _rigged(2, bottom=4.0).greatest_load, _rigged(2, bottom=-10.0).greatest_load
    assert high is not None
    assert low is not None
    assert high > low


def test_a_limit_that_is_unknown_at_any_load_leaves_no_load() -> None:
    found = _rigged(5)
    assert (found.verdict, found.greatest_load, found.load_governs) == (Verdict.UNKNOWN, None, "pattern")
    assert (found.lowest_hook, found.hook_governs) == (None, "pattern")


def test_a_pattern_that_is_not_on_file_leaves_no_load() -> None:
    found = _rigged(4, without_pattern(invented_book(), 4))
    assert (found.verdict, found.greatest_load) == (Verdict.UNKNOWN, None)


def test_a_top_that_is_not_given_leaves_no_load() -> None:
    found = _rigged(4, top=None)
    assert (found.verdict, found.greatest_load, found.lowest_hook) == (Verdict.UNKNOWN, None, None)


def test_a_block_that_hangs_up_fails_at_any_load() -> None:
    found = _rigged(4, book_with(block={"mass": 100.0}))
    assert (found.verdict, found.greatest_load, found.load_governs) == (Verdict.FAIL, None, "overhaul")


def test_the_lowest_hook_is_where_the_rope_ends() -> None:
    found = _rigged(6)
    assert found.lowest_hook is not None
    assert found.hook_governs == "wraps"
    assert _verdict(6, 0.0, bottom=found.lowest_hook) is Verdict.PASS
    assert _verdict(6, 0.0, bottom=found.lowest_hook - 0.01) is Verdict.FAIL


def test_the_lowest_hook_may_be_above_the_bottom_asked() -> None:
    short = book_with(rope={"length": 85.0})
    found = _rigged(4, short)
    assert (found.greatest_load, found.verdict) == (None, Verdict.FAIL)
    assert found.lowest_hook is not None
    assert 0.0 < found.lowest_hook < 5.0
    assert _verdict(4, 0.0, short, bottom=found.lowest_hook) is Verdict.PASS


def test_the_load_of_the_lift_does_not_matter() -> None:
    lift = invented_lift(load=1.0, load_basis="estimate", rigging=None)
    state = State(block="main", falls=2)
    other = invented_lift(load=None, load_basis=None, rigging=99_999.0)
    assert rigged_limits(invented_book(), invented_settings(), state, lift) == rigged_limits(
        invented_book(), invented_settings(), state, other
    )


def test_the_limits_are_those_at_the_greatest_load() -> None:
    found = _rigged(2)
    asked = invented_lift(load=found.greatest_load, rigging=0.0)
    row = row_of(invented_book(), invented_settings(), State(block="main", falls=2), asked)
    assert found.limits == row.limits


def test_a_block_that_the_book_does_not_have() -> None:
    with pytest.raises(NotOnFileError):
        rigged_limits(invented_book(), invented_settings(), State(block="x", falls=2), invented_lift())


def test_a_crane_that_lifts_nothing_fails() -> None:
    counts = ChartCounts(rigging=True, block=True, rope="no", stowed=True)
    book = invented_book()
    rated = {5.0: 480.5, 7.0: 480.5}
    charts = tuple(replace(c, counts=counts, rows=tuple(replace(r, rated=rated) for r in c.rows)) for c in book.charts)
    found = _rigged(4, replace(book, charts=charts))
    assert (found.greatest_load, found.verdict, found.load_governs) == (0.0, Verdict.FAIL, "chart")
