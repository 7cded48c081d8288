"""The seal over what a second person confirmed.

In:    a crane book and one of its patterns.
Out:   16 hex digits; whether the seal in the book is still that of the pattern.
Never: who confirmed; writing the book.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping

from becket.book.crane import Book
from becket.book.tackle import Pass, Pattern
from becket.reeving.words import dead_end_anchor

_DIGITS = 16


def seal_of(book: Book, pattern: Pattern) -> str:
    """Return the seal of a pattern: block, falls, path, dead end, places of its sheaves and anchor, page [-].

    Args:
        book: the crane, with the places
        pattern: whose words are sealed

    Source: SHA-256 over compact JSON; docs/theory/reeving.md, "Seal".
    """
    block = book.blocks.get(pattern.block)
    sealed = [
        pattern.block,
        pattern.falls,
        [str(one) for one in pattern.path],
        pattern.dead_end,
        _sheaves(pattern.path, "head", book.head.sheaves),
        _sheaves(pattern.path, "block", block.sheaves if block else {}),
        _anchor(book, pattern),
        pattern.page,
    ]
    text = json.dumps(sealed, ensure_ascii=False, separators=(",", ":"))
    return hashlib.sha256(text.encode()).hexdigest()[:_DIGITS]


def is_confirmed(book: Book, pattern: Pattern) -> bool:
    """Return whether a second person confirmed this pattern as it stands now [-].

    Args:
        book: the crane
        pattern: of the book

    Source: docs/theory/reeving.md, "Seal".
    """
    seal = pattern.confirmed
    if seal is None or pattern.typed is None or is_typist(pattern, seal.by):
        return False
    return seal.seal == seal_of(book, pattern)


def is_typist(pattern: Pattern, name: str) -> bool:
    """Return whether a name is that of the person who typed the pattern [-].

    Capitals and spaces do not make two persons of one.

    Args:
        pattern: of the book
        name: of a person
    """
    return pattern.typed is not None and _person(pattern.typed.by) == _person(name)


def _person(name: str) -> str:
    return "".join(name.split()).casefold()


def _sheaves(path: tuple[Pass, ...], place: str, sides: Mapping[int, float]) -> list[list[int | None]]:
    numbers = sorted({one.sheave for one in path if one.place == place})
    return [[number, _millimetres(sides.get(number))] for number in numbers]


def _anchor(book: Book, pattern: Pattern) -> list[int | None]:
    """Side, along, and below the head shaft or above the block shaft."""
    name = dead_end_anchor(pattern.dead_end)
    if name is not None:
        anchor = book.head.anchors.get(name)
        upright = anchor.below if anchor else None
    else:
        block = book.blocks.get(pattern.block)
        anchor = block.becket if block else None
        upright = -anchor.below if anchor is not None and anchor.below is not None else None
    if anchor is None:
        return [None, None, None]
    return [_millimetres(anchor.side), _millimetres(anchor.along), _millimetres(upright)]


def _millimetres(length: float | None) -> int | None:
    return None if length is None else round(1000 * length)
