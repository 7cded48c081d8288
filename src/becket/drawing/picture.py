"""A picture as records: what is drawn, where, with which ink.

In:    numbers in pixels, x to the right, y down.
Out:   frozen records; boxes around them.
Never: SVG text, a crane, deciding what is drawn.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from becket.drawing.lettering import text_width

Point = tuple[float, float]
Box = tuple[float, float, float, float]  # left, top, right, bottom [px]
Facts = tuple[tuple[str, str], ...]  # name -> value: what the shape stands for, ``data-*`` in the SVG

INK, PAPER, SOFT, FILL, MARK, ON_MARK = "ink", "paper", "soft", "fill", "mark", "on-mark"


@dataclass(frozen=True, kw_only=True)
class Polyline:
    """A line through points: a rope, a leader, a dimension."""

    points: tuple[Point, ...]
    ink: str = INK
    width: float = 2.0
    dash: tuple[float, ...] = ()
    is_butt: bool = True  # ends cut square at the last point; else round
    facts: Facts = ()

    @property
    def box(self) -> Box:
        """The box around it, stroke counted [px]."""
        return _grown(_around(self.points), self.width / 2)


@dataclass(frozen=True, kw_only=True)
class Polygon:
    """A filled outline: wedge, arrow head, stripe of a hatch."""

    points: tuple[Point, ...]
    ink: str | None = INK
    outline: str | None = None
    width: float = 2.0
    dash: tuple[float, ...] = ()
    facts: Facts = ()

    @property
    def box(self) -> Box:
        """The box around it, stroke counted [px]."""
        return _grown(_around(self.points), self.width / 2 if self.outline else 0.0)


@dataclass(frozen=True, kw_only=True)
class Rect:
    """A rectangle, square or with round corners."""

    x: float
    y: float
    width: float
    height: float
    round: float = 0.0
    ink: str | None = None
    outline: str | None = INK
    stroke: float = 2.0
    dash: tuple[float, ...] = ()
    facts: Facts = ()

    @property
    def box(self) -> Box:
        """The box around it, stroke counted [px]."""
        grow = self.stroke / 2 if self.outline else 0.0
        return _grown((self.x, self.y, self.x + self.width, self.y + self.height), grow)


@dataclass(frozen=True, kw_only=True)
class Circle:
    """A circle: the number of a fall, a wheel, a shaft."""

    centre: Point
    radius: float
    ink: str | None = PAPER
    outline: str | None = INK
    stroke: float = 3.0
    facts: Facts = ()

    @property
    def box(self) -> Box:
        """The box around it, stroke counted [px]."""
        x, y = self.centre
        return _grown((x, y, x, y), self.radius + (self.stroke / 2 if self.outline else 0.0))


@dataclass(frozen=True, kw_only=True)
class Text:
    """One line of text. ``at`` is on its base line."""

    at: Point
    text: str
    size: float = 18.0
    is_bold: bool = False
    anchor: str = "start"  # "start", "middle", "end"
    ink: str = INK
    facts: Facts = ()

    @property
    def box(self) -> Box:
        """The box that the text fills at most [px]."""
        width = text_width(self.text, self.size, self.is_bold)
        x, y = self.at
        left = x - {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        return left, y - 0.8 * self.size, left + width, y + 0.24 * self.size


Shape = Polyline | Polygon | Rect | Circle | Text


@dataclass(frozen=True, kw_only=True)
class Picture:
    """One picture. ``description`` says in words everything that the shapes show."""

    width: float
    height: float
    title: str
    description: str
    shapes: tuple[Shape, ...] = field(repr=False)


def moved(shape: Shape, right: float, down: float) -> Shape:
    """Return a shape at another place [px].

    Args:
        shape: any
        right: [px]
        down: [px]
    """
    if isinstance(shape, Polyline | Polygon):
        return replace(shape, points=tuple((x + right, y + down) for x, y in shape.points))
    if isinstance(shape, Rect):
        return replace(shape, x=shape.x + right, y=shape.y + down)
    if isinstance(shape, Circle):
        return replace(shape, centre=(shape.centre[0] + right, shape.centre[1] + down))
    return replace(shape, at=(shape.at[0] + right, shape.at[1] + down))


def is_apart(a: Box, b: Box, gap: float = 0.0) -> bool:
    """Return whether two boxes are at least a gap apart, sideways or up and down [-].

    Args:
        a: one box [px]
        b: the other [px]
        gap: [px]

    >>> is_apart((0, 0, 10, 10), (12, 0, 20, 10), 2), is_apart((0, 0, 10, 10), (9, 9, 20, 20))
    (True, False)
    """
    return a[2] + gap <= b[0] or b[2] + gap <= a[0] or a[3] + gap <= b[1] or b[3] + gap <= a[1]


def _around(points: Sequence[Point]) -> Box:
    xs, ys = [p[0] for p in points], [p[1] for p in points]
    return min(xs), min(ys), max(xs), max(ys)


def _grown(box: Box, by: float) -> Box:
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by
