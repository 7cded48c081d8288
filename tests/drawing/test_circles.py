"""Geometry of the search against shapely; two rows of numbers for many falls."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Point, box

from becket.drawing.circles import distance_to, is_crossed
from becket.drawing.front import lay_out_front
from tests.drawing.tackles import tackle

NUMBER = st.integers(-20, 20).map(float)
PLACE = st.tuples(NUMBER, NUMBER)


@given(PLACE, PLACE, PLACE)
@settings(derandomize=True, deadline=None, max_examples=200)
def test_distance(place: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> None:
    measured = Point(place).distance(LineString([a, b]) if a != b else Point(a))
    assert distance_to(place, (a, b)) == pytest.approx(measured)


@given(PLACE, PLACE)
@settings(derandomize=True, deadline=None, max_examples=200)
def test_crossing(a: tuple[float, float], b: tuple[float, float]) -> None:
    """Through the inside of the box, as shapely has it; touching an edge is not crossing."""
    inside = box(-5.5, -3.5, 7.5, 4.5)
    assume(a != b)
    expected = LineString([a, b]).intersection(inside).length > 0
    assert is_crossed((-5.5, -3.5, 7.5, 4.5), (a, b)) is expected


def test_many_falls_have_their_numbers_in_two_rows() -> None:
    one = tackle(16)
    front = lay_out_front(one.book, one.pattern, "cab")
    assert len({y for _, y in front.circles.values()}) == 2
    few = lay_out_front(tackle(4).book, tackle(4).pattern, "cab")
    assert set(few.circles) == {1, 2, 3, 4}
