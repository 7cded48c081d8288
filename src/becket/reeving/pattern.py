"""A reeving pattern of the book and every check of it.

In:    a crane book, a state or one of its patterns, the fall lengths of a lift.
Out:   the pattern that the book has; findings, each with a verdict and a reason.
Never: a pattern that is not in the book.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.tackle import Pattern, State


def find_pattern(book: Book, state: State) -> Pattern | None:
    """Return the pattern that the book has for a state; None: not on file [-].

    Args:
        book: the crane
        state: block and falls

    Source: docs/theory/reeving.md, "On file or not".
    """
    return next((pattern for pattern in book.patterns if pattern.state == state), None)
