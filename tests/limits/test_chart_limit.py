"""Limit of the chart less what it counts."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from becket.book.charts import ChartCounts, Stowed
from becket.book.crane import Book
from becket.book.hoist import SecondLine
from becket.verdict import Verdict
from tests.crane import invented_book
from tests.limits.asking import limit

ROPE_OF_ONE_FALL = 17.554658190185226 * 1.28  # greatest fall length x mass of a metre [kg]


def _counting(rope: str = "no", **changes: Any) -> Book:
    counts = ChartCounts(**{"rigging": True, "block": True, "stowed": True, **changes}, rope=rope)
    book = invented_book()
    return replace(book, charts=tuple(replace(chart, counts=counts) for chart in book.charts))


def test_it_passes_within_the_chart() -> None:
    found = limit("chart")
    assert found.verdict is Verdict.PASS
    assert found.why == (
        "The chart full outriggers, 7 t permits 12.50 t; counted as it counts 9.21 t hang. Worst "
        "place: greatest radius."
    )


def test_it_fails_over_the_chart() -> None:
    found = limit("chart", load=12_000.0)
    assert found.verdict is Verdict.FAIL
    assert found.use is not None
    assert found.use > 1


@pytest.mark.parametrize(
    ("changes", "counted"),
    [
        ({}, 9180.0),
        ({"rope": "yes"}, 9180.0 + 4 * ROPE_OF_ONE_FALL),
        ({"rope": "falls beyond need"}, 9180.0 + ROPE_OF_ONE_FALL),  # three falls are enough for the lead line
        ({"rigging": False}, 8980.0),
        ({"block": False}, 8700.0),
    ],
)
def test_it_is_compared_with_what_it_counts(changes: dict[str, Any], counted: float) -> None:
    assert limit("chart", book=_counting(**changes)).need == pytest.approx(counted)


def test_falls_beyond_need_begin_with_the_fewest_whose_lead_line_pulls_enough() -> None:
    book = _counting(rope="falls beyond need")
    assert limit("chart", 3, book).need == pytest.approx(9180.0)
    assert limit("chart", 6, book).need == pytest.approx(9180.0 + 3 * ROPE_OF_ONE_FALL)
    assert limit("chart", 2, book).need == pytest.approx(9180.0)  # too few: none is beyond need


def test_where_the_pull_is_unknown_more_rope_counts_not_less() -> None:
    book = _counting(rope="falls beyond need")
    silent = replace(book, rope=replace(book.rope, length=None))
    assert limit("lead_line_pull", 1, silent).verdict is Verdict.FAIL  # over what the rope may bear
    assert limit("lead_line_pull", 2, silent).verdict is Verdict.UNKNOWN
    assert limit("chart", 4, silent).need == pytest.approx(9180.0 + 2 * ROPE_OF_ONE_FALL)


def test_a_chart_that_does_not_say_what_it_counts_is_compared_with_all() -> None:
    book = invented_book(second_line=SecondLine(hangs="ball", mass=210.0))
    book = replace(book, charts=tuple(replace(chart, counts=None) for chart in book.charts))
    assert limit("chart", book=book).need == pytest.approx(9180.0 + 4 * ROPE_OF_ONE_FALL + 210)


def test_stowed_parts_and_the_second_line_count() -> None:
    stowed = (Stowed(name="extension", deduct={17.0: 350.0}),)
    line = SecondLine(hangs="ball", mass=210.0)
    book = replace(_counting(), stowed=stowed, second_line=line)
    assert limit("chart", book=book).need == pytest.approx(9180.0 + 350 + 210)
    left_out = replace(_counting(stowed=False), stowed=stowed, second_line=line)
    assert limit("chart", book=left_out).need == pytest.approx(9180.0 + 210)


def test_what_is_stowed_must_be_said_even_where_the_chart_leaves_it_out() -> None:
    assert limit("chart", book=replace(_counting(stowed=False), stowed=None)).verdict is Verdict.UNKNOWN


def test_a_deduction_that_the_chart_leaves_out_need_not_be_on_file() -> None:
    other_length = (Stowed(name="extension", deduct={31.4: 350.0}),)
    assert limit("chart", book=replace(_counting(stowed=False), stowed=other_length)).verdict is Verdict.PASS
    assert limit("chart", book=replace(_counting(stowed=True), stowed=other_length)).verdict is Verdict.UNKNOWN


def test_the_greatest_radius_is_the_worst_place() -> None:
    assert limit("chart", radius=(5.0, 5.0)).have == 17_500.0
    assert limit("chart", radius=(5.0, 9.0)).have == 9_200.0
