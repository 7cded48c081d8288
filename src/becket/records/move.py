"""Move all records from one database into another, empty one: SQLite to PostgreSQL and back.

In:    two stores.
Out:   the second holds the same numbers, hashes and documents; proved before it stays, verified afterwards.
Never: a change to the first.
"""

from __future__ import annotations

from collections.abc import Iterator

from sqlalchemy import select

from becket.errors import RefusedError
from becket.records import tables
from becket.records.fill import Filled, Tell, check_end, fill_store
from becket.records.kept import Document
from becket.records.store import Store
from becket.records.verify import verify


def move_records(source: Store, target: Store, tell: Tell) -> Filled:
    """Return what was moved; the source stays as it is [-].

    Args:
        source: to read; nothing may come in while it moves
        target: in which nothing is kept
        tell: is told how many events are over

    Raises:
        RefusedError: the target is not empty, the source is broken, or something came in meanwhile.
        CannotKeepError: the target cannot keep it.
    """
    found = verify(source)
    if found.fault is not None:
        raise RefusedError(f"{source.database.place}: is not as it was kept: {found.fault}; nothing was taken in")
    end = source.head()
    told = _Of(tell, end.number)
    with target.database.writing() as connection:
        filled = fill_store(connection, target.database.place, source.every(), _documents(source), told)
        now = source.head()
        if now != end:
            raise RefusedError(
                f"{source.database.place}: events came in while it was moved ({end.number} before, {now.number} now). "
                "Stop becket serve, then move again; nothing was taken in"
            )
        check_end(filled.head, end)
    moved = verify(target, anchor=end if end.number else None)
    if not moved.is_whole:  # pragma: no cover  # each link was proved on the way in
        raise RefusedError(f"{target.database.place}: is not as it was moved: {moved.fault}; use the old one")
    return filled


class _Of:
    """Tells how many of all."""

    def __init__(self, tell: Tell, of: int) -> None:
        self._tell, self._of = tell, of

    def __call__(self, what: str, done: int, of: int) -> None:
        self._tell(what, done, max(of, self._of))


def _documents(source: Store) -> Iterator[Document]:
    chosen = select(tables.documents).order_by(tables.documents.c.number)
    with source.database.reading() as connection:
        for row in connection.execution_options(yield_per=1).execute(chosen):
            yield Document(kind=row.kind, fingerprint=row.fingerprint, text=row.text)
