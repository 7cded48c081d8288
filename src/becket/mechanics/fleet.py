"""Fleet angle: rope that reaches a sheave or the drum askew.

In:    sideways offsets and the distance over which they are made up.
Out:   angles and distances. Every float is SI.
Never: files, a crane book, limits.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, tan

from becket.errors import OutOfRangeError


def fleet_angle(offset: float, distance: float) -> float:
    """Return the angle between a rope and the plane of its sheave [rad].

    Args:
        offset: sideways, between the two ends of the rope [m]
        distance: between them, square to the offset; more than 0 [m]

    Raises:
        OutOfRangeError: a distance that is not more than 0.

    Source: tan(delta) = offset/distance; docs/theory/fleet.md, eq. 1.

    >>> round(fleet_angle(1.0, 38.1885), 5)
    0.02618
    """
    if not distance > 0:
        raise OutOfRangeError("distance", distance, "more than 0 is wanted")
    return atan2(abs(offset), distance)


def closest_distance(offset: float, limit: float) -> float:
    """Return the least distance at which an offset stays within a fleet angle [m].

    Args:
        offset: sideways [m]
        limit: greatest fleet angle permitted, more than 0 [rad]

    Raises:
        OutOfRangeError: a limit that is not more than 0.

    Source: distance = offset/tan(limit); docs/theory/fleet.md, eq. 2.

    >>> round(closest_distance(1.0, 0.0261799), 2)
    38.19
    """
    if not limit > 0:
        raise OutOfRangeError("fleet limit", limit, "more than 0 is wanted")
    return abs(offset) / tan(limit)


def fall_offsets(tops: Sequence[float], lows: Sequence[float], held: bool) -> tuple[float, ...]:
    """Return how far sideways each fall runs, the block hanging free or held in the middle [m], shape (falls,).

    Args:
        tops: sideways place of each fall on the head [m], shape (falls,)
        lows: sideways place of each fall on the block [m], shape (falls,)
        held: whether the block is held under the middle of the head [-]

    Raises:
        OutOfRangeError: no fall, or lists of unlike length.

    Source: x_top - x_low - u, u their mean when free, 0 when held; docs/theory/fleet.md, eq. 3.

    >>> fall_offsets([0.1, 0.3], [0.0, 0.0], held=True)
    (0.1, 0.3)
    """
    if not tops or len(tops) != len(lows):
        raise OutOfRangeError(
            "falls", f"{len(tops)} tops, {len(lows)} lower ends", "one of each for every fall is wanted"
        )
    raw = [top - low for top, low in zip(tops, lows, strict=True)]
    shift = 0.0 if held else sum(raw) / len(raw)
    return tuple(offset - shift for offset in raw)
