"""Single slips in the invented crane's book, and the contradictions that come of them.

In:    a part of the book and what is to stand there.
Out:   functions from a sound book to one with the slip; the contradictions of one name.
Never: expectations.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from becket.book.crane import Book
from becket.book.tackle import Keeper
from becket.limits.contradictions import find_contradictions
from tests.crane import invented_book, invented_settings, sealed

Slip = Callable[[Book], Book]
Case = tuple[str, Slip, tuple[str, ...], str]  # name, slip, fields, why

SETTINGS = invented_settings()


def found(name: str, slip: Slip) -> list[tuple[tuple[str, ...], str]]:
    """Return fields and why of every contradiction of one name that a slip makes."""
    every = find_contradictions(slip(invented_book()), SETTINGS)
    return [(one.fields, one.why) for one in every if one.name == name]


def part(name: str, **changes: Any) -> Slip:
    """Return a slip in one part of the book: its boom, head, winch, rope."""
    return lambda book: replace(book, **{name: replace(getattr(book, name), **changes)})


def drum(**changes: Any) -> Slip:
    """Return a slip in the drum."""
    return lambda book: replace(book, winch=replace(book.winch, drum=replace(book.winch.drum, **changes)))


def block(name: str, **changes: Any) -> Slip:
    """Return a slip in one block."""
    return lambda book: replace(book, blocks={**book.blocks, name: replace(book.blocks[name], **changes)})


def pattern(index: int, **changes: Any) -> Slip:
    """Return a slip in one pattern; its seal is that of the slip, as if it had been confirmed so."""

    def change(book: Book) -> Book:
        patterns = list(book.patterns)
        patterns[index] = replace(patterns[index], **changes)
        return sealed(replace(book, patterns=tuple(patterns)))

    return change


def position(index: int, **changes: Any) -> Slip:
    """Return a slip in one row of the positions for re-reeving."""

    def change(book: Book) -> Book:
        rows = list(book.rereeve)
        rows[index] = replace(rows[index], **changes)
        return replace(book, rereeve=tuple(rows))

    return change


def chart_row(**changes: Any) -> Slip:
    """Return a slip in the first row of the first chart."""

    def change(book: Book) -> Book:
        chart = book.charts[0]
        rows = (replace(chart.rows[0], **changes), *chart.rows[1:])
        return replace(book, charts=(replace(chart, rows=rows), *book.charts[1:]))

    return change


def new_keeper(**changes: Any) -> Slip:
    """Return a slip that adds a keeper."""
    pin: dict[str, Any] = {"name": "new pin", "at": "head", "block": None, "holds": (2,), "draw": "slack", "lock": None}
    return lambda book: replace(book, keepers=(*book.keepers, Keeper(**{**pin, **changes})))
