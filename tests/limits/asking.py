"""Asking one limit of the invented crane, with parts of the book changed.

In:    a limit's name, the number of falls, changes.
Out:   the limit.
Never: expected values.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import cos, radians, sin
from typing import Any

from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.limits.answer import Limit, Row
from becket.limits.table import row_of
from tests.crane import invented_book, invented_lift, invented_settings, sealed


def book_with(**parts: Mapping[str, Any]) -> Book:
    """Return the invented crane with fields of its parts changed, ``rope={"mass": None}``; sealed anew [-]."""
    book = invented_book()
    changes = {name: replace(getattr(book, name), **fields) for name, fields in parts.items() if name != "block"}
    if "block" in parts:
        changes["blocks"] = {name: replace(block, **parts["block"]) for name, block in book.blocks.items()}
    return sealed(replace(book, **changes))


def without_pattern(book: Book, falls: int, block: str = "main") -> Book:
    """Return the book without one of its patterns [-]."""
    return replace(book, patterns=tuple(p for p in book.patterns if p.state != State(block=block, falls=falls)))


def pattern_of(book: Book, falls: int, block: str = "main") -> Pattern:
    """Return a pattern of the book [-]."""
    return next(p for p in book.patterns if p.state == State(block=block, falls=falls))


def row(falls: int = 4, book: Book | None = None, block: str = "main", **lift: Any) -> Row:
    """Return one row of the invented lift, keys of the lift changed; ``settings`` changes settings [-]."""
    settings = invented_settings(**lift.pop("settings", {}))
    return row_of(book or invented_book(), settings, State(block=block, falls=falls), invented_lift(**lift))


def limit(name: str, falls: int = 4, book: Book | None = None, block: str = "main", **lift: Any) -> Limit:
    """Return one limit of the invented lift [-]."""
    return row(falls, book, block, **lift).limit(name)


def head_by_halving(radius: float) -> tuple[float, float]:
    """Return boom angle and height of the head shaft of the 17 m boom, sharing nothing with the product [rad, m]."""
    low, high = 0.0, radians(89)
    for _ in range(200):
        angle = (low + high) / 2
        low, high = (angle, high) if -1.2 + 17 * cos(angle) + 0.42 * sin(angle) > radius else (low, angle)
    return low, 2.6 + 17 * sin(low) - 0.42 * cos(low)
