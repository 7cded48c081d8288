"""The seal over what a second person confirmed.

In:    a crane book and one of its patterns.
Out:   16 hex digits; whether the seal in the book is still that of the pattern.
Never: who confirmed; writing the book.
"""

from __future__ import annotations

import hashlib
import json
import unicodedata
from collections.abc import Mapping

from becket.book.crane import Book
from becket.book.tackle import Pass, Pattern
from becket.reeving.words import dead_end_anchor

_DIGITS = 16
# capitals of Greek and Cyrillic that are drawn as Latin ones, in the order of the Latin ones
_LOOK_ALIKES = str.maketrans(
    "\u0391\u0392\u0395\u0396\u0397\u0399\u039a\u039c\u039d\u039f\u03a1\u03a4\u03a5\u03a7"
    "\u0410\u0412\u0421\u0415\u041d\u0406\u0408\u041a\u041c\u041e\u0420\u0405\u0422\u0423\u0425",
    "ABEZHIKMNOPTYXABCEHIJKMOPSTYX",
)


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

    Capitals, spaces, points and the like do not make two persons of one, nor do letters of another alphabet that
    look the same.

    Args:
        pattern: of the book
        name: of a person
    """
    return pattern.typed is not None and _person(pattern.typed.by) == _person(name)


def _person(name: str) -> str:
    letters = "".join(c for c in unicodedata.normalize("NFKC", name) if c.isalnum())
    return (letters or "".join(name.split())).upper().translate(_LOOK_ALIKES)


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
