"""Sideways tilt of the block.

In:    tension and sideways place of each fall on the block, masses and their depth under the shaft.
Out:   an angle. Every float is SI.
Never: files, a crane book, limits.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2

from becket.errors import OutOfRangeError


def pull_offset(tensions: Sequence[float], lows: Sequence[float]) -> float:
    """Return how far beside the middle plane the falls pull together [m].

    Args:
        tensions: of each fall [N], shape (falls,)
        lows: sideways place of each fall on the block, from its middle plane [m], shape (falls,)

    Raises:
        OutOfRangeError: no tension together, or lists of unlike length.

    Source: e = sum(T x)/sum(T); docs/theory/tilt.md, eq. 1.

    >>> round(pull_offset([1.0, 3.0], [-0.2, 0.2]), 6)
    0.1
    """
    total = sum(tensions)
    if not total > 0 or len(tensions) != len(lows):
        raise OutOfRangeError("tensions", tuple(tensions), "one for every fall, more than 0 together, is wanted")
    return sum(t * x for t, x in zip(tensions, lows, strict=True)) / total


def tilt_angle(offset: float, hook_load: float, hook: float, block_mass: float, mass_centre: float) -> float:
    """Return how far the block hangs out of upright [rad].

    Args:
        offset: of the pull from the middle plane, e [m]
        hook_load: load and rigging [kg]
        hook: sheave shaft to hook saddle [m]
        block_mass: [kg]
        mass_centre: of the empty block, below the shaft [m]

    Source: tan(theta) = e (Q + m)/(Q hook + m mass_centre); docs/theory/tilt.md, eq. 2.

    >>> round(tilt_angle(0.01, 1000.0, 1.0, 500.0, 0.4), 4)
    0.0125
    """
    return atan2(abs(offset) * (hook_load + block_mass), hook_load * hook + block_mass * mass_centre)
