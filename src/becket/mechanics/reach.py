"""Metres of rope from the drum to the dead end, and how deep the hook goes.

In:    lengths, sheave diameters, the number of falls.
Out:   lengths. Every float is SI.
Never: files, a crane book, layers of the drum.
"""

from __future__ import annotations

from math import pi

from becket.errors import OutOfRangeError


def sheave_arcs(falls: int, block_diameter: float, head_diameter: float) -> float:
    """Return the rope on the sheaves between fall 1 and the dead end, half a turn each [m].

    Args:
        falls: ropes that carry the block [-]
        block_diameter: pitch diameter of the block's sheaves [m]
        head_diameter: pitch diameter of the head's sheaves [m]

    Raises:
        OutOfRangeError: no fall.

    Source: A(n) = floor(n/2) pi D_block/2 + (ceil(n/2) - 1) pi D_head/2; docs/theory/reach.md, eq. 1.

    >>> round(sheave_arcs(4, 0.38, 0.38), 3)
    1.791
    """
    _check(falls)
    return (falls // 2) * pi * block_diameter / 2 + ((falls + 1) // 2 - 1) * pi * head_diameter / 2


def first_arc(angle: float, head_diameter: float) -> float:
    """Return the rope on the first head sheave, from the lead line along the boom to the hanging fall [m].

    Args:
        angle: of the boom above level [rad]
        head_diameter: pitch diameter of the head's sheaves [m]

    Source: (pi/2 + a) D/2; docs/theory/reach.md, eq. 2.

    >>> round(first_arc(0.0, 0.38), 3)
    0.298
    """
    return (pi / 2 + angle) * head_diameter / 2


def rope_out(lead: float, first: float, falls: int, fall_length: float, arcs: float, tail: float) -> float:
    """Return the rope from the drum to its end [m].

    Args:
        lead: from the drum to the head shaft [m]
        first: on the first head sheave [m]
        falls: ropes that carry the block [-]
        fall_length: head shaft to block shaft [m]
        arcs: on the other sheaves, A(n) [m]
        tail: behind the dead end, and what its place adds [m]

    Source: docs/theory/reach.md, eq. 3.

    >>> rope_out(30.0, 0.4, 4, 10.0, 1.8, 0.3)
    72.5
    """
    return lead + first + falls * fall_length + arcs + tail


def deepest_fall(rope: float, lead: float, first: float, falls: int, arcs: float, tail: float) -> float:
    """Return the longest head to block distance that a length of rope allows [m].

    Args:
        rope: that may leave the drum [m]
        lead: from the drum to the head shaft [m]
        first: on the first head sheave [m]
        falls: ropes that carry the block [-]
        arcs: on the other sheaves, A(n) [m]
        tail: behind the dead end, and what its place adds [m]

    Raises:
        OutOfRangeError: no fall.

    Source: eq. 3 solved for the fall length; docs/theory/reach.md, eq. 4.

    >>> round(deepest_fall(72.5, 30.0, 0.4, 4, 1.8, 0.3), 6)
    10.0
    """
    _check(falls)
    return (rope - lead - first - arcs - tail) / falls


def wraps_length(wraps: float, drum_diameter: float, rope_diameter: float) -> float:
    """Return the rope in turns that stay on the bare drum [m].

    Args:
        wraps: turns kept [-]
        drum_diameter: bare [m]
        rope_diameter: nominal [m]

    Source: wraps pi (D + d); docs/theory/reach.md, eq. 5.

    >>> round(wraps_length(3, 0.36, 0.017), 3)
    3.553
    """
    return wraps * pi * (drum_diameter + rope_diameter)


def _check(falls: int) -> None:
    if falls < 1:
        raise OutOfRangeError("falls", falls, "1 or more is wanted")
