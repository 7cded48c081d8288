"""The rope of a front view, leg by leg: lead line, over a sheave, down, under a sheave, up, dead end.

In:    a layout.
Out:   legs in the order of the rope, each with its points, its side and where it goes.
Never: shapes, colours, a side that is not in the book.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, pi, sin

from becket.book.crane import Book
from becket.book.tackle import Pass
from becket.drawing.layout import BOX_HEIGHT, LINK, WEDGE, Layout
from becket.drawing.picture import Facts, Point

LEAD, ARC, FALL = "lead", "arc", "fall"
_BEND = 12  # straight pieces of a half circle


@dataclass(frozen=True, kw_only=True)
class Leg:
    """One piece of the rope. Its points run from the drum outward."""

    kind: str  # LEAD, ARC, FALL
    number: int  # of the pass of an arc, of a fall; 0: lead line
    side: str | None  # "cab", "tip"; None: an arc, or not in the book
    is_behind: bool  # away from the one who looks; never where the side is not in the book
    points: tuple[Point, ...]
    goes: tuple[str, str]  # from, to: "drum", a pass, "dead end"

    @property
    def facts(self) -> Facts:
        """What the leg is, for the ``data-*`` attributes [-]."""
        side = () if self.kind == ARC else (("side", self.side or "unknown"),)
        return (
            ("kind", self.kind),
            ("number", str(self.number)),
            ("from", self.goes[0]),
            ("to", self.goes[1]),
            *side,
        )


def side_of_fall(book: Book, fall: int) -> str | None:
    """Return the face of head and block on which a fall hangs: "cab", "tip"; None: not in the book [-].

    Args:
        book: the crane, with the side on which the lead line meets its sheave
        fall: number of the fall, from the drum; 0 is the lead line

    Source: docs/theory/reeving.md, "Places of the falls".
    """
    if book.head.lead not in ("over", "under"):
        return None
    return "tip" if (fall % 2 == 1) == (book.head.lead == "over") else "cab"


def legs_of(layout: Layout, lead_top: float) -> tuple[Leg, ...]:
    """Return the rope in legs, from the drum to the dead end [-].

    Args:
        layout: places
        lead_top: height at which the lead line comes into the picture [px]
    """
    path = layout.pattern.path
    legs = [_lead(layout, lead_top)]
    for i, one in enumerate(path, start=1):
        if i > 1:
            legs.append(_arc(layout, i))
        goes = str(one), str(path[i]) if i < len(path) else "dead end"
        legs.append(
            Leg(
                kind=FALL,
                number=i,
                side=side_of_fall(layout.book, i),
                is_behind=is_behind(layout, i),
                points=_fall(layout, i),
                goes=goes,
            )
        )
    return tuple(legs)


def is_behind(layout: Layout, fall: int) -> bool:
    """Return whether a fall hangs on the side away from the one who looks [-].

    Args:
        layout: with its view
        fall: number of the fall; 0 is the lead line
    """
    side = side_of_fall(layout.book, fall)
    return side is not None and (side == "cab") != (layout.view == "cab")


def wedge_points(layout: Layout) -> tuple[Point, ...]:
    """Return the outline of the dead end, wide toward its anchor [px].

    Args:
        layout: places
    """
    x = layout.anchor_at
    if layout.ends_on_head:
        wide, narrow = BOX_HEIGHT + LINK, BOX_HEIGHT + LINK + WEDGE
    else:
        wide, narrow = layout.block_top - LINK, layout.block_top - LINK - WEDGE
    return (x - 9, wide), (x + 9, wide), (x + 4.5, narrow), (x - 4.5, narrow)


def along(points: tuple[Point, ...], share: float) -> tuple[Point, Point]:
    """Return the point at a share of the way along a line, and the direction there [px].

    Args:
        points: of the line
        share: 0 at its start, 1 at its end [-]
    """
    pieces = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points)]
    left = share * sum(pieces)
    for (a, b), piece in zip(pairwise(points), pieces, strict=True):
        if piece > 0 and left <= piece + 1e-9:
            unit = (b[0] - a[0]) / piece, (b[1] - a[1]) / piece
            return (a[0] + left * unit[0], a[1] + left * unit[1]), unit
        left -= piece
    return points[-1], (0.0, 1.0)


def _x(layout: Layout, one: Pass, fall: int) -> float:
    middle = (layout.head_at if one.place == "head" else layout.block_at)[one.sheave]
    if side_of_fall(layout.book, fall) is None:
        return middle + (-layout.column if fall % 2 else layout.column)
    return middle + (-layout.column if is_behind(layout, fall) else layout.column)


def _lead(layout: Layout, top: float) -> Leg:
    """From above on its own side, in a bend over the first head sheave."""
    first = layout.pattern.path[0]
    start, end = _x(layout, first, 0), _x(layout, first, 1)
    middle, r = layout.head_at[first.sheave], layout.column
    bend = [_corner((start, -2.2 * r), (start, -r), (middle, -r), i / _BEND) for i in range(_BEND + 1)]
    turn = [(middle + (end - middle) * sin(a), -r * cos(a)) for a in (pi / 2 * i / _BEND for i in range(1, _BEND + 1))]
    return Leg(
        kind=LEAD,
        number=0,
        side=side_of_fall(layout.book, 0),
        is_behind=is_behind(layout, 0),
        points=((start, top), *bend, *turn),
        goes=("drum", str(first)),
    )


def _corner(a: Point, corner: Point, b: Point, t: float) -> Point:
    u = 1 - t
    return (
        u * u * a[0] + 2 * u * t * corner[0] + t * t * b[0],
        u * u * a[1] + 2 * u * t * corner[1] + t * t * b[1],
    )


def _arc(layout: Layout, number: int) -> Leg:
    one = layout.pattern.path[number - 1]
    start, end = _x(layout, one, number - 1), _x(layout, one, number)
    edge, sign = (0.0, -1.0) if one.place == "head" else (layout.block_top + BOX_HEIGHT, 1.0)
    middle, r = (start + end) / 2, (start - end) / 2
    turn = tuple(
        (middle + r * cos(pi * i / (2 * _BEND)), edge + sign * abs(r) * sin(pi * i / (2 * _BEND)))
        for i in range(2 * _BEND + 1)
    )
    return Leg(kind=ARC, number=number, side=None, is_behind=False, points=turn, goes=(str(one), str(one)))


def _fall(layout: Layout, fall: int) -> tuple[Point, ...]:
    path = layout.pattern.path
    upper = _end(layout, fall, path[fall - 1] if fall % 2 else path[fall] if fall < len(path) else None)
    lower = _end(layout, fall, path[fall - 1] if fall % 2 == 0 else path[fall] if fall < len(path) else None)
    high, low = layout.stubs
    down = (*upper, (upper[-1][0], high), (lower[-1][0], low), *reversed(lower))
    return down if fall % 2 else tuple(reversed(down))


def _end(layout: Layout, fall: int, one: Pass | None) -> tuple[Point, ...]:
    if one is None:
        return ((layout.anchor_at, wedge_points(layout)[-1][1]),)
    x = _x(layout, one, fall)
    return ((x, 0.0),) if one.place == "head" else ((x, layout.block_top + BOX_HEIGHT),)
