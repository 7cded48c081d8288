"""Side view of the low position: boom laid down, boom where the hook is set, block, ground.

In:    a crane book and a change, worked out.
Out:   a picture, not to scale, every figure as the change has it.
Never: a figure in place of one that is not known: a question mark on hatch.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees, hypot

from becket.book.crane import Book
from becket.book.tackle import State
from becket.drawing.frame import MARGIN, lines
from becket.drawing.lettering import text_width
from becket.drawing.picture import FILL, SOFT, Circle, Picture, Point, Polyline, Rect, Shape, Text, moved
from becket.drawing.ropes import dashes
from becket.drawing.verdicts import not_known
from becket.method.change import Change
from becket.units import show_quantity

_WIDTH = 360.0
_GROUND = 248.0
_PIVOT = (64.0, 168.0)
_LOW = (296.0, 186.0)
_FIRST = (290.0, 92.0)
_AXIS = 84.0


@dataclass(frozen=True, kw_only=True)
class _Figures:
    """Every figure as text; None: not known."""

    first_angle: str | None
    leave: str | None
    low_angle: str | None
    head: str | None
    radius: str | None


def draw_side(book: Book, change: Change, *, system: str = "metric") -> Picture:
    """Return the side view of a change's low position [px].

    Args:
        book: the crane
        change: worked out
        system: "metric" or "us"

    Source: docs/drawing.md.
    """
    figures = _figures(change, system)
    title = f"Boom laid down: {_state(change.before)} to {_state(change.after)}"
    head, y = lines((title,), 8, _WIDTH, size=21, is_bold=True)
    top = y - 40
    shapes = [
        *_machine(),
        *_boom(),
        *_block(),
        *_labels(figures),
        *_dimensions(figures),
    ]
    feet, end = lines(_feet(book, change, system), top + _GROUND + 66, _WIDTH)
    from_top = tuple(moved(shape, 0, top) for shape in shapes)
    description = f"{_describe(figures)} {' '.join(_feet(book, change, system))}"
    return Picture(width=_WIDTH, height=end + 8, title=title, description=description, shapes=(*head, *from_top, *feet))


def angle_words(angle: float) -> str:
    """Return an angle in tenths of a degree [-].

    Args:
        angle: [rad]

    >>> angle_words(-0.0314159)
    '−1.8°'
    """
    text = f"{degrees(angle):.1f}"
    return ("0.0" if text == "-0.0" else text).replace("-", "\u2212") + "°"


def _figures(change: Change, system: str) -> _Figures:
    position, leave = change.position, change.rope_to_leave
    return _Figures(
        first_angle=angle_words(leave.at_angle) if leave else None,
        leave=show_quantity(leave.target, "length", system=system, toward="up")
        if leave and leave.target is not None
        else None,
        low_angle=angle_words(position.angle) if position else None,
        head=show_quantity(position.head_height, "length", system=system) if position else None,
        radius=show_quantity(position.radius, "length", system=system, toward="up") if position else None,
    )


def _state(state: State) -> str:
    return f"{state.block} {state.falls}"


def _machine() -> tuple[Shape, ...]:
    return (
        Polyline(points=((8, _GROUND), (_WIDTH - 8, _GROUND)), width=5, facts=(("kind", "ground"),)),
        Rect(x=10, y=_GROUND - 38, width=100, height=22, ink=FILL, stroke=3),
        Rect(x=32, y=_GROUND - 58, width=58, height=24, ink=FILL, stroke=3),
        *(Circle(centre=(x, _GROUND - 12), radius=9.5, stroke=3) for x in (26, 50, 94)),
    )


def _boom() -> tuple[Shape, ...]:
    dotted = (_PIVOT, _FIRST)
    plumb = (_FIRST[0] + 8, _FIRST[1] + 6), (_FIRST[0] + 8, _GROUND - 32)
    return (
        Polyline(points=dotted, width=5, ink=SOFT, dash=dashes(dotted, (5, 7)), facts=(("kind", "boom at first"),)),
        Polyline(points=plumb, width=3, ink=SOFT, dash=dashes(plumb, (4, 5)), facts=(("kind", "plumb"),)),
        Polyline(points=(_PIVOT, _LOW), width=12, facts=(("kind", "boom low"),)),
        Circle(centre=_PIVOT, radius=6, stroke=3),
        Circle(centre=_LOW, radius=10, stroke=3.5),
    )


def _block() -> tuple[Shape, ...]:
    x = _FIRST[0] + 8
    facts = (("kind", "block"),)
    return (Rect(x=x - 14, y=_GROUND - 29, width=28, height=26, round=6, ink=FILL, stroke=3, facts=facts),)


def _labels(figures: _Figures) -> tuple[Shape, ...]:
    return (
        *_spoken(("at", figures.first_angle, "leave", figures.leave), _WIDTH - MARGIN, 78),
        *_spoken(("then", figures.low_angle), 268, 214),
        *_spoken(("head", figures.head), 268, 240),
    )


def _dimensions(figures: _Figures) -> tuple[Shape, ...]:
    y, x = _GROUND + 22, 334.0
    across = _bar(((_AXIS, y), (_LOW[0], y)), "radius")
    up = _bar(((x, _LOW[1]), (x, _GROUND - 4)), "head height")
    words = _spoken(("radius", figures.radius), (_AXIS + _LOW[0]) / 2 + 70, y + 27)
    return (*across, *up, *words)


def _bar(ends: tuple[Point, Point], name: str) -> tuple[Shape, ...]:
    (ax, ay), (bx, by) = ends
    length = hypot(bx - ax, by - ay)
    dx, dy = (by - ay) / length * 7, (bx - ax) / length * 7
    facts = (("kind", "dimension"), ("of", name))
    return (
        Polyline(points=ends, width=2.5, facts=facts),
        *(Polyline(points=((x - dx, y - dy), (x + dx, y + dy)), width=2.5, facts=facts) for x, y in ends),
    )


def _spoken(parts: tuple[str | None, ...], right: float, y: float) -> tuple[Shape, ...]:
    """Words set toward a right edge; a figure that is not known is a question mark on hatch."""
    shapes: list[Shape] = []
    x = right
    for part in reversed(parts):
        if part is None:
            x -= 40
            shapes += not_known((x, y - 19))
        else:
            shapes.append(Text(at=(x, y), text=part, is_bold=True, anchor="end"))
            x -= text_width(part, 18, True)
        x -= 6
    return tuple(shapes)


def _feet(book: Book, change: Change, system: str) -> tuple[str, ...]:
    position, leave = change.position, change.rope_to_leave
    if position is None:
        return (f"No position. {change.why_no_position or ''}".strip(), "Not to scale.")
    weight = show_quantity(position.counterweight, "mass", system=system)
    length = show_quantity(position.length, "length", system=system)
    room = show_quantity(position.free_radius_needed, "length", system=system, toward="up")
    feet = [
        f"Boom {length}, code {position.code}, sector {position.sector}.",
        f"Counterweight {weight}, outriggers {position.outriggers}. Room needed: {room}.",
    ]
    if leave is not None and leave.target is not None:
        feet.append("From the first angle on the winch stays locked.")
    elif leave is not None:
        feet.append(f"No rope to leave does: {leave.why}.")
    ground = change.facts.site.ground
    if ground is None:
        feet.append("Ground at the head: not known, measured at the first hold point.")
    elif ground != 0:
        way = "higher" if ground > 0 else "lower"
        feet.append(f"Ground at the head: {show_quantity(abs(ground), 'length', system=system)} {way}.")
    return (*feet, "Not to scale.")


def _describe(figures: _Figures) -> str:
    def said(text: str | None) -> str:
        return text if text is not None else "not known"

    return (
        f"Boom first at {said(figures.first_angle)}, hook {said(figures.leave)} under the head; then down to "
        f"{said(figures.low_angle)}, head {said(figures.head)} above the ground, radius {said(figures.radius)}."
    )
