"""One short word for two patterns, for the code of a sheet that is about both.

In:    a crane book, patterns that may be missing.
Out:   16 hex digits.
Never: who confirmed.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.reeving.seal import seal_of


def joint_seal(book: Book, patterns: Iterable[Pattern | None]) -> str:
    """Return one seal over the seals of several patterns, in order [-].

    Args:
        book: the crane
        patterns: None: not on file
    """
    seals = ",".join("none" if one is None else seal_of(book, one) for one in patterns)
    return hashlib.sha256(seals.encode()).hexdigest()[:16]
