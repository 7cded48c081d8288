"""Figures of a book that contradict each other, as a page tells them before its answer.

In:    a crane book, settings.
Out:   name and reason of each.
Never: a seal that no longer matches: that is in the answer itself.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.limits.contradictions import find_contradictions
from becket.settings.values import Settings
from becket.web.present.trade import limit_words, sentence


def contradictions_shown(book: Book | None, settings: Settings, system: str) -> tuple[tuple[str, str], ...]:
    """Return what is told before an answer that may rest on a wrong figure: name and why [-].

    Args:
        book: the crane; None: it cannot be used
        settings: in force
        system: "metric" or "us"
    """
    if book is None:
        return ()
    return tuple(
        (limit_words(one.name), f"{sentence(one.why, system)} ({', '.join(one.fields)})")
        for one in find_contradictions(book, settings)
        if one.name != "seal_no_longer_matches"
    )
