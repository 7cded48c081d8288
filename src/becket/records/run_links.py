"""Whether what a record tells is still as it was kept: its own events, and those before and after them in the chain.

In:    a store, the numbers of some events.
Out:   the first event that does not fit its link; None: all fit.
Never: a proof of the whole chain: that is ``verify``.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final

from sqlalchemy import select

from becket.records import tables
from becket.records.chain import BEGINNING, link_hash
from becket.records.database import Database

_AT_ONCE: Final = 500  # numbers in one question


def first_broken_link(database: Database, numbers: Iterable[int]) -> int | None:
    """Return the number of the first of these events that is not as it was kept; None: all are [-].

    An event is as it was kept when its own hash fits its text, number and time, it stands on the hash of the event
    before, and the event after stands on its hash.

    Args:
        database: of the store
        numbers: of events that were read from it

    Source: docs/records.md, "The chain".
    """
    wanted = sorted(set(numbers))
    rows = _rows(database, {one + step for one in wanted for step in (-1, 0, 1)})
    return next((number for number in wanted if not _fits(rows, number)), None)


def _rows(database: Database, numbers: Iterable[int]) -> dict[int, Any]:
    asked, found = sorted(numbers), {}
    columns = (tables.events.c[name] for name in ("number", "received", "body", "before", "hash"))
    question = select(*columns)
    with database.reading() as connection:
        for start in range(0, len(asked), _AT_ONCE):
            part = asked[start : start + _AT_ONCE]
            for row in connection.execute(question.where(tables.events.c.number.in_(part))):
                found[row.number] = row
    return found


def _fits(rows: dict[int, Any], number: int) -> bool:
    row, before, after = (rows.get(number + step) for step in (0, -1, 1))
    if row is None or row.hash != link_hash(row.before, row.number, row.received, row.body):
        return False
    stands_on = before.hash if before is not None else BEGINNING if number == 1 else None
    return row.before == stands_on and (after is None or after.before == row.hash)
