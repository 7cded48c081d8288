"""The boom lengths of a crane, as other fields name them.

In:    lengths with their codes; a length typed elsewhere, perhaps in another unit.
Out:   the boom's own figure for it, the codes that give it, the nearest one.
Never: a length between two.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable

from becket.book.boom import Boom, BoomLength

SAME_LENGTH = 0.0005  # lengths typed in other units may differ by rounding [m]


class BoomLengths:
    """Boom lengths, ready to be looked up."""

    def __init__(self, lengths: Iterable[BoomLength]) -> None:
        self.codes: dict[float, list[str]] = {}
        for one in lengths:
            self.codes.setdefault(one.length, []).append(one.code)
        self.sorted = sorted(self.codes)

    def nearest(self, length: float) -> float | None:
        """Return the nearest boom length [m]; None where there is none on file.

        >>> BoomLengths([BoomLength(length=18.4, code="0", sections=(0.0,))]).nearest(20.0)
        18.4
        """
        at = bisect_left(self.sorted, length)
        return min(self.sorted[max(at - 1, 0) : at + 1], key=lambda one: abs(one - length), default=None)

    def same(self, length: float) -> float | None:
        """Return the boom's own figure for a length [m]; None where it has no such length.

        >>> BoomLengths([BoomLength(length=26.2, code="0", sections=(0.0,))]).same(26.19995)
        26.2
        """
        near = self.nearest(length)
        return near if near is not None and abs(near - length) <= SAME_LENGTH else None

    def snapped(self, length: float) -> float:
        """Return the boom's own figure for a length, the length itself where it has no such [m]."""
        same = self.same(length)
        return length if same is None else same


def boom_lengths(boom: Boom | None) -> BoomLengths:
    """Return the boom lengths of a book, also of one with faults [-]."""
    every = boom.lengths if boom is not None else ()
    return BoomLengths(one for one in every if one is not None and None not in (one.length, one.code))
