"""Hatch and words on it: not known, or not confirmed.

In:    a place.
Out:   stripes at 45 degrees, bands with words.
Never: a hatch that means anything else.
"""

from __future__ import annotations

from becket.drawing.lettering import broken
from becket.drawing.picture import INK, PAPER, Box, Point, Polygon, Rect, Shape, Text

NOT_CONFIRMED = "NOT CONFIRMED AGAINST THE MANUAL"
SIDE = 10.0  # width of the hatched edge [px]
_BAND_TEXT = 20.0
_BAND_LINE = 26.0


def hatch(box: Box, *, period: float = 12.0, share: float = 0.5) -> tuple[Polygon, ...]:
    """Return the stripes of a hatch, rising to the right, cut at the edges of a box [-].

    Args:
        box: to be hatched [px]
        period: from stripe to stripe, along the edge [px]
        share: of the period that is ink [-]
    """
    left, top, right, bottom = box
    stripes = []
    start = left + top
    while start < right + bottom:
        stripe = _between(box, start, min(start + share * period, right + bottom))
        if len(stripe) >= 3:
            stripes.append(Polygon(points=stripe, facts=(("kind", "hatch"),)))
        start += period
    return tuple(stripes)


def band_height(width: float) -> float:
    """Return how high a band of NOT CONFIRMED is [px].

    Args:
        width: of the picture [px]
    """
    return _BAND_LINE * len(_band_lines(width)) + 8


def confirm_band(width: float, top: float) -> tuple[Shape, ...]:
    """Return a solid band that says NOT CONFIRMED [-].

    Args:
        width: of the picture [px]
        top: upper edge [px]
    """
    facts = (("kind", "band"),)
    bar = Rect(x=0, y=top, width=width, height=band_height(width), ink=INK, outline=None, facts=facts)
    lines = tuple(
        Text(
            at=(width / 2, top + 24 + i * _BAND_LINE),
            text=line,
            size=_BAND_TEXT,
            is_bold=True,
            anchor="middle",
            ink=PAPER,
            facts=facts,
        )
        for i, line in enumerate(_band_lines(width))
    )
    return (bar, *lines)


def _band_lines(width: float) -> tuple[str, ...]:
    return broken(NOT_CONFIRMED, _BAND_TEXT, width - 16, True)


def _between(box: Box, low: float, high: float) -> tuple[Point, ...]:
    """The part of a box where x + y lies between two values, as a polygon."""
    left, top, right, bottom = box
    corners: list[Point] = [(left, top), (right, top), (right, bottom), (left, bottom)]
    return tuple(_cut(_cut(corners, low, 1.0), high, -1.0))


def _cut(points: list[Point], value: float, sign: float) -> list[Point]:
    kept: list[Point] = []
    for i, (x, y) in enumerate(points):
        before_x, before_y = points[i - 1]
        here, before = sign * (x + y - value), sign * (before_x + before_y - value)
        if (here >= 0) != (before >= 0):
            share = before / (before - here)
            kept.append((before_x + share * (x - before_x), before_y + share * (y - before_y)))
        if here >= 0:
            kept.append((x, y))
    return kept
