"""The chart must be the one of the lift's configuration."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from becket.book.crane import Book
from becket.limits.chart_page import chart_reading
from becket.limits.geometry import geometry_of
from becket.verdict import Verdict
from tests.crane import CHART, invented_book, invented_lift
from tests.limits.asking import limit

REAR = "full outriggers, 7 t, rear"


def _chart(**changes: Any) -> Book:
    book = invented_book()
    return replace(book, charts=tuple(replace(c, **changes) if c.name == CHART else c for c in book.charts))


@pytest.mark.parametrize(
    ("lift", "why"),
    [
        ({"counterweight": 0.0}, f"The chart {CHART} is for counterweight 7.00 t; the lift has 0.00 t."),
        ({"outriggers": "half"}, f"The chart {CHART} is for outriggers full; the lift has them half."),
        (
            {"chart": REAR, "sector": "side"},
            f"The chart {REAR} is for the sector rear; the lift is in the sector side.",
        ),
        (
            {"code": "0-100-0"},
            "The code 0-100-0 is not one of the 17.0 m boom; the book has 100-0-0.",
        ),
        (
            {"radius": (5.0, 13.0)},
            f"Chart {CHART}, row 100-0-0 17.0 m: nothing is printed for a radius of 13.00 m or longer.",
        ),
    ],
)
def test_another_configuration_fails(lift: dict[str, Any], why: str) -> None:
    found = limit("chart", **lift)
    assert (found.verdict, found.why) == (Verdict.FAIL, why)


def test_an_unnamed_chart_is_unknown() -> None:
    found = limit("chart", chart=None)
    assert (found.verdict, found.why) == (
        Verdict.UNKNOWN, "Not on file: name of the load chart (lift.chart), to be given with the lift.",
    )  # fmt: skip


def test_a_chart_that_is_not_in_the_book_is_unknown() -> None:
    found = limit("chart", chart="half outriggers")
    assert found.verdict is Verdict.UNKNOWN
    assert "load chart half outriggers (charts)" in found.why


def test_a_chart_of_one_sector_needs_the_sector() -> None:
    assert limit("chart", chart=REAR).verdict is Verdict.UNKNOWN
    assert limit("chart", chart=REAR, sector="rear").verdict is Verdict.PASS
    assert limit("chart", chart=REAR, sector="rear").have == 13_500.0


@pytest.mark.parametrize("key", ["counterweight", "outriggers", "sector"])
def test_a_chart_that_does_not_say_its_configuration_is_unknown(key: str) -> None:
    found = limit("chart", book=_chart(**{key: None}))
    assert found.verdict is Verdict.UNKNOWN
    assert f"charts.{CHART}.{key}" in found.why


def test_a_lift_that_leaves_it_to_the_chart_is_told_what_to_look_at() -> None:
    found = limit("chart", counterweight=None, outriggers=None)
    assert found.verdict is Verdict.PASS
    assert "The lift does not say its counterweight and outriggers: see that the chart's is fitted." in found.why


def test_two_codes_of_one_length_need_the_code() -> None:
    book = invented_book()
    other = replace(book.boom.lengths[1], code="0-100-0", sections=(0.0, 100.0, 0.0))
    book = replace(book, boom=replace(book.boom, lengths=(*book.boom.lengths, other)))
    assert limit("chart", book=book).verdict is Verdict.UNKNOWN
    assert limit("chart", book=book, code="100-0-0").verdict is Verdict.PASS
    assert limit("chart", book=book, code="0-100-0").verdict is Verdict.FAIL


def test_a_boom_length_that_the_book_does_not_have_is_not_permitted() -> None:
    lift: dict[str, Any] = {"boom": 20.0, "radius": (6.0, 7.0)}
    assert limit("chart", **lift).verdict is Verdict.UNKNOWN
    found = limit("chart", code="100-42-0", **lift)
    assert found.verdict is Verdict.FAIL
    assert found.why == "The code 100-42-0 is not one of the 20.0 m boom; the book has no boom of this length."


def test_a_boom_length_between_two_printed_rows() -> None:
    book = invented_book()
    between = replace(book.boom.lengths[1], length=20.0, code="100-42-0", sections=(100.0, 42.0, 0.0))
    book = replace(book, boom=replace(book.boom, lengths=(*book.boom.lengths, between)))
    found = limit("chart", book=book, boom=20.0, radius=(6.0, 7.0))
    assert (found.verdict, found.have) == (Verdict.PASS, 9_800.0)


def test_a_boom_angle_that_is_not_permitted_fails() -> None:
    found = limit("chart", radius=(1.5, 5.0))
    assert found.verdict is Verdict.FAIL
    assert found.why == (
        "At a radius of 1.50 m the 17.0 m boom would stand at 82.28 deg; permitted are 4.0 to 81.0 deg."
    )


def test_a_radius_out_of_reach_fails_everything_that_stands_there() -> None:
    found = limit("chart", radius=(5.0, 40.0))
    assert (found.verdict, found.why) == (
        Verdict.FAIL, "No boom angle of the 17.0 m boom puts the head at a radius of 40.00 m.",
    )  # fmt: skip
    for name in ("lead_line_pull", "rope_length", "twist", "fleet_angle", "head_clearance", "overhaul", "pattern"):
        assert limit(name, radius=(5.0, 40.0)).verdict is Verdict.FAIL


def test_a_sector_without_its_lowest_angle_is_unknown() -> None:
    found = limit("chart", sector="left")
    assert found.verdict is Verdict.UNKNOWN
    assert "lowest boom angle of this sector (boom.lowest)" in found.why


def test_the_reading_itself() -> None:
    book, lift = invented_book(), invented_lift()
    reading = chart_reading(book, lift, geometry_of(book, book.blocks["main"], lift))
    assert getattr(reading, "rated", None) == 12_500.0
