"""Places at both ends of the radius range."""

from __future__ import annotations

from math import pi, radians
from typing import Any

import pytest

from becket.limits.figures import Impossible, Missing
from becket.limits.geometry import End, Geometry, geometry_of, sector_lowest
from tests.crane import invented_book, invented_lift
from tests.limits.asking import book_with, head_by_halving


def _geometry(**lift: Any) -> Geometry:
    book = invented_book()
    return geometry_of(book, book.blocks["main"], invented_lift(**lift))


def test_both_ends_of_the_range() -> None:
    at = _geometry()
    near, far = head_by_halving(5.0), head_by_halving(7.0)
    assert isinstance(at.steep, End)
    assert isinstance(at.flat, End)
    assert (at.steep.angle, at.steep.head[1]) == pytest.approx(near)
    assert (at.flat.angle, at.flat.head[1]) == pytest.approx(far)
    assert at.greatest_fall == pytest.approx(near[1] - 0.88)
    assert at.least_fall == pytest.approx(far[1] - 5.88 - 0.03)  # hook at 5 m, sag of the 17 m boom


def test_the_order_of_a_range_does_not_matter() -> None:
    assert _geometry(radius=(7.0, 5.0), top=0.0, bottom=5.0) == _geometry()


def test_the_sector_decides_the_lowest_angle() -> None:
    book = invented_book()
    assert sector_lowest(book, "side") == radians(-1)
    assert sector_lowest(book, None) == radians(4)  # none given: the highest of them
    assert sector_lowest(book, "all round") == radians(4)
    assert isinstance(sector_lowest(book, "left"), Missing)
    assert isinstance(sector_lowest(book_with(boom={"lowest": {}}), None), Missing)


def test_a_level_boom_is_permitted_over_the_side_alone() -> None:
    side, front = _geometry(radius=(15.8, 15.8), sector="side"), _geometry(radius=(15.8, 15.8), sector="front")
    assert isinstance(side.flat, End)
    assert isinstance(front.flat, Impossible)


def test_one_end_out_of_reach_makes_the_lift_impossible() -> None:
    at = _geometry(radius=(5.0, 50.0))
    assert isinstance(at.steep, Impossible)
    assert isinstance(at.greatest_fall, Impossible)


def test_the_first_arc_is_part_of_the_lead() -> None:
    at = _geometry(radius=(5.0, 5.0))
    assert isinstance(at.lead_steep, float)
    assert isinstance(at.straight_lead, float)
    assert isinstance(at.steep, End)
    assert at.lead_steep - at.straight_lead == pytest.approx((pi / 2 + at.steep.angle) * 0.18)


def test_a_missing_height_leaves_the_other_known() -> None:
    at = _geometry(top=None)
    assert isinstance(at.greatest_fall, float)
    assert isinstance(at.least_fall, Missing)
