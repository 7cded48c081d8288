"""Fill an empty store with what another store kept: same numbers, same hashes, or nothing at all.

In:    events in their order, documents in theirs, the end of the chain that they must come to.
Out:   the filled tables, inside the caller's transaction.
Never: a store in which something is kept; a link that does not hold.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import islice

from sqlalchemy import Connection, func, insert, select, update

from becket.errors import RefusedError
from becket.guide.event import canonical_text
from becket.records import tables
from becket.records.append import chain_end
from becket.records.chain import BEGINNING, fingerprint_of, is_moment, link_hash
from becket.records.kept import Document, Head, Kept
from becket.records.rows import row_of

Tell = Callable[[str, int, int], None]  # what, how much of it is done, of how much
_AT_ONCE = 500  # rows held in memory


@dataclass(frozen=True, kw_only=True)
class Filled:
    """What went in."""

    events: int
    documents: int
    head: Head


def fill_store(
    connection: Connection, place: str, kept: Iterable[Kept], documents: Iterable[Document], tell: Tell
) -> Filled:
    """Return what went into an empty store [-].

    Args:
        connection: inside a transaction that writes
        place: of the store, for what is said
        kept: events in the order of their numbers
        documents: in the order in which they were kept
        tell: is told how many events are in

    Raises:
        RefusedError: the store is not empty, a link does not hold, a text is not that of its fingerprint.
    """
    _check_empty(connection, place)
    count = 0
    for count, document in enumerate(documents, 1):
        if fingerprint_of(document.text) != document.fingerprint:
            raise RefusedError(f"{document.kind} {document.fingerprint}: its text was changed; nothing was taken in")
        row = {"number": count, "kind": document.kind, "fingerprint": document.fingerprint, "text": document.text}
        connection.execute(insert(tables.documents), [row])
    end, rest = Head(number=0, hash=BEGINNING), iter(kept)
    while part := list(islice(rest, _AT_ONCE)):
        rows = []
        for one in part:
            rows.append(_link(one, end))
            end = Head(number=one.number, hash=one.hash)
        connection.execute(insert(tables.events), rows)
        tell("events", end.number, end.number)
    if end.number:
        connection.execute(update(tables.head).values(number=end.number, hash=end.hash))
    return Filled(events=end.number, documents=count, head=end)


def check_end(found: Head, wanted: Head) -> None:
    """Refuse events that do not come to the end that was said [-].

    Args:
        found: the end that they come to
        wanted: the end that was said

    Raises:
        RefusedError: another end.
    """
    if found != wanted:
        raise RefusedError(
            f"the chain ends at event {found.number}, it should end at {wanted.number}"
            f"{'' if found.number != wanted.number else ' with another hash'}; nothing was taken in"
        )


def _link(one: Kept, end: Head) -> dict[str, object]:
    """The row of an event, once its link is proved."""
    number, body = end.number + 1, canonical_text(one.event)
    if one.number != number:
        raise RefusedError(f"event {number}: is missing; event {one.number} stands there; nothing was taken in")
    if one.before != end.hash:
        raise RefusedError(f"event {number}: does not follow on the event before; nothing was taken in")
    if not is_moment(one.received) or link_hash(one.before, number, one.received, body) != one.hash:
        raise RefusedError(f"event {number}: was changed, its hash does not hold; nothing was taken in")
    return row_of(one.event, body, end, one.received)


def _check_empty(connection: Connection, place: str) -> None:
    end = chain_end(connection, place, is_locked=True)
    documents = connection.execute(select(func.count()).select_from(tables.documents)).scalar() or 0
    if end.number or documents:
        raise RefusedError(
            f"{place}: is not empty ({end.number} events, {documents} documents). What is kept is never mixed with "
            "what comes in. Name a place where nothing is kept."
        )
