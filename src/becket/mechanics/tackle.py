"""Tension in the falls of a tackle.

In:    the load, the number of falls, the efficiency of one turning sheave.
Out:   forces. Every float is SI. Fall 1 is the fall next to the drum.
Never: files, drawing, printing, a crane book.
"""

from __future__ import annotations

from math import cos, sin

from becket.errors import OutOfRangeError


def efficiency_of_ratio(tension_ratio: float) -> float:
    """Return the force passed on by one turning sheave, from the tension ratio over it [-].

    Args:
        tension_ratio: K, greater over smaller tension, 1 or more [-]

    Raises:
        OutOfRangeError: a ratio under 1.

    Source: eta = 1/K, docs/theory/tackle.md, eq. 1.

    >>> round(efficiency_of_ratio(1.09), 3)
    0.917
    """
    if not tension_ratio >= 1:
        raise OutOfRangeError("sheave_ratio", tension_ratio, "1 or more is wanted")
    return 1 / tension_ratio


def static_tensions(load: float, falls: int) -> tuple[float, ...]:
    """Return the tension of every fall while nothing moves [N].

    Args:
        load: weight on the falls, block included [N]
        falls: ropes that carry the block [-]

    Raises:
        OutOfRangeError: no fall.

    Source: equal shares without friction, docs/theory/tackle.md, eq. 2.

    >>> static_tensions(6000.0, 4)
    (1500.0, 1500.0, 1500.0, 1500.0)
    """
    _check(falls, 1.0)
    return (load / falls,) * falls


def raising_tensions(load: float, falls: int, sheave_efficiency: float) -> tuple[float, ...]:
    """Return the tension of every fall at steady raising, fall 1 the greatest [N], shape (falls,).

    Args:
        load: weight on the falls, block included [N]
        falls: ropes that carry the block [-]
        sheave_efficiency: force passed on by one turning sheave, over 0 up to 1 [-]

    Raises:
        OutOfRangeError: no fall, or an efficiency outside 0 to 1.

    Source: T(i+1) = eta T(i), sum = W; docs/theory/tackle.md, eq. 3 and 4.

    >>> [round(t, 1) for t in raising_tensions(1000.0, 2, 0.9)]
    [526.3, 473.7]
    """
    _check(falls, sheave_efficiency)
    first = load / sum(sheave_efficiency**i for i in range(falls))
    return tuple(first * sheave_efficiency**i for i in range(falls))


def lowering_tensions(load: float, falls: int, sheave_efficiency: float) -> tuple[float, ...]:
    """Return the tension of every fall at steady lowering, the last fall the greatest [N], shape (falls,).

    Args:
        load: weight on the falls, block included [N]
        falls: ropes that carry the block [-]
        sheave_efficiency: force passed on by one turning sheave, over 0 up to 1 [-]

    Raises:
        OutOfRangeError: no fall, or an efficiency outside 0 to 1.

    Source: T(i+1) = T(i)/eta, sum = W; docs/theory/tackle.md, eq. 5.

    >>> [round(t, 1) for t in lowering_tensions(1000.0, 2, 0.9)]
    [473.7, 526.3]
    """
    return tuple(reversed(raising_tensions(load, falls, sheave_efficiency)))


def lead_line_pull(load: float, falls: int, sheave_efficiency: float, guide_sheaves: int) -> float:
    """Return the pull at the drum that raises a load at steady speed [N].

    Args:
        load: weight on the falls, block included [N]
        falls: ropes that carry the block [-]
        sheave_efficiency: force passed on by one turning sheave, over 0 up to 1 [-]
        guide_sheaves: sheaves between the drum and the head, the first head sheave not counted [-]

    Raises:
        OutOfRangeError: no fall, an efficiency outside 0 to 1, or guides under 0.

    Source: P = T(1) / eta^(1 + guides), docs/theory/tackle.md, eq. 6.

    >>> round(lead_line_pull(1.0, 4, 1 / 1.09, 0), 3)
    0.309
    """
    _check_guides(guide_sheaves)
    return raising_tensions(load, falls, sheave_efficiency)[0] / sheave_efficiency ** (1 + guide_sheaves)


def lowering_pull(load: float, falls: int, sheave_efficiency: float, guide_sheaves: int) -> float:
    """Return the pull at the drum that holds a load back at steady lowering [N].

    Args:
        load: weight on the falls, block included [N]
        falls: ropes that carry the block [-]
        sheave_efficiency: force passed on by one turning sheave, over 0 up to 1 [-]
        guide_sheaves: sheaves between the drum and the head, the first head sheave not counted [-]

    Raises:
        OutOfRangeError: no fall, an efficiency outside 0 to 1, or guides under 0.

    Source: P = T(1) eta^(1 + guides), docs/theory/tackle.md, eq. 7.

    >>> lowering_pull(1000.0, 2, 1.0, 0)
    500.0
    """
    _check_guides(guide_sheaves)
    return lowering_tensions(load, falls, sheave_efficiency)[0] * sheave_efficiency ** (1 + guide_sheaves)


def dead_end_pull(load: float, falls: int, sheave_efficiency: float) -> float:
    """Return the greatest pull at the dead end, at steady lowering [N].

    Args:
        load: weight on the falls, block included [N]
        falls: ropes that carry the block [-]
        sheave_efficiency: force passed on by one turning sheave, over 0 up to 1 [-]

    Raises:
        OutOfRangeError: no fall, or an efficiency outside 0 to 1.

    Source: the last fall of eq. 5, docs/theory/tackle.md, eq. 8.

    >>> round(dead_end_pull(1000.0, 2, 0.9), 1)
    526.3
    """
    return lowering_tensions(load, falls, sheave_efficiency)[-1]


def parts_ratio(falls: int, sheave_efficiency: float, guide_sheaves: int) -> float:
    """Return the load raised by a unit of pull at the drum, the first head sheave turning [-].

    Args:
        falls: ropes that carry the block [-]
        sheave_efficiency: force passed on by one turning sheave, over 0 up to 1 [-]
        guide_sheaves: sheaves between the drum and the head, the first head sheave not counted [-]

    Raises:
        OutOfRangeError: no fall, an efficiency outside 0 to 1, or guides under 0.

    Source: W/P of eq. 6, docs/theory/tackle.md, eq. 9.

    >>> round(parts_ratio(4, 1 / 1.045, 0), 2)
    3.59
    """
    return 1 / lead_line_pull(1.0, falls, sheave_efficiency, guide_sheaves)


def head_load(load: float, pull: float, lead_line_angle: float) -> tuple[float, float]:
    """Return the force on the head, forward and down [N], shape (2,).

    Args:
        load: weight on the falls, block included; the dead end is one of them [N]
        pull: tension of the lead line between drum and head [N]
        lead_line_angle: of the lead line above level, seen from the drum [rad]

    Source: W down and P toward the drum, docs/theory/tackle.md, eq. 10.

    >>> head_load(1000.0, 500.0, 0.0)
    (-500.0, 1000.0)
    """
    return -pull * cos(lead_line_angle), load + pull * sin(lead_line_angle)


def _check(falls: int, sheave_efficiency: float) -> None:
    if falls < 1:
        raise OutOfRangeError("falls", falls, "1 or more is wanted")
    if not 0 < sheave_efficiency <= 1:
        raise OutOfRangeError("sheave_efficiency", sheave_efficiency, "over 0 up to 1 is wanted")


def _check_guides(guide_sheaves: int) -> None:
    if guide_sheaves < 0:
        raise OutOfRangeError("guide_sheaves", guide_sheaves, "0 or more is wanted")
