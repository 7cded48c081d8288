"""Nothing that is kept can be changed or taken away through SQL, and a guard that is gone is missed."""

from __future__ import annotations

import pytest
from alembic.migration import MigrationContext
from alembic.operations import Operations
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from becket.errors import BrokenStoreError
from becket.records.guards import drop_guards, missing_guards, place_guards
from becket.records.store import Store
from becket.records.verify import verify
from tests.records.invented import NOON, some

COLUMNS = "number, key, crane, run, kind, person, role, device, at, tick, received, body, before, hash"


@pytest.fixture
def full(store: Store) -> Store:
    """Return a store with two events and a document."""
    store.append(some(1, 2), NOON)
    store.keep_document("book", "crane: a\n")
    return store


def refused(store: Store, statement: str) -> str:
    """Return what the database says to a statement; all that is kept stays."""
    kept, documents = store.read(None), store.documents("book")
    with pytest.raises(DBAPIError) as raised, store.database.writing() as connection:
        connection.execute(text(statement))
    assert (store.read(None), store.documents("book")) == (kept, documents)
    assert verify(store).is_whole
    return str(raised.value.orig)


@pytest.mark.parametrize(
    ("statement", "words"),
    [
        ("UPDATE events SET role = 'operator' WHERE number = 1", "event cannot be changed|UPDATE on events"),
        ("UPDATE events SET role = role", "event cannot be changed|UPDATE on events"),
        ("DELETE FROM events WHERE number = 2", "event cannot be taken away|DELETE on events"),
        ("DELETE FROM events", "event cannot be taken away|DELETE on events"),
        ("UPDATE documents SET text = 'b'", "document cannot be changed|UPDATE on documents"),
        ("DELETE FROM documents", "document cannot be taken away|DELETE on documents"),
        ("UPDATE head SET number = 1", "only moves on|UPDATE on head"),
        ("UPDATE head SET hash = 'x'", "only moves on|UPDATE on head"),
        ("DELETE FROM head", "end of the chain stays|DELETE on head"),
        ("INSERT INTO head VALUES (1, 9, 'x')", "end of the chain stays|head_pkey"),
        ("INSERT INTO head VALUES (2, 9, 'x')", "end of the chain stays|head_is_one"),
    ],
)
def test_a_change_is_refused(full: Store, statement: str, words: str) -> None:
    assert any(word in refused(full, statement) for word in words.split("|"))


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
@pytest.mark.parametrize(
    "statement",
    [
        f"INSERT OR REPLACE INTO events ({COLUMNS}) SELECT {COLUMNS} FROM events WHERE number = 1",
        f"REPLACE INTO events SELECT 3, {COLUMNS[len('number, ') :]} FROM events WHERE number = 1",
        "REPLACE INTO documents VALUES (1, 'book', 'x', 'y')",
        "REPLACE INTO documents SELECT 7, kind, fingerprint, 'y' FROM documents",
        "REPLACE INTO head VALUES (1, 1, 'x')",
    ],
)
def test_replacing_is_refused_too(full: Store, statement: str) -> None:
    assert any(words in refused(full, statement) for words in ("cannot be replaced", "end of the chain stays"))


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
@pytest.mark.parametrize("table", ["events", "documents", "head"])
def test_another_program_that_writes_to_the_file_is_refused_too(full: Store, table: str) -> None:
    import sqlite3

    assert full.database.path is not None
    other = sqlite3.connect(full.database.path)
    for statement in (f"DELETE FROM {table}", f"REPLACE INTO {table} SELECT * FROM {table}"):
        with pytest.raises(sqlite3.IntegrityError):
            other.execute(statement)
    other.close()


@pytest.mark.parametrize("engine", ["postgresql"], indirect=True)
@pytest.mark.parametrize("table", ["events", "documents", "head"])
def test_emptying_a_table_is_refused(full: Store, table: str) -> None:
    assert f"TRUNCATE on {table}" in refused(full, f"TRUNCATE {table}")


def opening(url: str) -> str:
    """Return what is said when the store is opened."""
    with pytest.raises(BrokenStoreError) as raised:
        Store.open(url)
    return str(raised.value)


CURE = (
    "Somebody changed the database by hand. Run becket record verify; then export it and import it into an empty "
    "store, or restore the last backup."
)


def test_a_guard_that_is_gone_is_missed_at_the_next_opening(url: str) -> None:
    with Store.open(url) as store, store.database.writing() as connection:
        on = "" if store.database.is_sqlite else " ON events"
        connection.execute(text(f"DROP TRIGGER events_stay{on}"))
        place = store.database.place
    assert opening(url) == f"{place}: the guards against change are gone: events_stay. {CURE}"
    with Store.look(url) as store:  # to verify and to export it
        assert verify(store).is_whole


@pytest.mark.parametrize("engine", ["postgresql"], indirect=True)
def test_a_guard_that_is_switched_off_is_missed(url: str) -> None:
    with Store.open(url) as store, store.database.writing() as connection:
        connection.execute(text("ALTER TABLE documents DISABLE TRIGGER documents_last"))
    assert "the guards against change are gone: documents_last." in opening(url)


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_a_guard_of_the_same_name_that_does_nothing_is_missed(url: str) -> None:
    with Store.open(url) as store, store.database.writing() as connection:
        connection.execute(text("DROP TRIGGER head_lasts"))
        connection.execute(text("CREATE TRIGGER head_lasts BEFORE DELETE ON head BEGIN SELECT 1; END"))
    assert "the guards against change are gone: head_lasts." in opening(url)


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_alembic_drops_the_guards_of_a_table_that_it_makes_anew_and_they_are_missed(url: str) -> None:
    with Store.open(url) as store, store.database.writing() as connection:
        steps = Operations(MigrationContext.configure(connection))
        with steps.batch_alter_table("events", recreate="always"):
            pass
        assert missing_guards(connection) == ("events_stay", "events_last", "events_once")
    assert "the guards against change are gone: events_stay, events_last, events_once." in opening(url)


def test_placing_the_guards_brings_every_one_back(full: Store) -> None:
    with full.database.writing() as connection:
        assert missing_guards(connection) == ()
        drop_guards(connection)
        gone = missing_guards(connection)
        assert len(gone) == (9 if full.database.is_sqlite else 7)
        place_guards(connection)
        assert missing_guards(connection) == ()
    assert refused(full, "DELETE FROM events")
