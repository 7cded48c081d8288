"""One contradiction between figures of a crane book.

In:    nothing.
Out:   one frozen record, and the words of numbers in it.
Never: finding one.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Contradiction:
    """Figures that cannot both be right: what it is called, why, and the paths of the fields concerned."""

    name: str
    why: str
    fields: tuple[str, ...]


def number(value: float) -> str:
    """Return a number with three figures behind the point at most [-].

    >>> number(18.40)
    '18.4'
    """
    return f"{round(value, 3):g}" if abs(value) < 1e5 else f"{value:.0f}"
