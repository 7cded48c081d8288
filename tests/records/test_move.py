"""From SQLite to PostgreSQL and back: the same numbers, hashes and documents."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.errors import RefusedError
from becket.records.guards import drop_guards
from becket.records.move import move_records
from becket.records.store import Store
from becket.records.verify import verify
from tests.records.invented import LATER, NOON, an_event, some
from tests.records.postgres import Server


def silent(what: str, done: int, of: int) -> None:
    """Tell nobody."""


def filled(path: Path) -> Store:
    """Return a store with events and documents."""
    store = Store.open(str(path))
    store.append([*some(1, 1199), an_event(1200, entered={"v": [1e300, 0.1, 2**60, "½\u2028\n\0", None]})], NOON)
    store.append(some(1201, 1210), LATER)
    for kind, text in (("script", "{}"), ("book", "crane: a ½\r\n"), ("jobs", ""), ("settings", "")):
        store.keep_document(kind, text)
    return store


def test_there_and_back_is_the_same(tmp_path: Path, server: Server) -> None:
    heard: list[tuple[str, int, int]] = []
    with (
        filled(tmp_path / "a.sqlite") as first,
        Store.open(server.new_database()) as second,
        Store.open(str(tmp_path / "b.sqlite")) as third,
    ):
        done = move_records(first, second, lambda *told: heard.append(told))
        assert (done.events, done.documents, done.head) == (1210, 4, first.head())
        move_records(second, third, silent)
        for store in (second, third):
            assert store.read(None) == first.read(None)
            assert store.head() == first.head()
            for kind in ("book", "settings", "jobs", "script"):
                assert store.documents(kind) == first.documents(kind)
            assert verify(store, first.head()).is_whole
            (outcome,) = store.append([an_event(1211)], LATER)
            assert outcome.number == 1211
        assert first.head().number == 1210
    assert heard == [("events", 500, 1210), ("events", 1000, 1210), ("events", 1210, 1210)]


def test_nothing_is_moved_into_a_store_in_which_something_is_kept(store: Store, tmp_path: Path) -> None:
    store.append(some(1, 1), NOON)
    with filled(tmp_path / "a.sqlite") as source, pytest.raises(RefusedError, match=r"is not empty \(1 events"):
        move_records(source, store, silent)
    assert store.head().number == 1


def test_a_broken_source_is_not_moved(store: Store, tmp_path: Path) -> None:
    with filled(tmp_path / "a.sqlite") as source:
        with source.database.writing() as connection:
            drop_guards(connection)
            connection.exec_driver_sql("DELETE FROM events WHERE number = 1210")
        with pytest.raises(
            RefusedError, match=r"is not as it was kept: event 1210: it is missing: .* 1210; nothing was taken in$"
        ):
            move_records(source, store, silent)
    assert store.head().number == 0
    assert store.documents("book") == ()


def test_blanks_that_were_put_into_a_text_stop_the_move(store: Store, tmp_path: Path) -> None:
    """The new store would have the text without them, and no trace of the hand."""
    with filled(tmp_path / "a.sqlite") as source:
        with source.database.writing() as connection:
            drop_guards(connection)
            connection.exec_driver_sql("UPDATE events SET body = replace(body, ',', ', ') WHERE number = 20")
        with pytest.raises(RefusedError, match="event 20: its text, its time of arrival"):
            move_records(source, store, silent)
    assert store.head().number == 0


def test_what_comes_in_meanwhile_stops_the_move(store: Store, tmp_path: Path) -> None:
    with filled(tmp_path / "a.sqlite") as source:

        def late(what: str, done: int, of: int) -> None:
            source.append([an_event(5000)], LATER)

        with pytest.raises(RefusedError) as raised:
            move_records(source, store, late)
    assert str(raised.value).endswith(
        "events came in while it was moved (1210 before, 1211 now). Stop becket serve, then move again; nothing was "
        "taken in"
    )
    assert store.head().number == 0
