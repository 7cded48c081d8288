"""The seal over a confirmed pattern, computed a second time from its description.

In:    the book, one of its patterns.
Out:   16 hex digits.
Never: the product's seal.
"""

from __future__ import annotations

import hashlib
import json

from becket.book.crane import Book
from becket.book.tackle import Pattern


def _millimetres(metres: float | None) -> int | None:
    return None if metres is None else round(metres * 1000)


def slow_seal(book: Book, pattern: Pattern) -> str:
    """Return the seal of what a second person confirmed: words of the path, places, page [-]."""
    offsets: dict[str, list[list[int | None]]] = {"head": [], "block": []}
    rows = {"head": book.head.sheaves, "block": book.blocks[pattern.block].sheaves}
    for place, found in offsets.items():
        for sheave in sorted({one.sheave for one in pattern.path if one.place == place}):
            found.append([sheave, _millimetres(rows[place].get(sheave))])
    if pattern.dead_end == "block":
        anchor = book.blocks[pattern.block].becket
        height = None if anchor is None or anchor.below is None else -anchor.below
    else:
        anchor = book.head.anchors.get(pattern.dead_end.removeprefix("head "))
        height = None if anchor is None else anchor.below
    end = [
        _millimetres(None if anchor is None else anchor.side),
        _millimetres(None if anchor is None else anchor.along),
        _millimetres(height),
    ]
    words = [f"{one.place} {one.sheave}" for one in pattern.path]
    confirmed = [
        pattern.block,
        pattern.falls,
        words,
        pattern.dead_end,
        offsets["head"],
        offsets["block"],
        end,
        pattern.page,
    ]
    text = json.dumps(confirmed, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode("utf-8")).hexdigest()[:16]


def slow_is_confirmed(book: Book, pattern: Pattern) -> bool:
    """Return whether a second person confirmed exactly these words and places [-]."""
    confirmed = pattern.confirmed
    if confirmed is None or confirmed.seal is None or confirmed.seal != slow_seal(book, pattern):
        return False
    return pattern.typed is None or pattern.typed.by != confirmed.by
