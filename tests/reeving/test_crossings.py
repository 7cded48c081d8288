"""Crossing falls against Shapely and against a rope walked in small steps: independent ways to the same answer."""

from __future__ import annotations

from itertools import combinations
from math import cos, hypot, sin

import numpy as np
import shapely
from hypothesis import given, settings
from scipy.optimize import minimize_scalar

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.reeving.crossings import fall_lines, find_crossings, nearest_falls, plan_places, turned
from becket.reeving.places import fall_places
from tests.reeving.patterns import books_with_pattern


@given(books_with_pattern(most_falls=7))
@settings(derandomize=True, deadline=None, max_examples=60)
def test_shapely_sees_the_same_falls_cross(made: tuple[Book, Pattern]) -> None:
    places = fall_places(*made)
    assert places is not None
    plan = plan_places(places)
    assert plan is not None
    lines = fall_lines(plan, 4.0)
    front = [shapely.LineString([(top[0], top[2]), (low[0], low[2])]) for top, low in lines]
    crossed = {one.falls for one in find_crossings(places, (4.0,))}
    for a, b in combinations(range(len(lines)), 2):
        shared = {lines[a][0][0], lines[a][1][0]}, {lines[b][0][0], lines[b][1][0]}
        if min(abs(lines[a][end][0] - lines[b][end][0]) for end in (0, 1)) < 1e-9:
            assert (a + 1, b + 1) not in crossed, shared  # they meet at one end or hang one behind the other
        else:
            assert front[a].crosses(front[b]) is ((a + 1, b + 1) in crossed)


@given(books_with_pattern(most_falls=6))
@settings(derandomize=True, deadline=None, max_examples=25)
def test_nearest_falls_against_points_along_them(made: tuple[Book, Pattern]) -> None:
    places = fall_places(*made)
    assert places is not None
    plan = plan_places(places)
    assert plan is not None
    nearest = nearest_falls(plan, (1.2, 5.0))
    if len(plan.tops) == 1:
        assert nearest is None
        return
    least = min(
        np.min(np.linalg.norm(_points(lines[a])[:, None] - _points(lines[b])[None], axis=2))
        for lines in (fall_lines(plan, 1.2), fall_lines(plan, 5.0))
        for a, b in combinations(range(len(lines)), 2)
    )
    assert nearest is not None
    assert nearest.distance <= least + 1e-9
    assert least - nearest.distance < 0.03


@given(books_with_pattern(most_falls=8))
@settings(derandomize=True, deadline=None, max_examples=40)
def test_block_hangs_where_its_falls_are_shortest(made: tuple[Book, Pattern]) -> None:
    """Turned by psi0 and with its middle under the middle of the tops, the falls lie least askew."""
    places = fall_places(*made)
    assert places is not None
    plan = plan_places(places)
    assert plan is not None
    if len(plan.tops) == 1:
        return

    def askew(angle: float) -> float:
        tops, lows = np.array(plan.tops), np.array(plan.lows)
        tops, lows = tops - tops.mean(axis=0), lows - lows.mean(axis=0)
        turn = np.array([[cos(angle), -sin(angle)], [sin(angle), cos(angle)]])
        return float(((tops - lows @ turn.T) ** 2).sum())

    best = min(
        (minimize_scalar(askew, bounds=(low, low + 1.6), method="bounded") for low in (-3.2, -1.6, 0.0, 1.6)),
        key=lambda found: found.fun,
    )
    assert askew(turned(plan)) <= best.fun + 1e-9
    drawn = sum(hypot(top[0] - low[0], top[1] - low[1]) ** 2 for top, low in fall_lines(plan, 3.0))
    assert abs(drawn - askew(turned(plan))) < 1e-9


def _points(
    line: tuple[tuple[float, float, float], tuple[float, float, float]],
) -> np.ndarray[tuple[int, int], np.dtype[np.float64]]:
    steps = np.linspace(0, 1, 200)[:, None]
    return np.asarray((1 - steps) * np.array(line[0]) + steps * np.array(line[1]))
