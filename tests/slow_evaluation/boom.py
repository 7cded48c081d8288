"""Where the head is at a radius: the angle by bisection, no trigonometric inverse.

In:    the book's boom, a boom length, a radius.
Out:   angle [rad] and place of the head shaft [m].
Never: the product's boom.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, hypot, pi, sin

from becket.book.boom import Boom
from becket.book.crane import Book
from becket.book.jobs import Lift
from tests.slow_evaluation.answer import BrokenError, MissingError, need


@dataclass(frozen=True, kw_only=True)
class End:
    """One end of the radius range."""

    angle: float  # [rad]
    x: float  # head shaft, straight boom [m]
    z: float  # [m]


def head_place(boom: Boom, length: float, angle: float) -> tuple[float, float]:
    """Return x and z of the head shaft, walking from the foot along the axis and then square down from it [m]."""
    x, z = boom.foot_x, boom.foot_z
    x, z = x + length * cos(angle), z + length * sin(angle)
    square = angle - pi / 2
    return x + boom.head_drop * cos(square), z + boom.head_drop * sin(square)


def angle_of(boom: Boom, length: float, radius: float) -> float:
    """Return the greater boom angle at which the head shaft stands at the radius, by bisection [rad]."""
    low, high = -pi / 2, pi / 2
    for _ in range(45):
        a, b = low + (high - low) / 3, high - (high - low) / 3
        if head_place(boom, length, a)[0] < head_place(boom, length, b)[0]:
            low = a
        else:
            high = b
    farthest, behind = low, pi
    if head_place(boom, length, farthest)[0] < radius or head_place(boom, length, behind)[0] > radius:
        raise BrokenError("no boom angle gives this radius")
    for _ in range(52):
        middle = (farthest + behind) / 2
        if head_place(boom, length, middle)[0] > radius:
            farthest = middle
        else:
            behind = middle
    return (farthest + behind) / 2


def ends_of(book: Book, lift: Lift) -> tuple[End, ...]:
    """Return the two ends of the lift's radius; a radius that the boom does not reach is a broken lift [-]."""
    length = need(lift.boom, "boom length")
    if lift.radius is None:
        raise MissingError("radius")
    angles = book.boom.lowest
    lowest = max(angles.values(), default=None) if lift.sector is None else angles.get(lift.sector)
    ends = []
    for radius in lift.radius:
        angle = angle_of(book.boom, length, radius)
        if angle > book.boom.highest:
            raise BrokenError("steeper than the boom may stand")
        if angle < need(lowest, "lowest boom angle"):
            raise BrokenError("flatter than the boom may lie")
        x, z = head_place(book.boom, length, angle)
        ends.append(End(angle=angle, x=x, z=z))
    return tuple(ends)


def straight_rope(book: Book, length: float, end: End) -> float:
    """Return the rope from the drum to the head shaft [m]."""
    if book.winch.at_x is not None and book.winch.at_z is not None:
        return hypot(end.x - book.winch.at_x, end.z - book.winch.at_z)
    return need(book.winch.lead_run, "place of the winch") + length
