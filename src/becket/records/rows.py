"""Between an event and its row.

In:    events; rows of the table of events.
Out:   rows; what is kept.
Never: a transaction.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from typing import Any, Final

from sqlalchemy import Connection, select

from becket.errors import BrokenStoreError
from becket.guide.event import Event
from becket.records import tables
from becket.records.chain import link_hash
from becket.records.kept import Head, Kept

REPEATED: Final = (
    "key",
    "crane",
    "run",
    "kind",
    "person",
    "role",
    "device",
    "at",
    "tick",
)  # columns that repeat the body
_AT_ONCE: Final = 500  # keys of one question


def row_of(event: Event, body: str, end: Head, received: str) -> dict[str, object]:
    """Return the row of an event that follows the end of the chain [-].

    Args:
        event: to be kept
        body: its canonical text
        end: of the chain
        received: the server's clock
    """
    number = end.number + 1
    return {
        **{name: getattr(event, name) for name in REPEATED},
        "number": number,
        "received": received,
        "body": body,
        "before": end.hash,
        "hash": link_hash(end.hash, number, received, body),
    }


def kept_of(row: Any) -> Kept:
    """Return what is kept, read from the text and not from the columns [-].

    Args:
        row: of the table of events

    Raises:
        BrokenStoreError: its text is no event any more.
    """
    try:
        event = Event(**json.loads(row.body))
    except (TypeError, ValueError) as error:
        raise BrokenStoreError(
            f"event {row.number}: its text is no event any more. Run becket record verify."
        ) from error
    return Kept(event=event, number=row.number, received=row.received, before=row.before, hash=row.hash)


def keys_in(connection: Connection, keys: Sequence[str]) -> Iterator[Any]:
    """Yield the rows with these keys, in no order [-].

    Args:
        connection: to the database
        keys: any number
    """
    for start in range(0, len(keys), _AT_ONCE):
        chosen = tables.events.c.key.in_(keys[start : start + _AT_ONCE])
        yield from connection.execute(select(tables.events).where(chosen))
