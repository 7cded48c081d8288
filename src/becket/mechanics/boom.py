"""Where the boom's head stands.

In:    boom length and angle, place of the boom foot, head drop.
Out:   places, angles, lengths. Every float is SI. x is forward of the slewing axis, z above the ground.
Never: files, a crane book, limits of angle.
"""

from __future__ import annotations

from math import acos, atan2, cos, hypot, sin

from becket.errors import NotReachedError

Foot = tuple[float, float]


def head_place(length: float, angle: float, foot: Foot, head_drop: float) -> tuple[float, float]:
    """Return the head shaft of the straight boom [m], shape (2,).

    Args:
        length: foot pin to head shaft along the axis [m]
        angle: of the axis above level [rad]
        foot: boom foot pin, x and z [m]
        head_drop: head shaft below the axis, square to it [m]

    Source: x = x0 + L cos a + p sin a, z = z0 + L sin a - p cos a; docs/theory/boom.md, eq. 1.

    >>> head_place(30.0, 0.0, (-1.0, 3.0), 0.5)
    (29.0, 2.5)
    """
    x = foot[0] + length * cos(angle) + head_drop * sin(angle)
    return x, foot[1] + length * sin(angle) - head_drop * cos(angle)


def angle_of_radius(radius: float, length: float, foot: Foot, head_drop: float) -> float:
    """Return the boom angle at which the head stands over a radius, the larger of the two [rad].

    Args:
        radius: head shaft from the slewing axis [m]
        length: foot pin to head shaft along the axis [m]
        foot: boom foot pin, x and z [m]
        head_drop: head shaft below the axis, square to it [m]

    Raises:
        NotReachedError: no angle gives this radius.

    Source: L cos a + p sin a = R - x0 solved for a; docs/theory/boom.md, eq. 2.

    >>> round(angle_of_radius(29.0, 30.0, (-1.0, 3.0), 0.0), 6)
    0.0
    """
    reach = hypot(length, head_drop)
    share = (radius - foot[0]) / reach
    if not -1 <= share <= 1:
        raise NotReachedError(f"radius: {radius:.2f} m; the boom of {length:.2f} m reaches {reach + foot[0]:.2f} m")
    return acos(share) + atan2(head_drop, length)


def angle_of_height(height: float, length: float, foot: Foot, head_drop: float, level_sag: float) -> float:
    """Return the boom angle at which the sagged head stands at a height, the smaller of the two [rad].

    Args:
        height: of the head shaft above the ground [m]
        length: foot pin to head shaft along the axis [m]
        foot: boom foot pin, x and z [m]
        head_drop: head shaft below the axis, square to it [m]
        level_sag: how much lower the head of the level boom hangs [m]

    Raises:
        NotReachedError: no angle gives this height.

    Source: L sin a - (p + sag) cos a = z - z0 solved for a; docs/theory/boom.md, eq. 3 and 4.

    >>> round(angle_of_height(8.5, 10.0, (0.0, 3.5), 0.0, 0.0), 6)
    0.523599
    """
    drop = head_drop + level_sag
    reach = hypot(length, drop)
    share = (height - foot[1]) / reach
    if not -1 <= share <= 1:
        raise NotReachedError(
            f"height: {height:.2f} m; the boom of {length:.2f} m has its head {reach:.2f} m about its foot"
        )
    return atan2(drop, length) + atan2(share, (1 - share * share) ** 0.5)


def sagged_height(straight: float, angle: float, level_sag: float) -> float:
    """Return the height of the head shaft with the boom's own sag, near level [m].

    Args:
        straight: height with the boom straight [m]
        angle: of the axis above level [rad]
        level_sag: how much lower the head of the level boom hangs [m]

    Source: z - sag cos a; docs/theory/boom.md, eq. 3.

    >>> sagged_height(2.5, 0.0, 0.25)
    2.25
    """
    return straight - level_sag * cos(angle)


def drum_to_head(drum: Foot, head: tuple[float, float]) -> float:
    """Return the straight rope from the drum shaft to the head shaft [m].

    Args:
        drum: drum shaft, x and z [m]
        head: head shaft, x and z [m]

    Source: docs/theory/boom.md, eq. 5.

    >>> drum_to_head((-3.0, 3.0), (27.0, 43.0))
    50.0
    """
    return hypot(head[0] - drum[0], head[1] - drum[1])
