"""Falls that rub or cross, seen from the places where they hang.

In:    places of the falls, fall lengths.
Out:   distances between falls, pairs that cross in the front view with the faces they hang on.
Never: a verdict; a place that is not on file.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import combinations
from math import cos, sin

from becket.mechanics.crossing import Point, crosses_in_front_view, least_distance
from becket.mechanics.twist import Place, hangs_turned
from becket.reeving.places import FallPlaces

Line = tuple[Point, Point]


@dataclass(frozen=True, kw_only=True)
class PlanPlaces:
    """The ends of the falls in plan, every one known."""

    tops: tuple[Place, ...]
    lows: tuple[Place, ...]


@dataclass(frozen=True, kw_only=True)
class NearestFalls:
    """Two falls, how near their centre lines come and at which fall length."""

    falls: tuple[int, int]
    distance: float  # [m]
    fall_length: float  # [m]


@dataclass(frozen=True, kw_only=True)
class Crossing:
    """Two falls that cross in the front view."""

    falls: tuple[int, int]
    distance: float  # least between their centre lines [m]
    same_face: bool | None  # both hang on the same face of the block; None: the place of the dead end is not on file


def plan_places(places: FallPlaces) -> PlanPlaces | None:
    """Return the ends of the falls in plan; None: a place along is not on file [m].

    Args:
        places: of the falls
    """
    tops = tuple((side, along) for side, along in places.tops if along is not None)
    lows = tuple((side, along) for side, along in places.lows if along is not None)
    if len(tops) < len(places.tops) or len(lows) < len(places.lows):
        return None
    return PlanPlaces(tops=tops, lows=lows)


def turned(plan: PlanPlaces) -> float:
    """Return how far the block hangs turned, psi0; one fall: not at all [rad].

    Args:
        plan: ends of the falls

    Source: docs/theory/twist.md, eq. 3.
    """
    return hangs_turned(plan.tops, plan.lows) if len(plan.tops) > 1 else 0.0


def fall_lines(plan: PlanPlaces, fall_length: float) -> tuple[Line, ...]:
    """Return the falls as lines in space, the block hanging free and turned by psi0 [m], shape (falls, 2, 3).

    Args:
        plan: ends of the falls
        fall_length: head shaft to block shaft [m]

    Source: docs/theory/reeving.md, eq. 5.
    """
    angle = turned(plan)
    count = len(plan.tops)
    middle_top = (sum(x for x, _ in plan.tops) / count, sum(y for _, y in plan.tops) / count)
    middle_low = (sum(x for x, _ in plan.lows) / count, sum(y for _, y in plan.lows) / count)
    lines = []
    for (top_x, top_y), (low_x, low_y) in zip(plan.tops, plan.lows, strict=True):
        x, y = low_x - middle_low[0], low_y - middle_low[1]
        low = (
            middle_top[0] + x * cos(angle) - y * sin(angle),
            middle_top[1] + x * sin(angle) + y * cos(angle),
            -fall_length,
        )
        lines.append(((top_x, top_y, 0.0), low))
    return tuple(lines)


def nearest_falls(plan: PlanPlaces, fall_lengths: tuple[float, ...]) -> NearestFalls | None:
    """Return the two falls that come nearest to each other; one fall: None [m].

    Args:
        plan: ends of the falls
        fall_lengths: to look at [m], shape (lengths,)

    Source: docs/theory/crossing.md, eq. 1 to 3.
    """
    found = [
        NearestFalls(falls=(a + 1, b + 1), distance=least_distance(lines[a], lines[b]), fall_length=length)
        for length in fall_lengths
        for lines in (fall_lines(plan, length),)
        for a, b in combinations(range(len(lines)), 2)
    ]
    return min(found, key=lambda one: one.distance, default=None)


def find_crossings(places: FallPlaces, fall_lengths: tuple[float, ...]) -> tuple[Crossing, ...]:
    """Return every pair of falls that crosses in the front view, at its nearest [-].

    Args:
        places: of the falls
        fall_lengths: to look at [m], shape (lengths,)

    Source: docs/theory/crossing.md, eq. 4.
    """
    plan = plan_places(places)
    if plan is None:
        return ()
    views = [fall_lines(plan, length) for length in fall_lengths]
    return tuple(
        Crossing(
            falls=(a + 1, b + 1),
            distance=min(least_distance(lines[a], lines[b]) for lines in views),
            same_face=_same_face(places, a, b),
        )
        for a, b in combinations(range(len(plan.tops)), 2)
        if any(crosses_in_front_view(lines[a], lines[b]) for lines in views)
    )


def _same_face(places: FallPlaces, a: int, b: int) -> bool | None:
    one, other = places.faces[a], places.faces[b]
    return None if one is None or other is None else one == other
