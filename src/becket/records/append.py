"""Append events to the chain, inside one transaction that nobody else writes in.

In:    events, a connection that writes.
Out:   what became of each.
Never: an event twice, a gap in the numbers.
"""

from __future__ import annotations

from collections.abc import Sequence

from sqlalchemy import Connection, insert, select, update

from becket.errors import BrokenStoreError
from becket.guide.event import Event, canonical_text
from becket.records import tables
from becket.records.chain import BEGINNING
from becket.records.kept import Head, Outcome
from becket.records.rows import keys_in, row_of


def append_events(connection: Connection, events: Sequence[Event], received: str, place: str) -> tuple[Outcome, ...]:
    """Return what became of each event, in their order [-].

    Args:
        connection: inside a transaction that writes
        events: of any cranes
        received: the server's clock
        place: of the store, for what is said

    Raises:
        BrokenStoreError: the chain's end is not as it was kept.
    """
    end = _locked_end(connection, place)
    known = {row.key: (row.number, row.body) for row in keys_in(connection, [event.key for event in events])}
    outcomes: list[Outcome] = []
    rows: list[dict[str, object]] = []
    for event in events:
        body, why = _text_of(event)
        if why is None and event.key in known:
            number, before = known[event.key]
            why = None if before == body else _other_content(event.key, number)
            outcomes.append(_outcome(event, None if why else number, why))
        elif why is not None:
            outcomes.append(_outcome(event, None, why))
        else:
            row = row_of(event, body, end, received)
            end = Head(number=end.number + 1, hash=str(row["hash"]))
            known[event.key] = end.number, body
            rows.append(row)
            outcomes.append(_outcome(event, end.number, None, is_new=True))
    if rows:
        connection.execute(insert(tables.events), rows)
        connection.execute(update(tables.head).values(number=end.number, hash=end.hash))
    return tuple(outcomes)


def chain_end(connection: Connection, place: str, is_locked: bool = False) -> Head:
    """Return the end of the chain as the row of its own says [-].

    Args:
        connection: to the database
        place: of the store, for what is said
        is_locked: nobody else may move it until the transaction ends

    Raises:
        BrokenStoreError: there is no such row, or it holds no number and hash.
    """
    chosen = select(tables.head.c.number, tables.head.c.hash)
    row = connection.execute(chosen.with_for_update() if is_locked else chosen).first()
    if row is None:
        raise BrokenStoreError(f"{place}: the end of the chain is gone. {_CURE}")
    if not (isinstance(row.number, int) and isinstance(row.hash, str)):
        raise BrokenStoreError(f"{place}: the end of the chain holds no number. {_CURE}")
    return Head(number=row.number, hash=row.hash)


def _locked_end(connection: Connection, place: str) -> Head:
    """The end of the chain, compared with the last event: nothing is hung on a chain that was cut."""
    end = chain_end(connection, place, is_locked=True)
    last = connection.execute(
        select(tables.events.c.number, tables.events.c.hash).order_by(tables.events.c.number.desc()).limit(1)
    ).first()
    found = (0, BEGINNING) if last is None else (last.number, last.hash)
    if found != (end.number, end.hash):
        raise BrokenStoreError(f"{place}: the last event is {found[0]}, the chain was kept up to {end.number}. {_CURE}")
    return end


_CURE = "Somebody changed the database by hand. Run becket record verify, then restore the last backup."


def _text_of(event: Event) -> tuple[str, str | None]:
    try:
        body = canonical_text(event)
        body.encode()
    except UnicodeEncodeError:
        return "", f"{event.key}: holds half a character, which cannot be written. Enter it again in other words."
    except (TypeError, ValueError):
        return "", f"{event.key}: holds what is neither text nor a finite number. Enter it again."
    return body, None


def _other_content(key: str, number: int) -> str:
    return f"{key}: is kept as event {number} with other content. What is kept cannot be changed; add a note."


def _outcome(event: Event, number: int | None, refused: str | None, is_new: bool = False) -> Outcome:
    return Outcome(key=event.key, number=number, refused=refused, is_new=is_new)
