"""Where a quantity is zero.

In:    a function of one float and two places between which it changes sign.
Out:   the place. Every float is SI.
Never: a crane, a guess outside the two places.
"""

from __future__ import annotations

from collections.abc import Callable


def zero_between(quantity: Callable[[float], float], low: float, high: float, closeness: float = 1e-10) -> float | None:
    """Return the place between two where a quantity is zero, None where it keeps its sign [unit of the place].

    Args:
        quantity: continuous [-]
        low: one end [unit of the place]
        high: the other end [unit of the place]
        closeness: how near the quantity is brought to zero [unit of the quantity]

    Source: regula falsi, Illinois variant; docs/theory/method.md, "Numbers".

    >>> round(zero_between(lambda x: x * x - 2, 0.0, 2.0), 6)
    1.414214
    >>> zero_between(lambda x: x * x + 1, 0.0, 2.0) is None
    True
    """
    at_low, at_high = quantity(low), quantity(high)
    if at_low == 0:
        return low
    if at_high == 0:
        return high
    if (at_low > 0) == (at_high > 0):
        return None
    side = 0
    for _ in range(200):
        place = (low * at_high - high * at_low) / (at_high - at_low)
        value = quantity(place)
        if abs(value) < closeness or abs(high - low) < 1e-14:
            return place
        if (value > 0) == (at_high > 0):
            high, at_high = place, value
            at_low, side = (at_low / 2 if side == -1 else at_low), -1
        else:
            low, at_low = place, value
            at_high, side = (at_high / 2 if side == 1 else at_high), 1
    return (low + high) / 2
