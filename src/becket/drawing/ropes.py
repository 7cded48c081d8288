"""The rope as shapes: solid on the side that faces, dashes behind, paper beside the one that is over.

In:    legs, and how each of them looks.
Out:   shapes, those behind first; arrow heads.
Never: an order of two ropes on the same side: which of them is over is not in the book.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from becket.drawing.circles import RADIUS, STROKE
from becket.drawing.layout import CASING, ROPE
from becket.drawing.legs import FALL, LEAD, Leg, along
from becket.drawing.picture import INK, MARK, ON_MARK, PAPER, SOFT, Circle, Point, Polygon, Polyline, Shape, Text

_DASH = (12.0, 7.0)
_DOTS = (3.0, 5.0)


@dataclass(frozen=True, kw_only=True)
class Look:
    """How a leg is drawn."""

    ink: str = INK
    width: float = ROPE
    is_dotted: bool = False


DONE = Look()
NOW = Look(ink=MARK, width=11.0)
NEXT = Look(ink=SOFT, width=3.0, is_dotted=True)


def rope_shapes(legs: Iterable[Leg], look_of: Callable[[Leg], Look | None]) -> tuple[Shape, ...]:
    """Return the rope as shapes, what is behind first [-].

    Args:
        legs: of the rope
        look_of: how a leg looks; None: not drawn
    """
    pieces = [(leg, look, *piece) for leg in legs if (look := look_of(leg)) for piece in _pieces(leg)]
    shapes: list[Shape] = []
    for layer in (True, False):
        here = [piece for piece in pieces if piece[3] is layer]
        shapes += [_casing(leg, look, points) for leg, look, points, _ in here if not look.is_dotted]
        shapes += [_stroke(leg, look, points, layer) for leg, look, points, _ in here]
    return tuple(shapes)


def circle_shapes(circles: Mapping[int, Point], ink: Callable[[int], str]) -> tuple[Shape, ...]:
    """Return the numbers of the falls in their circles [-].

    Args:
        circles: middles of those that are drawn
        ink: of a fall's circle: INK on paper, MARK filled
    """
    shapes: list[Shape] = []
    for fall, (x, y) in sorted(circles.items()):
        colour, facts = ink(fall), (("kind", "circle"), ("fall", str(fall)))
        fill, letters = (MARK, ON_MARK) if colour == MARK else (PAPER, INK)
        shapes.append(Circle(centre=(x, y), radius=RADIUS, ink=fill, outline=colour, stroke=STROKE, facts=facts))
        size = 22.0 if fall < 10 else 20.0
        shapes.append(
            Text(
                at=(x, y + 0.36 * size),
                text=str(fall),
                size=size,
                is_bold=True,
                anchor="middle",
                ink=letters,
                facts=facts,
            )
        )
    return tuple(shapes)


def arrow_heads(leg: Leg, circle: Point | None) -> tuple[Polygon, ...]:
    """Return the arrow heads along a leg, in the direction in which the rope is threaded [-].

    Args:
        leg: a fall
        circle: middle of its number, which no arrow head covers
    """
    heads = []
    for share in (0.25,) if leg.kind == LEAD else (0.3, 0.72):
        tried = (share + step for step in (0.0, 0.06, -0.06, 0.12, -0.12, 0.18, -0.18))
        places = (along(leg.points, one) for one in tried)
        place = next(((p, d) for p, d in places if circle is None or _is_off(p, circle)), None)
        if place is not None:
            (x, y), (dx, dy) = place
            tip, back = (x + 12 * dx, y + 12 * dy), (x - 11 * dx, y - 11 * dy)
            sides = (back[0] - 12 * dy, back[1] + 12 * dx), (back[0] + 12 * dy, back[1] - 12 * dx)
            heads.append(Polygon(points=(tip, *sides), ink=MARK, facts=(("kind", "arrow"),)))
    return tuple(heads)


def dashes(points: Sequence[Point], pattern: tuple[float, float] = _DASH) -> tuple[float, float]:
    """Return dashes and gaps that begin and end a line with a whole dash [px].

    Args:
        points: of the line
        pattern: dash and gap wanted [px]
    """
    length = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))
    on, off = pattern
    times = max(0, round((length - on) / (on + off)))
    factor = length / (times * (on + off) + on)
    return on * factor, off * factor


def _pieces(leg: Leg) -> tuple[tuple[tuple[Point, ...], bool], ...]:
    """Over the first sheave the lead line is in front of nothing: only its straight end may be behind."""
    if leg.kind == LEAD and leg.is_behind:
        return (leg.points[:2], True), (leg.points[1:], False)
    return ((leg.points, leg.is_behind),)


def _casing(leg: Leg, look: Look, points: tuple[Point, ...]) -> Polyline:
    facts = (("kind", "casing"), ("of", f"{leg.kind} {leg.number}"))
    return Polyline(points=points, ink=PAPER, width=look.width + 2 * CASING, facts=facts)


def _stroke(leg: Leg, look: Look, points: tuple[Point, ...], is_behind: bool) -> Polyline:
    dash = dashes(points, _DOTS) if look.is_dotted else dashes(points) if is_behind else ()
    is_butt = leg.kind == FALL or bool(dash)  # round a sheave the ends lap over the falls: no hairline between them
    return Polyline(points=points, ink=look.ink, width=look.width, dash=dash, is_butt=is_butt, facts=leg.facts)


def _is_off(place: Point, circle: Point) -> bool:
    return hypot(place[0] - circle[0], place[1] - circle[1]) > RADIUS + 14
