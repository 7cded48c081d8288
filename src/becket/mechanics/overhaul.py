"""Mass that the empty block must have to come down by itself.

In:    the tension ratio over a sheave, rope mass, heights, the pull that turns the empty drum.
Out:   forces and masses. Every float is SI.
Never: files, a crane book, the margin on top.
"""

from __future__ import annotations

from becket.errors import OutOfRangeError

GRAVITY = 9.80665  # standard gravity [m/s2]


def overhaul_factor(falls: int, tension_ratio: float) -> float:
    """Return the block's weight over the lead line's resistance, weightless falls [-].

    Args:
        falls: ropes that carry the block [-]
        tension_ratio: K over one turning sheave, 1 or more [-]

    Raises:
        OutOfRangeError: no fall or a ratio under 1.

    Source: K (K^N - 1)/(K - 1), rigging handbook column for roller sheaves at K = 1.025;
        docs/theory/overhaul.md, eq. 1.

    >>> round(overhaul_factor(6, 1.025), 2)
    6.55
    """
    _check(falls, tension_ratio)
    return sum(tension_ratio**i for i in range(1, falls + 1))


def drum_side_tension(
    drag: float, tension_ratio: float, guide_sheaves: int, rope_mass: float, head_above_drum: float
) -> float:
    """Return the lead line's tension at the head that pulls rope off the drum, T0 [N].

    Args:
        drag: pull at the drum that turns it, empty [N]
        tension_ratio: K over one turning sheave [-]
        guide_sheaves: sheaves between drum and head [-]
        rope_mass: [kg/m]
        head_above_drum: height of the head shaft over the drum shaft [m]

    Source: T0 = drag K^guides + m g (head - drum); docs/theory/overhaul.md, eq. 2.

    >>> round(drum_side_tension(350.0, 1.025, 0, 1.45, 10.0), 1)
    492.2
    """
    return drag * tension_ratio**guide_sheaves + rope_mass * GRAVITY * head_above_drum


def overhaul_mass(drum_side: float, falls: int, tension_ratio: float, rope_mass: float, fall_length: float) -> float:
    """Return the least mass of block that comes down by itself [kg].

    A fall whose own rope outweighs what holds its top counts as 0 at its lower end: a rope cannot push.

    Args:
        drum_side: lead line tension at the head, T0 [N]
        falls: ropes that carry the block [-]
        tension_ratio: K over one turning sheave, 1 or more [-]
        rope_mass: [kg/m]
        fall_length: head shaft to block shaft, hook at its highest [m]

    Raises:
        OutOfRangeError: no fall or a ratio under 1.

    Source: tension carried from fall to fall, m g h lost going down and gained going up,
        K at each sheave; docs/theory/overhaul.md, eq. 3 to 5.

    >>> round(overhaul_mass(9.80665, 5, 1.025, 0.0, 1.5), 2)
    5.39
    """
    _check(falls, tension_ratio)
    hanging = rope_mass * GRAVITY * fall_length
    upper = tension_ratio * drum_side
    lower_ends = following = 0.0
    for fall in range(1, falls + 1):
        if fall % 2:  # down from the head
            lower = max(upper - hanging, 0.0)  # a rope cannot push
            following = tension_ratio * lower  # over the block sheave
            lower_ends += lower
        else:  # up from the block
            lower_ends += following
            upper = tension_ratio * (following + hanging)  # over the head sheave
    return lower_ends / GRAVITY


def _check(falls: int, tension_ratio: float) -> None:
    if falls < 1:
        raise OutOfRangeError("falls", falls, "1 or more is wanted")
    if not tension_ratio >= 1:
        raise OutOfRangeError("sheave_ratio", tension_ratio, "1 or more is wanted")
