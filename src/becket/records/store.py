"""The store of events and documents: what comes in is kept once, in one chain, and stays as it is.

In:    events, the texts of books, settings, job sheets and scripts.
Out:   what is kept, in the order of the server.
Never: a judgement of what an event means; a change to what is kept.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from types import TracebackType
from typing import Any, Final

from sqlalchemy import ColumnElement, Connection, bindparam, func, insert, or_, select

from becket.errors import CannotKeepError, RefusedError, UnreadableTextError
from becket.guide.event import FIRM, Event
from becket.records import tables
from becket.records.append import append_events, chain_end
from becket.records.chain import fingerprint_of, is_moment
from becket.records.database import Database
from becket.records.kept import DOCUMENT_KINDS, Document, Head, Kept, Mark, News, Outcome
from becket.records.migrate import bring_up_to_date, check_version
from becket.records.rows import kept_of, keys_in

_AT_ONCE: Final = 1000  # rows held in memory
_NEWEST: Final = tables.documents.alias()
_LAST: Final = select(func.max(_NEWEST.c.number)).scalar_subquery()
_MARK: Final = select(  # one question: it is asked before anything that is remembered of a store is used
    tables.head.c.number,
    tables.head.c.hash,
    tables.documents.c.number,
    tables.documents.c.fingerprint,
    select(tables.events.c.hash).where(tables.events.c.number == bindparam("event")).scalar_subquery(),
    select(_NEWEST.c.fingerprint).where(_NEWEST.c.number == bindparam("document")).scalar_subquery(),
).select_from(tables.head.outerjoin(tables.documents, tables.documents.c.number == _LAST))


class Store:
    """One store. Threads and processes may use it at the same time; it waits its turn."""

    def __init__(self, database: Database) -> None:
        self.database = database

    @staticmethod
    def open(url: str) -> Store:
        """Return the store at a place, made or brought up to date where need be [-].

        Args:
            url: path of a file, sqlite:///PATH or postgresql://USER@HOST/NAME

        Raises:
            CannotKeepError: it cannot be opened: read-only, locked, no such folder, no answer.
            BrokenStoreError: it is damaged, of a newer becket, of another program, or its guards are gone.
        """
        database = Database(url)
        _check_folder(database)
        try:
            bring_up_to_date(database)
        except BaseException:
            database.close()
            raise
        return Store(database)

    @staticmethod
    def look(url: str) -> Store:
        """Return a store only to be read, as it is: guards may be gone; nothing is made or brought up to date [-].

        Args:
            url: as for ``open``

        Raises:
            CannotKeepError: there is none, or it cannot be read.
            BrokenStoreError: it is damaged, of another version, of another program.
        """
        database = Database(url, is_only_read=True)
        if database.path is not None and not os.path.isfile(database.path):
            raise CannotKeepError(f"Cannot open the records: there is no file {database.path}. Name one that is there.")
        try:
            check_version(database)
        except BaseException:
            database.close()
            raise
        return Store(database)

    def __enter__(self) -> Store:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def close(self) -> None:
        """Let go of the database [-]."""
        self.database.close()

    def append(self, events: Sequence[Event], received: str) -> tuple[Outcome, ...]:
        """Return what became of each event, in their order; all new ones are on the disk then [-].

        The same event again gives its old number. The same key with other content is refused, and so is an event that
        cannot be written as text; neither holds up the rest.

        Args:
            events: of any cranes
            received: the server's clock, ISO 8601 with offset

        Raises:
            CannotKeepError: none of them is kept; says why and what to do.
            BrokenStoreError: the chain's end is not as it was kept.
        """
        if not is_moment(received):
            raise UnreadableTextError(f"received: {received[:60]!r}", "a moment as 2026-11-30T15:31:00+01:00")
        with self.database.writing() as connection:
            return append_events(connection, events, received, self.database.place)

    def read(self, crane: str | None, after: int = 0, run: str | None = None) -> tuple[Kept, ...]:
        """Return what is kept, in the order of its numbers [-].

        Args:
            crane: its id, exactly; FIRM: only what belongs to the whole firm; None: everything
            after: only numbers over this
            run: only of this run
        """
        chosen = [tables.events.c.number > after]
        if crane is not None:
            chosen.append(tables.events.c.crane == crane)
        if run is not None:
            chosen.append(tables.events.c.run == run)
        with self.database.reading() as connection:
            return _kept(connection, chosen)

    def news(self, crane: str, after: int = 0, most: int | None = None) -> News:
        """Return the events of a crane and of the firm, and the chain's end at that same moment [-].

        A phone that asks next time for what comes after that end misses nothing.

        Args:
            crane: its id
            after: only numbers over this
            most: no more events than this, the lowest numbers; None: all
        """
        of_both = or_(tables.events.c.crane == crane, tables.events.c.crane == FIRM)
        with self.database.reading() as connection:
            kept = _kept(connection, [tables.events.c.number > after, of_both], most)
            return News(kept=kept, head=chain_end(connection, self.database.place))

    def find(self, keys: Iterable[str]) -> tuple[Kept, ...]:
        """Return the events with these keys that are kept, in the order of their numbers [-].

        Args:
            keys: as the devices made them
        """
        with self.database.reading() as connection:
            found = [kept_of(row) for row in keys_in(connection, list(keys))]
        return tuple(sorted(found, key=lambda one: one.number))

    def at(self, number: int) -> Kept | None:
        """Return the event with a number; None: there is none [-].

        Args:
            number: from 1
        """
        with self.database.reading() as connection:
            found = _kept(connection, [tables.events.c.number == number])
        return found[0] if found else None

    def every(self) -> Iterator[Kept]:
        """Yield all that is kept, in order, few at a time in memory [-]."""
        with self.database.reading() as connection:
            chosen = select(tables.events).order_by(tables.events.c.number)
            for row in connection.execution_options(yield_per=_AT_ONCE).execute(chosen):
                yield kept_of(row)

    def head(self) -> Head:
        """Return the end of the chain; number 0 where nothing is kept [-]."""
        with self.database.reading() as connection:
            return chain_end(connection, self.database.place)

    def mark(self, before: Mark | None = None) -> tuple[Mark, bool]:
        """Return by what this store is known again, and whether all that was there before is there still [-].

        Args:
            before: of this store, from before; None: there was none

        Raises:
            BrokenStoreError: the row that keeps the chain's end is gone.
        """
        known = before or Mark(head=Head(number=0, hash=""), documents=0, document="")
        with self.database.reading() as connection:
            row = connection.execute(_MARK, {"event": known.head.number, "document": known.documents}).first()
            head = chain_end(connection, self.database.place) if row is None else Head(number=row[0], hash=row[1])
        found, text, event_then, text_then = (row[2] or 0, row[3] or "", row[4], row[5]) if row else (0, "", None, None)
        goes_on = (known.head.number == 0 or event_then == known.head.hash) and (
            known.documents == 0 or text_then == known.document
        )
        return Mark(head=head, documents=found, document=text), goes_on

    def keep_document(self, kind: str, text: str) -> str:
        """Return the fingerprint of a text, which is kept from now on [-].

        Args:
            kind: one of DOCUMENT_KINDS
            text: as it stands in its file

        Raises:
            UnreadableTextError: no such kind, or a text that cannot be kept.
            RefusedError: another text has the same fingerprint.
            CannotKeepError: it is not kept; says why and what to do.
        """
        if kind not in DOCUMENT_KINDS:
            raise UnreadableTextError(f"kind: {kind!r}", f"one of {', '.join(DOCUMENT_KINDS)}")
        try:
            fingerprint = fingerprint_of(text)
        except UnicodeEncodeError as error:
            raise UnreadableTextError("half a character", "text that can be written as UTF-8") from error
        if "\0" in text:
            raise UnreadableTextError("a character NUL", "text without it")
        if self._is_kept(kind, fingerprint, text):
            return fingerprint
        with self.database.writing() as connection:
            if not _is_there(connection, kind, fingerprint, text):
                last = connection.execute(select(func.max(tables.documents.c.number))).scalar() or 0
                new = {"number": last + 1, "kind": kind, "fingerprint": fingerprint, "text": text}
                connection.execute(insert(tables.documents), [new])
        return fingerprint

    def document(self, fingerprint: str) -> Document | None:
        """Return a kept text by its fingerprint; none where it is not kept [-].

        Args:
            fingerprint: 16 hex digits
        """
        chosen = select(tables.documents).where(tables.documents.c.fingerprint == fingerprint)
        with self.database.reading() as connection:
            row = connection.execute(chosen.order_by(tables.documents.c.number)).first()
        return None if row is None else _document(row)

    def documents(self, kind: str) -> tuple[Document, ...]:
        """Return every kept text of a kind, oldest first [-].

        Args:
            kind: one of DOCUMENT_KINDS
        """
        chosen = select(tables.documents).where(tables.documents.c.kind == kind)
        with self.database.reading() as connection:
            return tuple(_document(row) for row in connection.execute(chosen.order_by(tables.documents.c.number)))

    def _is_kept(self, kind: str, fingerprint: str, text: str) -> bool:
        with self.database.reading() as connection:
            return _is_there(connection, kind, fingerprint, text)


def _check_folder(database: Database) -> None:
    if database.path is None:
        return
    if os.path.isdir(database.path):
        raise CannotKeepError(f"Cannot open the records: {database.path} is a folder. Give the name of a file in it.")
    if not os.path.isdir(database.path.parent):
        raise CannotKeepError(
            f"Cannot open the records: there is no folder {database.path.parent} that becket may look into. "
            "Make it, or name another."
        )


def _kept(connection: Connection, chosen: Sequence[ColumnElement[bool]], most: int | None = None) -> tuple[Kept, ...]:
    rows = connection.execute(select(tables.events).where(*chosen).order_by(tables.events.c.number).limit(most))
    return tuple(kept_of(row) for row in rows)


def _is_there(connection: Connection, kind: str, fingerprint: str, text: str) -> bool:
    table = tables.documents
    chosen = select(table.c.text).where(table.c.fingerprint == fingerprint, table.c.kind == kind)
    found = connection.execute(chosen).scalar()
    if found is not None and found != text:
        raise RefusedError(f"document {fingerprint}: another text with this fingerprint is kept; change a word in it")
    return found is not None


def _document(row: Any) -> Document:
    return Document(kind=row.kind, fingerprint=row.fingerprint, text=row.text)


def store_place(folder: Path) -> str:
    """Return the path of the store in a data folder [-].

    Args:
        folder: the data folder
    """
    return str(folder / "becket.sqlite")
