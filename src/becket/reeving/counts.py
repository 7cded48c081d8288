"""How many sheaves a number of falls uses, and where its dead end is.

In:    a number of falls.
Out:   counts and the side of the dead end: the counting identity.
Never: which sheaves; a path.
"""

from __future__ import annotations

from becket.errors import OutOfRangeError


def head_sheave_count(falls: int) -> int:
    """Return how many head sheaves the rope goes over, the first from the drum counted [-].

    Args:
        falls: ropes that carry the block [-]

    Raises:
        OutOfRangeError: no fall.

    Source: ceil(n/2); docs/theory/reeving.md, eq. 1.

    >>> head_sheave_count(5)
    3
    """
    _check(falls)
    return (falls + 1) // 2


def block_sheave_count(falls: int) -> int:
    """Return how many block sheaves the rope goes under [-].

    Args:
        falls: ropes that carry the block [-]

    Raises:
        OutOfRangeError: no fall.

    Source: floor(n/2); docs/theory/reeving.md, eq. 2.

    >>> block_sheave_count(5)
    2
    """
    _check(falls)
    return falls // 2


def dead_end_side(falls: int) -> str:
    """Return where the rope ends: "head" for an even number of falls, "block" for an odd one [-].

    Args:
        falls: ropes that carry the block [-]

    Raises:
        OutOfRangeError: no fall.

    Source: docs/theory/reeving.md, eq. 3; US Army TM 5-3810-305-10 says the same.

    >>> dead_end_side(4), dead_end_side(1)
    ('head', 'block')
    """
    _check(falls)
    return "block" if falls % 2 else "head"


def _check(falls: int) -> None:
    if falls < 1:
        raise OutOfRangeError("falls", falls, "1 or more is wanted")
