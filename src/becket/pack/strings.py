"""Every sentence of a file once, called by its number; equal pages are kept once too.

In:    text.
Out:   numbers, and the table at the end.
Never: changing a sentence.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from itertools import groupby


class Numbered:
    """Things with a number each, in the order in which they were first met."""

    def __init__(self) -> None:
        self._numbers: dict[Hashable, int] = {}

    def number_of(self, thing: Hashable) -> int:
        """Return the number of a thing, the same for an equal one [-]."""
        return self._numbers.setdefault(thing, len(self._numbers))

    @property
    def every(self) -> list[Hashable]:
        """All of them, by number."""
        return list(self._numbers)


def run_lengths(values: Iterable[int]) -> tuple[int, ...]:
    """Return how often each value follows itself, and the value: count, value, count, value [-].

    Args:
        values: numbers

    >>> run_lengths([7, 7, 7, 2])
    (3, 7, 1, 2)
    """
    return tuple(part for value, run in groupby(values) for part in (len(list(run)), value))
