"""Why a pattern cannot be drawn.

In:    a crane book and one of its patterns.
Out:   a sentence that names what is missing and where manuals print it.
Never: a drawing of a part of it.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.reeving.places import sides_missing


def why_not_drawn(book: Book, pattern: Pattern) -> str | None:
    """Return why a pattern cannot be drawn; None: it can [-].

    Args:
        book: the crane
        pattern: of the book

    Source: docs/drawing.md.
    """
    missing = sides_missing(book, pattern)
    if missing:
        return f"Cannot be drawn. Not on file: {'; '.join(missing)}."
    twice = sorted({str(one) for one in pattern.path if pattern.path.count(one) > 1})
    if twice:
        page = f"page {pattern.page}" if pattern.page else "the page of the manual"
        return f"Cannot be drawn. The rope goes twice over {', '.join(twice)}. Look at {page}."
    for place, sheaves in (("head", book.head.sheaves), ("block", book.blocks[pattern.block].sheaves)):
        if len(set(sheaves.values())) < len(sheaves):
            return f"Cannot be drawn. Two sheaves of the {place} stand at the same place in the book."
    return None
