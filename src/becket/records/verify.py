"""Verify the chain: whether every event is as it was kept, and where the first is that is not.

In:    a store, also one whose guards are gone; the end of the chain as it was once written down elsewhere.
Out:   how many events, the chain's end, the first broken place in words; documents that are not as they were.
Never: a mending.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from types import SimpleNamespace
from typing import Any

from sqlalchemy import Connection, Select, select
from sqlalchemy.exc import OperationalError

from becket.errors import RefusedError
from becket.guide.event import Event
from becket.records import tables
from becket.records.chain import BEGINNING, fingerprint_of, link_hash
from becket.records.guards import missing_guards
from becket.records.kept import Head
from becket.records.rows import REPEATED
from becket.records.store import Store
from becket.records.trouble import NO_TEXT

Tell = Callable[[str, int, int], None]  # what, how much of it is done, of how much
_AT_ONCE = 1000  # rows held in memory
_READ = tuple(tables.events.c[name] for name in ("number", "received", "body", "before", "hash", *REPEATED))


@dataclass(frozen=True, kw_only=True)
class Broken:
    """The first place at which the chain is not as it was kept."""

    number: int  # of the event
    why: str


@dataclass(frozen=True, kw_only=True)
class Verified:
    """What verifying found."""

    count: int  # events that are there
    head: Head | None  # the end of the chain as its own row says; None: the row is gone
    first_broken: Broken | None
    documents: int  # that are there
    broken_documents: tuple[str, ...]  # a sentence each
    guards_gone: tuple[str, ...]  # names of triggers; what is kept may be whole without them

    @property
    def is_whole(self) -> bool:
        """Return whether everything is as it was kept [-]."""
        return self.first_broken is None and not self.broken_documents

    @property
    def fault(self) -> str | None:
        """Return what is first not as it was kept; None: nothing [-]."""
        if self.first_broken is not None:
            return f"event {self.first_broken.number}: {self.first_broken.why}"
        return "; ".join(self.broken_documents) or None


def verify(store: Store, anchor: Head | None = None, tell: Tell | None = None) -> Verified:
    """Return whether the store is as it was kept, and where it first is not [-].

    Args:
        store: to read; nobody needs to stop writing
        anchor: number and hash of an event as they stand on paper; the hash may be cut short
        tell: is told how far the work is

    Raises:
        RefusedError: the anchor is no event's number, or too short to prove anything.

    Source: docs/records.md, "What the chain proves".
    """
    if anchor is not None and (anchor.number < 1 or len(anchor.hash) < 8):
        raise RefusedError(f"{anchor.number}:{anchor.hash}: an event's number from 1 and 8 or more digits of its hash")
    with store.database.reading() as connection:
        head = _kept_end(connection)
        count, last, broken = _walk(connection, anchor, tell, 0 if head is None else head.number)
        broken = broken or _end(connection, count, last, head) or _beyond(count, anchor)
        documents, bad = _documents(connection)
        missing = _named_and_missing(connection)
        gone = missing_guards(connection)
    return Verified(
        count=count,
        head=head,
        first_broken=broken,
        documents=documents,
        broken_documents=(*bad, *missing),
        guards_gone=gone,
    )


def _kept_end(connection: Connection) -> Head | None:
    """The end of the chain as its own row says; none where the row is gone or holds something else."""
    row = connection.execute(select(tables.head.c.number, tables.head.c.hash)).first()
    if row is None or not (isinstance(row.number, int) and isinstance(row.hash, str)):
        return None
    return Head(number=row.number, hash=row.hash)


def _walk(connection: Connection, anchor: Head | None, tell: Tell | None, of: int) -> tuple[int, str, Broken | None]:
    """How many events there are, the hash of the last, the first that is broken."""
    before, count, broken = BEGINNING, 0, None
    for count, row in enumerate(_rows(connection), 1):
        if broken is None:
            why = _fault(row, count, before)
            broken = None if why is None else Broken(number=min(count, max(row.number, 1)), why=why)
        if broken is None and anchor is not None and anchor.number == count and not row.hash.startswith(anchor.hash):
            broken = Broken(number=count, why=f"its hash is {row.hash}, on paper it is {anchor.hash}")
        before = row.hash
        if tell is not None and count % _AT_ONCE == 0:
            tell("events verified", count, max(of, count))
    return count, before, broken


def _rows(connection: Connection) -> Iterator[Any]:
    chosen, last = select(*_READ).order_by(tables.events.c.number), None
    try:
        for row in connection.execution_options(yield_per=_AT_ONCE).execute(chosen):
            yield row
            last = row.number
    except OperationalError as error:
        _need_no_text(error)
        yield from _one_by_one(connection, last)  # a text among them is none: the driver gives none of its piece


def _one_by_one(connection: Connection, after: int | None) -> Iterator[Any]:
    """The rows over a number; one that holds something else than text has no body."""
    numbers = select(tables.events.c.number).order_by(tables.events.c.number)
    rest = numbers if after is None else numbers.where(tables.events.c.number > after)
    for number in connection.execute(rest).scalars().all():
        try:
            yield connection.execute(select(*_READ).where(tables.events.c.number == number)).one()
        except OperationalError as error:
            _need_no_text(error)
            yield SimpleNamespace(number=number, received="", body=None, before="", hash="")


def _fault(row: Any, number: int, before: str) -> str | None:
    if row.number > number:
        return f"event {number} is missing; the next that is there is {row.number}"
    if row.number < number:
        return f"an event with the number {row.number} was put in"
    if row.body is None:
        return "a text of it is no text any more"
    if row.before != before:
        return (
            f"it does not follow on event {number - 1}: one of the two was changed, or an event dropped, put in, moved"
        )
    if link_hash(before, number, row.received, row.body) != row.hash:
        return "its text, its time of arrival, its number or its hash was changed"
    return _column_fault(row)


def _column_fault(row: Any) -> str | None:
    try:
        body = json.loads(row.body)
        Event(**body)
    except (TypeError, ValueError):
        return "its text is no event"
    for place, name in enumerate(REPEATED, 5):
        if row[place] != body[name]:
            return f"the column {name} says {row[place]!r}, the text says {body[name]!r}"
    return None


def _end(connection: Connection, count: int, last: str, head: Head | None) -> Broken | None:
    if head is None:
        return Broken(number=max(count, 1), why="the row that keeps the end of the chain is gone or holds no number")
    if head.number > count:
        return Broken(number=count + 1, why=f"it is missing: the chain was kept up to event {head.number}")
    if head.number < count:
        there = select(tables.events.c.hash).where(tables.events.c.number == head.number)
        if connection.execute(there).scalar() != head.hash:
            return Broken(number=count, why=f"the row that keeps the end of the chain was changed to {head.number}")
        return Broken(number=head.number + 1, why=f"it was put in: the chain was kept up to event {head.number}")
    if head.hash != last:
        return Broken(number=max(count, 1), why="the end of the chain was kept with another hash")
    return None


def _beyond(count: int, anchor: Head | None) -> Broken | None:
    if anchor is None or anchor.number <= count:
        return None
    return Broken(number=count + 1, why=f"it is missing: event {anchor.number} stands on paper")


def _documents(connection: Connection) -> tuple[int, tuple[str, ...]]:
    table, count, bad = tables.documents, 0, []
    chosen = select(table.c.number, table.c.kind, table.c.fingerprint).order_by(table.c.number)
    for count, row in enumerate(connection.execute(chosen).all(), 1):
        if row.number != count:
            bad.append(f"{row.kind} {row.fingerprint}: a document before it is missing")
        text = _text(connection, select(table.c.text).where(table.c.number == row.number))
        if text is None or fingerprint_of(text) != row.fingerprint:
            bad.append(f"{row.kind} {row.fingerprint}: its text was changed")
    return count, tuple(bad)


def _named_and_missing(connection: Connection) -> tuple[str, ...]:
    """The scripts and books that a run began with and that are not there."""
    there = set(connection.execute(select(tables.documents.c.fingerprint)).scalars())
    chosen = select(tables.events.c.number).where(tables.events.c.kind == "run_started")
    missing = []
    for number in connection.execute(chosen.order_by(tables.events.c.number)).scalars().all():
        body = _text(connection, select(tables.events.c.body).where(tables.events.c.number == number))
        entered = {} if body is None else _entered(body)
        for kind in ("script", "book"):
            name = entered.get(kind)
            if isinstance(name, str) and name not in there:
                missing.append(f"{kind} {name}: is missing; event {number} began with it")
    return tuple(missing)


def _need_no_text(error: OperationalError) -> None:
    """Go on only where the driver found bytes that are no text; everything else is told as it is."""
    if not str(error.orig).startswith(NO_TEXT):
        raise error


def _text(connection: Connection, chosen: Select[tuple[str]]) -> str | None:
    """One text; none where it is no text any more."""
    try:
        found = connection.execute(chosen).scalar()
    except OperationalError as error:
        _need_no_text(error)
        return None
    return found if isinstance(found, str) else None


def _entered(body: str) -> dict[str, object]:
    try:
        found = json.loads(body)["entered"]
    except (ValueError, KeyError, TypeError):
        return {}  # changed by hand: the chain says so
    return found if isinstance(found, dict) else {}
