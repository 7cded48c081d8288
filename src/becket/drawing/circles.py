"""Where the numbers of the falls stand: on their own fall, touching no other rope and no other number.

In:    a layout and its legs.
Out:   middles of the circles; the place of the words at the dead end.
Never: shapes; a number beside its fall.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from math import hypot

from becket.drawing.layout import BOX_HEIGHT, ROPE, Layout
from becket.drawing.legs import FALL, Leg, wedge_points
from becket.drawing.picture import Box, Point, is_apart

RADIUS = 17.0
STROKE = 3.0
_CLEAR = 2.0  # between a circle and what is not its own [px]
_TURN = 40.0  # from one row of numbers to the next [px]
_STEP = 5.0  # of the search along a fall [px]
_MOST_TRIES = 300

Segment = tuple[Point, Point]


def place_circles(layout: Layout, legs: Sequence[Leg]) -> Mapping[int, Point] | None:
    """Return the middle of each fall's number; None: the rows are too near to one another for them [px].

    Args:
        layout: places
        legs: of the rope
    """
    free = {leg.number: _free_places(layout, leg, legs) for leg in legs if leg.kind == FALL}
    for apart in (2 * RADIUS + 18, 2 * RADIUS + STROKE + _CLEAR):
        found = _settled(free, apart)
        if found is not None:
            return found
    return None


def place_in_turn(layout: Layout, legs: Sequence[Leg]) -> Mapping[int, Point]:
    """Return the middle of each fall's number in two rows, where the falls run upright beside one another [px].

    Args:
        layout: with such a part, see ``Layout.straight``
        legs: of the rope
    """
    upper = layout.stubs[1] + 4 if layout.ends_on_head else BOX_HEIGHT + 4
    low_end = -2 if layout.ends_on_head else 1  # of the points of a down-going fall: the upright part
    places = {}
    for leg in legs:
        if leg.kind == FALL:
            points = leg.points if leg.number % 2 else leg.points[::-1]
            places[leg.number] = points[low_end][0]
    order = sorted(places, key=lambda fall: places[fall])
    rows = upper + RADIUS + STROKE, upper + RADIUS + STROKE + _TURN
    return {fall: (places[fall], rows[i % 2]) for i, fall in enumerate(order)}


def place_words(
    layout: Layout, legs: Sequence[Leg], circles: Mapping[int, Point], size: tuple[float, float]
) -> Box | None:
    """Return the box of the words beside the dead end; None: no room between the ropes [px].

    Args:
        layout: places
        legs: of the rope
        circles: middles of the numbers
        size: width and height of the words [px]
    """
    width, height = size
    wedge = _box_of(wedge_points(layout))
    outer = -1 if layout.anchor_at < layout.width / 2 else 1
    rows = range(0, int(layout.gap) - int(height) - 20, 6)
    step = 1 if layout.ends_on_head else -1
    start = BOX_HEIGHT + 6 if layout.ends_on_head else layout.block_top - 6 - height
    for down in rows:
        if down > 60:
            return None
        for side in (outer, -outer):
            for away in (6.0, 14.0, 24.0):
                left = wedge[2] + away if side > 0 else wedge[0] - away - width
                box = (left, start + step * down, left + width, start + step * down + height)
                if _is_free(layout, legs, circles, box):
                    return box
    return None


def segments(legs: Sequence[Leg]) -> tuple[Segment, ...]:
    """Return the straight pieces of legs [px].

    Args:
        legs: of the rope
    """
    return tuple(piece for leg in legs for piece in pairwise(leg.points))


def distance_to(place: Point, piece: Segment) -> float:
    """Return how far a place is from a straight piece [px].

    Args:
        place: [px]
        piece: [px]

    >>> distance_to((0, 3), ((-1, 0), (1, 0)))
    3.0
    """
    (ax, ay), (bx, by) = piece
    dx, dy = bx - ax, by - ay
    length = dx * dx + dy * dy
    share = 0.0 if length == 0 else max(0.0, min(1.0, ((place[0] - ax) * dx + (place[1] - ay) * dy) / length))
    return hypot(place[0] - ax - share * dx, place[1] - ay - share * dy)


def is_crossed(box: Box, piece: Segment) -> bool:
    """Return whether a straight piece passes through a box [-].

    Args:
        box: [px]
        piece: [px]

    >>> is_crossed((0, 0, 2, 2), ((-1, 1), (3, 1))), is_crossed((0, 0, 2, 2), ((-1, 2), (2, 5)))
    (True, False)
    """
    (ax, ay), (bx, by) = piece
    enter, leave = 0.0, 1.0
    for start, move, low, high in ((ax, bx - ax, box[0], box[2]), (ay, by - ay, box[1], box[3])):
        if move == 0:
            if not low < start < high:
                return False
            continue
        near, far = sorted(((low - start) / move, (high - start) / move))
        enter, leave = max(enter, near), min(leave, far)
    return enter < leave


def _settled(free: Mapping[int, Sequence[Point]], apart: float) -> dict[int, Point] | None:
    """One of the free places for each fall, so that all are apart; the falls with the fewest places first."""
    order = sorted(free, key=lambda fall: (len(free[fall]), fall))
    tries = [0]

    def settle(index: int, taken: dict[int, Point]) -> dict[int, Point] | None:
        if index == len(order):
            return taken
        for place in free[order[index]]:
            tries[0] += 1
            if tries[0] > _MOST_TRIES:
                return None
            if all(_distance(place, other) >= apart for other in taken.values()):
                found = settle(index + 1, {**taken, order[index]: place})
                if found is not None:
                    return found
        return None

    return settle(0, {})


def _free_places(layout: Layout, leg: Leg, legs: Sequence[Leg]) -> list[Point]:
    top, bottom = BOX_HEIGHT + RADIUS + 4, layout.block_top - RADIUS - 4
    others = segments([other for other in legs if other.kind == FALL and other is not leg])  # arcs are further away
    need = RADIUS + STROKE / 2 + ROPE / 2 + _CLEAR
    wedge = _box_of(wedge_points(layout))
    middle = (top + bottom) / 2
    places = [p for p in _walk(leg.points) if top <= p[1] <= bottom]
    free = [p for p in places if _apart_from(p, wedge) and all(distance_to(p, piece) >= need for piece in others)]
    return sorted(free, key=lambda p: (abs(p[1] - middle), p[1]))


def _walk(points: Sequence[Point]) -> list[Point]:
    places: list[Point] = []
    for a, b in pairwise(points):
        steps = max(1, int(_distance(a, b) / _STEP))
        places += [(a[0] + (b[0] - a[0]) * i / steps, a[1] + (b[1] - a[1]) * i / steps) for i in range(steps)]
    return places


def _is_free(layout: Layout, legs: Sequence[Leg], circles: Mapping[int, Point], box: Box) -> bool:
    if box[0] < 14 or box[2] > layout.width - 14 or box[1] < BOX_HEIGHT + 3 or box[3] > layout.block_top - 3:
        return False
    grown = _grown(box, ROPE / 2 + 3)
    falls = [leg for leg in legs if leg.kind == FALL]  # nothing else runs between the rows
    if any(is_crossed(grown, piece) for piece in segments(falls)):
        return False
    r = RADIUS + STROKE
    return all(is_apart(box, (x - r, y - r, x + r, y + r), 1) for x, y in circles.values())


def _apart_from(place: Point, box: Box) -> bool:
    r = RADIUS + STROKE / 2 + _CLEAR
    return is_apart((place[0] - r, place[1] - r, place[0] + r, place[1] + r), box)


def _box_of(points: Sequence[Point]) -> Box:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _grown(box: Box, by: float) -> Box:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def _distance(a: Point, b: Point) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])
