"""The rope leg by leg: sides as the places of the falls have them, points that meet."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from becket.drawing.layout import lay_out
from becket.drawing.legs import along, is_behind, legs_of, side_of_fall, wedge_points
from becket.reeving.places import fall_places
from tests.drawing.tackles import Tackle, tackle, tackles


@given(tackles())
@settings(derandomize=True, deadline=None, max_examples=60)
def test_sides_agree_with_the_places_of_the_falls(one: Tackle) -> None:
    """A fall that leaves its sheave forward of the shaft is on the tip side; worked out elsewhere from the book."""
    places = fall_places(one.book, one.pattern)
    assert places is not None
    for fall, (top, low) in enumerate(zip(places.tops, places.lows, strict=True), start=1):
        for end, is_sheave in ((top, places.top_on_sheave[fall - 1]), (low, places.low_on_sheave[fall - 1])):
            if is_sheave:
                expected = None if end[1] is None else "tip" if end[1] > 0 else "cab"
                assert side_of_fall(one.book, fall) == expected


def test_the_lead_line_comes_on_the_other_side_of_fall_1() -> None:
    for lead in ("over", "under"):
        book = tackle(2, lead=lead).book
        assert {side_of_fall(book, 0), side_of_fall(book, 1)} == {"cab", "tip"}
    assert side_of_fall(tackle(2, lead=None).book, 0) is None


def test_behind_is_the_side_away_from_the_one_who_looks() -> None:
    one = tackle(2)
    cab, rigger = (lay_out(one.book, one.pattern, view) for view in ("cab", "rigger"))
    assert [is_behind(cab, 1), is_behind(cab, 2)] == [True, False]
    assert [is_behind(rigger, 1), is_behind(rigger, 2)] == [False, True]


def test_the_wedge_is_wide_toward_its_anchor() -> None:
    """On the head wide above, on the block wide below."""
    for falls, sign in ((2, -1), (3, 1)):
        one = tackle(falls)
        points = wedge_points(lay_out(one.book, one.pattern, "cab"))
        assert points[1][0] - points[0][0] > points[2][0] - points[3][0] > 0
        assert sign * (points[0][1] - points[2][1]) > 0


def test_falls_go_down_and_up_in_turn() -> None:
    one = tackle(4)
    falls = [leg for leg in legs_of(lay_out(one.book, one.pattern, "cab"), -60) if leg.kind == "fall"]
    assert [leg.points[-1][1] > leg.points[0][1] for leg in falls] == [True, False, True, False]


def test_along() -> None:
    line = ((0.0, 0.0), (0.0, 10.0), (10.0, 10.0))
    for share, place, direction in ((0.25, (0, 5), (0, 1)), (0.75, (5, 10), (1, 0)), (1.0, (10, 10), (1, 0))):
        at, way = along(line, share)
        assert at == pytest.approx(place)
        assert way == direction
