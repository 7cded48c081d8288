"""Turning of the block about the upright axis.

In:    places of the falls in plan on head and block, torque factor, rope diameter, fall length.
Out:   angles and lengths. Every float is SI. A place is (sideways, forward) in plan.
Never: files, a crane book, where a rope runs.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import asin, atan2, hypot, inf, sqrt

from becket.errors import OutOfRangeError

Place = tuple[float, float]


def restoring(tops: Sequence[Place], lows: Sequence[Place]) -> tuple[float, float]:
    """Return D and X of the falls, the two parts of what holds the block straight [m2], shape (2,).

    Args:
        tops: place of each fall on the head [m], shape (falls, 2)
        lows: place of each fall on the block [m], shape (falls, 2)

    Raises:
        OutOfRangeError: no fall, or lists of unlike length.

    Source: D = mean(t . b), X = mean(b x t) about the centroids, equal weights; docs/theory/twist.md, eq. 1 and 2.

    >>> restoring([(-0.25, 0.0), (0.25, 0.0)], [(-0.25, 0.0), (0.25, 0.0)])
    (0.0625, 0.0)
    """
    if not tops or len(tops) != len(lows):
        raise OutOfRangeError(
            "falls", f"{len(tops)} tops, {len(lows)} lower ends", "one of each for every fall is wanted"
        )
    top, low = _about_centroid(tops), _about_centroid(lows)
    along = sum(t[0] * b[0] + t[1] * b[1] for t, b in zip(top, low, strict=True)) / len(top)
    across = sum(b[0] * t[1] - b[1] * t[0] for t, b in zip(top, low, strict=True)) / len(top)
    return along, across


def hangs_turned(tops: Sequence[Place], lows: Sequence[Place]) -> float:
    """Return how far the block hangs turned without any torque in the rope, psi0 [rad].

    Args:
        tops: place of each fall on the head [m], shape (falls, 2)
        lows: place of each fall on the block [m], shape (falls, 2)

    Raises:
        OutOfRangeError: no fall, or lists of unlike length.

    Source: tan psi0 = X/D; docs/theory/twist.md, eq. 3.

    >>> hangs_turned([(-0.25, 0.0), (0.25, 0.0)], [(-0.25, 0.0), (0.25, 0.0)])
    0.0
    """
    along, across = restoring(tops, lows)
    return atan2(across, along)


def twist_length(tops: Sequence[Place], lows: Sequence[Place], torque_factor: float, rope_diameter: float) -> float:
    """Return the fall length at which the rope's torque turns the block over, A/(c d) [m].

    Args:
        tops: place of each fall on the head [m], shape (falls, 2)
        lows: place of each fall on the block [m], shape (falls, 2)
        torque_factor: c, torque over tension and diameter, 0 or more [-]
        rope_diameter: nominal [m]

    Raises:
        OutOfRangeError: a torque factor under 0, no rope diameter, or lists of unlike length.

    Source: L = sqrt(D^2 + X^2)/(c d), 90 degrees; derived, agrees with the published spacings;
        docs/theory/twist.md, eq. 4.

    >>> round(twist_length([(-0.25, 0.0), (0.25, 0.0)], [(-0.25, 0.0), (0.25, 0.0)], 0.089, 0.022), 2)
    31.92
    """
    if torque_factor < 0 or rope_diameter <= 0:
        raise OutOfRangeError("torque_factor", torque_factor, "0 or more, with a rope diameter over 0, is wanted")
    arm = hypot(*restoring(tops, lows))
    return arm / (torque_factor * rope_diameter) if torque_factor > 0 else (inf if arm > 0 else 0.0)


def twist_angle(fall_length: float, longest: float) -> float | None:
    """Return how far the rope's torque turns the block from psi0, None: it turns over [rad].

    Args:
        fall_length: head shaft to block shaft [m]
        longest: twist length of these falls [m]

    Source: sin(phi) = c d h/A; docs/theory/twist.md, eq. 5.

    >>> round(twist_angle(10.0, 20.0), 4)
    0.5236
    >>> twist_angle(21.0, 20.0) is None
    True
    """
    if fall_length > longest:
        return None
    return asin(fall_length / longest) if longest > 0 else 0.0


def effective_spacing(tops: Sequence[Place], lows: Sequence[Place]) -> float:
    """Return the spacing S of two falls that would hold the block as these do [m].

    Args:
        tops: place of each fall on the head [m], shape (falls, 2)
        lows: place of each fall on the block [m], shape (falls, 2)

    Raises:
        OutOfRangeError: no fall, or lists of unlike length.

    Source: S^2/4 = sqrt(D^2 + X^2), two falls at spacing S; docs/theory/twist.md, eq. 6.

    >>> effective_spacing([(-0.25, 0.0), (0.25, 0.0)], [(-0.25, 0.0), (0.25, 0.0)])
    0.5
    """
    return 2 * sqrt(hypot(*restoring(tops, lows)))


def _about_centroid(places: Sequence[Place]) -> list[Place]:
    middle_x = sum(x for x, _ in places) / len(places)
    middle_y = sum(y for _, y in places) / len(places)
    return [(x - middle_x, y - middle_y) for x, y in places]
