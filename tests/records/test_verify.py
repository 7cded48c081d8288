"""Every way to change what is kept by hand is found and placed, on both engines; an untouched store is whole."""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest
from sqlalchemy import text

from becket.errors import BrokenStoreError, RefusedError
from becket.records.chain import BEGINNING, link_hash
from becket.records.guards import drop_guards
from becket.records.kept import Head
from becket.records.store import Store
from becket.records.verify import Broken, Verified, verify
from tests.records.invented import LATER, NOON, an_event, some

FULL = 9  # events of the store that is tampered with


@pytest.fixture
def full(store: Store) -> Store:
    """Return a store with events and documents."""
    store.append(some(1, 5), NOON)
    store.append(some(6, FULL), LATER)
    for kind, words in (("book", "crane: a\n"), ("script", "{}"), ("jobs", "[]")):
        store.keep_document(kind, words)
    return store


def tamper(store: Store, *statements: str) -> None:
    """Do by hand what the guards refuse."""
    with store.database.writing() as connection:
        drop_guards(connection)
        for statement in statements:
            connection.execute(text(statement.replace(":", r"\:")))


def copy_of(number: int, new: int) -> str:
    """Return the statement that puts a changed copy of an event in at another number."""
    same = "crane, run, kind, person, role, device, at, tick, received, body, before, hash"
    return f"INSERT INTO events (number, key, {same}) SELECT {new}, 'copy', {same} FROM events WHERE number = {number}"


def moved(number: int, new: int) -> str:
    """Return the statement that gives an event another number."""
    return f"UPDATE events SET number = {new} WHERE number = {number}"


# two events hang behind the end that was kept
BEHIND = "UPDATE head SET number = 7, hash = (SELECT hash FROM events WHERE number = 7)"


def test_an_empty_store_is_whole(store: Store) -> None:
    wanted = Verified(
        count=0,
        head=Head(number=0, hash=BEGINNING),
        first_broken=None,
        documents=0,
        broken_documents=(),
        guards_gone=(),
    )
    assert verify(store) == wanted
    assert verify(store).is_whole


def test_an_untouched_store_is_whole(full: Store) -> None:
    found = verify(full)
    assert found == Verified(
        count=FULL, head=full.head(), first_broken=None, documents=3, broken_documents=(), guards_gone=()
    )
    assert found.is_whole


FOLLOWS = "it does not follow on event {}: one of the two was changed, or an event dropped, put in, moved"
COLUMN = "the column {} says '{}', the text says '{}'"
CHANGED = "its text, its time of arrival, its number or its hash was changed"


@pytest.mark.parametrize(
    ("statements", "number", "why"),
    [
        (["UPDATE events SET body = replace(body, 'rigger', 'nobody') WHERE number = 4"], 4, CHANGED),
        (["UPDATE events SET received = '2026-11-30T12:00:01+01:00' WHERE number = 1"], 1, CHANGED),
        (["UPDATE events SET hash = before WHERE number = 9"], 9, CHANGED),
        (["UPDATE events SET before = hash WHERE number = 2"], 2, FOLLOWS.format(1)),
        (["UPDATE events SET role = 'operator' WHERE number = 3"], 3, COLUMN.format("role", "operator", "rigger")),
        (["UPDATE events SET crane = 'other' WHERE number = 9"], 9, COLUMN.format("crane", "other", "demo")),
        (["UPDATE events SET run = NULL WHERE number = 3"], 3, "the column run says None, the text says 'run-1'"),
        (["UPDATE events SET tick = 99 WHERE number = 3"], 3, "the column tick says 99, the text says 3"),
        (["UPDATE events SET key = 'x' WHERE number = 3"], 3, COLUMN.format("key", "x", "phone-1.3")),
        (["DELETE FROM events WHERE number = 1"], 1, "event 1 is missing; the next that is there is 2"),
        (["DELETE FROM events WHERE number IN (5, 6, 8)"], 5, "event 5 is missing; the next that is there is 7"),
        (["DELETE FROM events WHERE number = 5", *(moved(n, n - 1) for n in (6, 7, 8, 9))], 5, FOLLOWS.format(4)),
        ([moved(3, -3), moved(4, 3), "UPDATE events SET number = 4 WHERE number = -3"], 3, FOLLOWS.format(2)),
        ([moved(9, 100), moved(8, 9), moved(100, 8)], 8, FOLLOWS.format(7)),
        ([*(moved(n, n + 1) for n in (9, 8, 7, 6)), copy_of(5, 6)], 6, FOLLOWS.format(5)),
        ([copy_of(1, 0)], 1, "an event with the number 0 was put in"),
        ([copy_of(9, 10)], 10, FOLLOWS.format(9)),
        ([copy_of(9, 12)], 10, "event 10 is missing; the next that is there is 12"),
        (["DELETE FROM events WHERE number = 9"], 9, "it is missing: the chain was kept up to event 9"),
        (["DELETE FROM events WHERE number > 6"], 7, "it is missing: the chain was kept up to event 9"),
        (["DELETE FROM events"], 1, "it is missing: the chain was kept up to event 9"),
        (["UPDATE head SET number = 7"], 9, "the row that keeps the end of the chain was changed to 7"),
        (["UPDATE head SET number = -5"], 9, "the row that keeps the end of the chain was changed to -5"),
        ([BEHIND], 8, "it was put in: the chain was kept up to event 7"),
        (["UPDATE head SET hash = 'x'"], 9, "the end of the chain was kept with another hash"),
        (["DELETE FROM head"], 9, "the row that keeps the end of the chain is gone or holds no number"),
    ],
)  # fmt: skip
def test_what_is_done_by_hand_is_found_and_placed(full: Store, statements: list[str], number: int, why: str) -> None:
    tamper(full, *statements)
    found = verify(full)
    assert found.first_broken == Broken(number=number, why=why)
    assert not found.is_whole


def rewritten(store: Store, number: int, change: Callable[[str], str]) -> None:
    """Change one event and make every hash after it anew, as one can who owns the whole database."""
    with store.database.writing() as connection:
        drop_guards(connection)
        before = BEGINNING
        for row in connection.execute(text("SELECT * FROM events ORDER BY number")).all():
            body = change(row.body) if row.number == number else row.body
            new = link_hash(before, row.number, row.received, body)
            values = {"body": body, "before": before, "hash": new, "role": json.loads(body)["role"], "n": row.number}
            connection.execute(
                text("UPDATE events SET body = :body, before = :before, hash = :hash, role = :role WHERE number = :n"),
                values,
            )
            before = new
        connection.execute(text("UPDATE head SET hash = :hash"), {"hash": before})


def test_a_chain_that_is_made_anew_is_found_by_what_stands_on_paper_and_by_nothing_else(full: Store) -> None:
    paper = full.head()
    early = Head(number=3, hash=full.read(None)[2].hash[:12])
    rewritten(full, 4, lambda body: body.replace('"rigger"', '"operator"'))
    assert verify(full).is_whole  # docs/records.md says so
    found = verify(full, paper).first_broken
    assert found == Broken(number=9, why=f"its hash is {full.head().hash}, on paper it is {paper.hash}")
    assert verify(full, early).is_whole
    rewritten(full, 3, lambda body: body.replace('"rigger"', '"operator"'))
    broken = verify(full, early).first_broken
    assert broken is not None
    assert broken.number == 3


@pytest.mark.parametrize("body", ["{", "[]", '{"key":"x"}', '{"key":"x","role":"rigger"}'])
def test_a_text_that_is_no_event_is_found_though_its_hash_is_right(full: Store, body: str) -> None:
    before = full.read(None)[7].hash
    with full.database.writing() as connection:
        drop_guards(connection)
        new = {"body": body, "hash": link_hash(before, 9, LATER, body)}
        connection.execute(text("UPDATE events SET body = :body, hash = :hash WHERE number = 9"), new)
        connection.execute(text("UPDATE head SET hash = :hash"), new)
    assert verify(full).first_broken == Broken(number=9, why="its text is no event")
    with pytest.raises(BrokenStoreError, match=r"event 9: its text is no event any more\. Run becket record verify\."):
        full.read(None)


def test_what_stands_on_paper_and_is_true_is_found_true(full: Store) -> None:
    for number, kept in enumerate(full.read(None), 1):
        assert verify(full, Head(number=number, hash=kept.hash[:8])).is_whole


def test_an_event_on_paper_that_is_not_there_is_missing(full: Store) -> None:
    found = verify(full, Head(number=12, hash="a" * 64)).first_broken
    assert found == Broken(number=10, why="it is missing: event 12 stands on paper")


def test_an_anchor_that_proves_nothing_is_refused(full: Store) -> None:
    for anchor in (Head(number=0, hash="a" * 64), Head(number=3, hash="abcdef0")):
        with pytest.raises(RefusedError, match="an event's number from 1 and 8 or more digits of its hash"):
            verify(full, anchor)


def test_a_document_that_was_changed_or_dropped_is_found(full: Store) -> None:
    book, script, jobs = (full.documents(kind)[0].fingerprint for kind in ("book", "script", "jobs"))
    tamper(
        full, f"UPDATE documents SET text = 'crane: b' WHERE fingerprint = '{book}'",
        f"DELETE FROM documents WHERE fingerprint = '{script}'",
    )  # fmt: skip
    assert verify(full).broken_documents == (
        f"book {book}: its text was changed",
        f"jobs {jobs}: a document before it is missing",
    )
    assert not verify(full).is_whole


def test_the_last_document_is_missed_by_the_run_that_began_with_it(full: Store) -> None:
    jobs = full.documents("jobs")[0].fingerprint
    script = full.documents("script")[0].fingerprint
    started = {"kind": "change", "script": script, "book": jobs}
    full.append([an_event(50, kind="run_started", entered=started)], NOON)
    assert verify(full).is_whole
    tamper(full, f"DELETE FROM documents WHERE fingerprint = '{jobs}'")
    assert verify(full).broken_documents == (f"book {jobs}: is missing; event 10 began with it",)


def test_progress_is_told(store: Store) -> None:
    store.append(some(1, 2500), NOON)
    heard: list[tuple[str, int, int]] = []
    verify(store, tell=lambda what, done, of: heard.append((what, done, of)))
    assert heard == [("events verified", 1000, 2500), ("events verified", 2000, 2500)]


NO_TEXT = "UPDATE {} SET {} = cast(x'ff61' as text) WHERE {}"


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
@pytest.mark.parametrize(
    ("statement", "said"),
    [
        (NO_TEXT.format("events", "body", "number = 5"), "event 5: a text of it is no text any more"),
        (NO_TEXT.format("events", "hash", "number = 9"), "event 9: a text of it is no text any more"),
        (NO_TEXT.format("documents", "text", "kind = 'book'"), "book"),
        ("UPDATE head SET number = 'abc'", "event 9: the row that keeps the end of the chain is gone or holds no"),
    ],
    ids=["body", "hash", "document", "end"],
)
def test_what_is_no_text_and_no_number_is_found_and_placed(full: Store, statement: str, said: str) -> None:
    tamper(full, statement)
    assert str(verify(full).fault).startswith(said)
    with pytest.raises(BrokenStoreError):
        full.head() if "head" in statement else full.read(None) if "events" in statement else full.documents("book")


@pytest.mark.parametrize(
    "statement", ["DROP TABLE events", "DROP TABLE documents", "ALTER TABLE events RENAME COLUMN body TO words"]
)
def test_a_table_that_is_gone_is_told(full: Store, statement: str) -> None:
    tamper(full, statement)
    with pytest.raises(BrokenStoreError, match=r"was changed by hand .*restore the last backup"):
        verify(full)
