"""The invented crane asked for one limit, for tests of dangers.

In:    changes to the crane book, the lift or the settings.
Out:   one limit or the whole answer.
Never: judging.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.limits.answer import FallsAnswer, Limit, Row
from becket.limits.table import falls_table
from becket.settings.values import Settings
from becket.verdict import Verdict
from tests.crane import invented_book, invented_lift, invented_settings, sealed

PASS, FAIL, UNKNOWN = Verdict.PASS, Verdict.FAIL, Verdict.UNKNOWN


def book_with(part: str, **changes: Any) -> Book:
    """Return the invented crane with changes in one part of its book, patterns sealed again [-]."""
    book = invented_book()
    return sealed(replace(book, **{part: replace(getattr(book, part), **changes)}))


def block_with(name: str = "main", **changes: Any) -> Book:
    """Return the invented crane with changes in one block, patterns sealed again [-]."""
    book = invented_book()
    blocks: Mapping[str, Any] = {**book.blocks, name: replace(book.blocks[name], **changes)}
    return sealed(replace(book, blocks=blocks))


def table(
    book: Book | None = None, lift: Lift | None = None, *, block: str = "main", settings: Settings | None = None
) -> FallsAnswer:
    """Return the falls table [-]."""
    return falls_table(
        book if book is not None else invented_book(),
        settings if settings is not None else invented_settings(),
        block,
        lift if lift is not None else invented_lift(),
    )


def row(book: Book | None = None, lift: Lift | None = None, *, falls: int = 4, block: str = "main") -> Row:
    """Return one row of the falls table [-]."""
    return next(row for row in table(book, lift, block=block).rows if row.falls == falls)


def limit(
    name: str, book: Book | None = None, lift: Lift | None = None, *, falls: int = 4, block: str = "main"
) -> Limit:
    """Return one limit of one number of falls [-]."""
    return row(book, lift, falls=falls, block=block).limit(name)
