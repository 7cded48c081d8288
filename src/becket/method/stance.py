"""The boom at one length over the ground at its head.

In:    a crane book, a boom length, the ground at the head.
Out:   heights and places of the head, rope along the boom, by angle. Every float is SI.
Never: which angles are permitted, files.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import atan2, sin

from becket.book.crane import Book
from becket.errors import NotReachedError
from becket.mechanics.boom import Foot, angle_of_height, drum_to_head, head_place, sagged_height


@dataclass(frozen=True, kw_only=True)
class Stance:
    """One boom length. Heights are above the ground at the head."""

    length: float  # [m]
    foot: Foot  # [m]
    head_drop: float  # [m]
    level_sag: float  # [m]
    ground: float  # at the head, above that at the crane [m]
    drum: Foot | None  # drum shaft; None: not on file [m]
    lead_run: float | None  # drum to boom foot, where the drum's place is not on file [m]


def stance_of(book: Book, length: float, level_sag: float, ground: float) -> Stance:
    """Return the boom of a book at a length [SI].

    Args:
        book: the crane book
        length: foot pin to head shaft along the axis [m]
        level_sag: how much lower the head of the level boom hangs at that length [m]
        ground: at the head, above that at the crane [m]

    Source: docs/theory/boom.md, eq. 1 and 3.
    """
    winch = book.winch
    known = winch.at_x is not None and winch.at_z is not None
    return Stance(
        length=length,
        foot=(book.boom.foot_x, book.boom.foot_z),
        head_drop=book.boom.head_drop,
        level_sag=level_sag,
        ground=ground,
        drum=(winch.at_x or 0.0, winch.at_z or 0.0) if known else None,
        lead_run=winch.lead_run,
    )


def at_length(figures: Mapping[float, float], length: float) -> float | None:
    """Return the figure that the book gives for a boom length, None where it gives none; never between two [-].

    Args:
        figures: boom length -> figure
        length: [m]

    Source: docs/theory/method.md, "What is needed".

    >>> at_length({26.2: 0.12}, 26.2), at_length({26.2: 0.12}, 30.0)
    (0.12, None)
    """
    return next((value for key, value in figures.items() if abs(key - length) < 1e-6), None)


def head_height(stance: Stance, angle: float) -> float:
    """Return the head shaft above the ground at the head, sag taken off [m].

    Args:
        stance: the boom
        angle: of the axis above level [rad]

    Source: docs/theory/boom.md, eq. 3; docs/theory/method.md, eq. 2.
    """
    straight = head_place(stance.length, angle, stance.foot, stance.head_drop)[1]
    return sagged_height(straight, angle, stance.level_sag) - stance.ground


def head_radius(stance: Stance, angle: float) -> float:
    """Return the head shaft from the slewing axis [m].

    Args:
        stance: the boom
        angle: of the axis above level [rad]

    Source: docs/theory/boom.md, eq. 1.
    """
    return head_place(stance.length, angle, stance.foot, stance.head_drop)[0]


def angle_of_head(stance: Stance, height: float) -> float | None:
    """Return the angle at which the head stands at a height above the ground, None: no angle does [rad].

    Args:
        stance: the boom
        height: of the head shaft above the ground at the head [m]

    Source: docs/theory/boom.md, eq. 4.
    """
    try:
        return angle_of_height(height + stance.ground, stance.length, stance.foot, stance.head_drop, stance.level_sag)
    except NotReachedError:
        return None


def lead_growth(stance: Stance, start: float, end: float, side: int = 1) -> float:
    """Return how much longer the rope from the drum to the head is at one angle than at another [m].

    The straight boom counts. Where the drum's place is not on file, the greatest change that a drum at
    ``lead_run`` from the boom foot can make, with the sign asked for.

    Args:
        stance: the boom
        start: angle at which the winch is locked [rad]
        end: angle asked about [rad]
        side: +1: the greatest growth, -1: the least; without meaning where the drum's place is on file [-]

    Source: docs/theory/method.md, eq. 3 and 4.
    """
    if stance.drum is not None:
        return lead_of(stance, stance.drum, end) - lead_of(stance, stance.drum, start)
    return side * 2 * (stance.lead_run or 0.0) * abs(sin((start - end) / 2))


def greatest_growth(stance: Stance, start: float, end: float) -> float:
    """Return the most that the rope from the drum to the head grows anywhere between two angles, 0 at least [m].

    Args:
        stance: the boom
        start: angle at which the winch is locked [rad]
        end: lowest angle of the way [rad]

    Source: docs/theory/method.md, eq. 3 and 4: the rope is longest where drum, foot and head lie on one line.
    """
    places = [start, end]
    if stance.drum is not None:
        from_drum = atan2(stance.foot[1] - stance.drum[1], stance.foot[0] - stance.drum[0])
        in_line = from_drum + atan2(stance.head_drop, stance.length)
        places += [in_line] if end < in_line < start else []
    return max(lead_growth(stance, start, angle, +1) for angle in places)


def lead_of(stance: Stance, drum: Foot, angle: float) -> float:
    """Return the straight rope from the drum shaft to the head shaft [m].

    Args:
        stance: the boom
        drum: drum shaft, x and z [m]
        angle: of the axis above level [rad]

    Source: docs/theory/boom.md, eq. 5.
    """
    return drum_to_head(drum, head_place(stance.length, angle, stance.foot, stance.head_drop))


def longest_lead(stance: Stance, angle: float) -> float | None:
    """Return the rope from the drum to the head shaft, the run to the boom foot and along it without a place [m].

    Args:
        stance: the boom
        angle: of the axis above level [rad]

    Source: docs/theory/method.md, eq. 3 and 4.
    """
    if stance.drum is not None:
        return lead_of(stance, stance.drum, angle)
    return None if stance.lead_run is None else stance.lead_run + stance.length
