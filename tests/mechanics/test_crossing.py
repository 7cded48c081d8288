"""How near two falls come to each other."""

from __future__ import annotations

from math import dist

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from becket.mechanics.crossing import Point, crosses_in_front_view, least_distance

house = settings(derandomize=True, deadline=None, max_examples=100)
points = st.tuples(st.floats(-2, 2), st.floats(-2, 2), st.floats(-8, 2))
segments = st.tuples(points, points)
Fall = tuple[Point, Point]


@house
@given(a=segments, b=segments)
def test_against_a_minimum_found_by_search(a: Fall, b: Fall) -> None:
    (a0, a1), (b0, b1) = np.array(a), np.array(b)

    def square(x: np.ndarray) -> float:
        gap = a0 + x[0] * (a1 - a0) - b0 - x[1] * (b1 - b0)
        return float(gap @ gap)

    starts = [np.array(s) for s in ((0.5, 0.5), (0.0, 0.0), (1.0, 1.0), (0.0, 1.0), (1.0, 0.0))]
    found = min(minimize(square, s, bounds=[(0, 1), (0, 1)], options={"ftol": 1e-15}).fun for s in starts)
    assert least_distance(a, b) == pytest.approx(max(found, 0.0) ** 0.5, abs=2e-4)


@house
@given(a=segments, b=segments, move=points)
def test_order_ends_and_place_do_not_matter(a: Fall, b: Fall, move: Point) -> None:
    def moved(fall: Fall) -> Fall:
        (x0, y0, z0), (x1, y1, z1) = fall
        dx, dy, dz = move
        return (x0 + dx, y0 + dy, z0 + dz), (x1 + dx, y1 + dy, z1 + dz)

    distance = pytest.approx(least_distance(a, b), abs=1e-6)
    assert least_distance(b, a) == distance
    assert least_distance((a[1], a[0]), b) == distance
    assert least_distance(moved(a), moved(b)) == distance
    assert least_distance(a, b) <= min(dist(p, q) for p in a for q in b) + 1e-9


def test_parallel_falls_side_by_side_and_one_above_the_other() -> None:
    a: Fall = ((0.0, 0.0, 0.0), (0.0, 0.0, -5.0))
    assert least_distance(a, ((0.3, 0.4, -1.0), (0.3, 0.4, -9.0))) == pytest.approx(0.5)
    assert least_distance(a, ((0.0, 0.3, -5.4), (0.0, 0.3, -9.0))) == pytest.approx(0.5)


def test_a_fall_without_length_is_a_point() -> None:
    point: Fall = ((0.3, 0.4, -2.0), (0.3, 0.4, -2.0))
    assert least_distance(point, ((0.0, 0.0, 0.0), (0.0, 0.0, -5.0))) == pytest.approx(0.5)
    assert least_distance(point, point) == 0.0


def test_crossing_in_the_front_view_is_an_order_that_turns() -> None:
    left, right = (-0.1, 0.2, 0.0), (0.1, -0.2, 0.0)
    low_left, low_right = (-0.1, 0.2, -5.0), (0.1, -0.2, -5.0)
    assert crosses_in_front_view((left, low_right), (right, low_left))
    assert not crosses_in_front_view((left, low_left), (right, low_right))
    assert not crosses_in_front_view((left, low_left), (left, low_right))  # one place at the top is no order
