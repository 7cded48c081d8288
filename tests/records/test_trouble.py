"""Disk full, read-only, damaged, locked, no answer: said in words, nothing half-written, what was kept stays."""

from __future__ import annotations

import os
import sqlite3
import subprocess
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import psycopg
import pytest
from sqlalchemy import event
from sqlalchemy.exc import OperationalError

from becket.errors import BrokenStoreError, CannotKeepError, UnreadableTextError
from becket.records import database
from becket.records.store import Store
from becket.records.trouble import Doing, told
from becket.records.verify import verify
from tests.records.invented import NOON, an_event, some

FULL = "Cannot keep it: the disk is full. Write it on paper now. Make room on the disk of {}, then enter it again."


@contextmanager
def a_small_disk(folder: Path) -> Iterator[bool]:
    """A folder on a disk of one megabyte, where this machine lets us make one; whether it is."""
    made = os.geteuid() == 0 and (
        subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", folder], capture_output=True).returncode == 0
    )
    try:
        yield made
    finally:
        if made:
            subprocess.run(["umount", "-l", folder], check=True)


def narrow(store: Store) -> None:
    """Let a database of SQLite grow no further, as on a disk that is full."""

    @event.listens_for(store.database.engine, "connect")
    def _(connection: Any, record: object) -> None:
        (pages,) = connection.execute("PRAGMA page_count").fetchone()
        connection.execute(f"PRAGMA max_page_count = {pages + 20}")

    store.database.engine.dispose()


def fill(store: Store) -> tuple[int, str]:
    """Append until it is refused; return how many events were acknowledged, and what was said."""
    for number in range(1, 5000):
        batch = some(number * 10, number * 10 + 9)
        try:
            outcomes = store.append(batch, NOON)
        except CannotKeepError as error:
            return (number - 1) * 10, str(error)
        assert [one.number for one in outcomes] == list(range(number * 10 - 9, number * 10 + 1))
    raise AssertionError("the disk was never full")


def test_a_full_disk_is_told_and_nothing_is_half_written(tmp_path: Path) -> None:
    folder = tmp_path / "small"
    folder.mkdir()
    with a_small_disk(folder) as is_small, Store.open(str(folder / "becket.sqlite")) as store:
        if not is_small:
            narrow(store)
        count, words = fill(store)
        assert words == FULL.format(folder / "becket.sqlite")
        assert count > 0
        assert store.head().number == len(store.read(None)) == count
        assert verify(store).is_whole
        store.close()
        with Store.look(str(folder / "becket.sqlite")) as again:
            assert again.head().number == count


def test_a_database_that_may_not_grow_is_told_as_a_full_disk_and_goes_on_when_there_is_room(tmp_path: Path) -> None:
    with Store.open(str(tmp_path / "a.sqlite")) as store:
        narrow(store)
        count, words = fill(store)
        assert words == FULL.format(tmp_path / "a.sqlite")
        assert store.head().number == count
        with pytest.raises(CannotKeepError, match=r"Cannot keep it: the disk is full\."):
            store.keep_document("book", "x" * 1_000_000)
    with Store.open(str(tmp_path / "a.sqlite")) as store:
        (outcome,) = store.append([an_event(1)], NOON)
        assert outcome.number == count + 1
        assert verify(store).is_whole


@contextmanager
def as_somebody(folder: Path) -> Iterator[None]:
    """Do what is inside as a user who may only read the folder."""
    if os.geteuid() == 0:
        os.seteuid(65534)
        try:
            yield
        finally:
            os.seteuid(0)
    else:
        modes = {path: path.stat().st_mode for path in (folder, *folder.iterdir())}
        for path, mode in modes.items():
            path.chmod(mode & ~0o222)
        try:
            yield
        finally:
            for path, mode in modes.items():
                path.chmod(mode)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """Yield a folder that every user of the machine may look into; pytest's own are closed to others."""
    with tempfile.TemporaryDirectory(prefix="becket-", dir="/tmp") as name:
        folder = Path(name)
        folder.chmod(0o755)
        yield folder


def test_a_folder_that_may_only_be_read_is_told_when_a_store_is_made(open_folder: Path) -> None:
    path = open_folder / "becket.sqlite"
    with as_somebody(open_folder), pytest.raises(CannotKeepError) as raised:
        Store.open(str(path))
    assert str(raised.value) == (
        f"Cannot open the records: {path} cannot be opened. Give becket the right to read and write there, then try "
        "again."
    )
    assert list(open_folder.iterdir()) == []


def test_a_store_that_may_only_be_read_is_told_and_stays_as_it_was(open_folder: Path) -> None:
    path = open_folder / "becket.sqlite"
    with Store.open(str(path)) as store:
        store.append(some(1, 3), NOON)
    before = path.read_bytes()
    with as_somebody(open_folder), pytest.raises(CannotKeepError) as raised:
        Store.open(str(path)).append(some(4, 4), NOON)
    assert "Give becket the right to" in str(raised.value)
    assert path.read_bytes() == before


def test_a_file_that_is_no_database_is_told_and_not_touched(tmp_path: Path) -> None:
    path = tmp_path / "becket.sqlite"
    path.write_bytes(b"crane: a book, not a database\n" * 100)
    for way in (Store.open, Store.look):
        with pytest.raises(BrokenStoreError) as raised:
            way(str(path))
        assert str(raised.value).endswith(
            f"{path} is damaged or not a database. Leave it as it is, copy it, and restore the last backup: "
            "becket record restore"
        )
    assert path.read_bytes() == b"crane: a book, not a database\n" * 100


def test_a_damaged_file_is_told(tmp_path: Path) -> None:
    path = tmp_path / "becket.sqlite"
    with Store.open(str(path)) as store:
        store.append(some(1, 500), NOON)
    data = bytearray(path.read_bytes())
    page = 4096
    for start in range(page, len(data), page):  # every page but the first
        data[start : start + 100] = os.urandom(100)
    path.write_bytes(data)
    with pytest.raises(BrokenStoreError, match=r"damaged or not a database\. Leave it as it is, copy it"):
        Store.open(str(path)).read(None)


def test_a_file_that_was_cut_short_is_told_or_found(tmp_path: Path) -> None:
    path = tmp_path / "becket.sqlite"
    with Store.open(str(path)) as store:
        store.append(some(1, 500), NOON)
    os.truncate(path, path.stat().st_size // 2)
    with pytest.raises(BrokenStoreError, match=r"damaged or not a database\."), Store.open(str(path)) as store:
        verify(store)


def test_a_store_that_another_holds_for_too_long_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(database, "PATIENCE", 0.2)
    path = tmp_path / "becket.sqlite"
    with Store.open(str(path)) as store:
        store.append(some(1, 1), NOON)
        other = sqlite3.connect(path, isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(CannotKeepError) as raised:
            store.append(some(2, 2), NOON)
        assert str(raised.value) == LOCKED.format(path)
        assert store.head().number == 1  # reading goes on
        other.execute("ROLLBACK")
        other.close()
        assert store.append(some(2, 2), NOON)[0].number == 2


LOCKED = (
    "Cannot keep it: {} has been locked by another program for too long. Write it on paper now. Close it, then enter "
    "it again."
)


@pytest.mark.parametrize("engine", ["postgresql"], indirect=True)
def test_postgresql_that_another_holds_for_too_long_is_told(url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(database, "PATIENCE", 1)
    with Store.open(url) as store, Store.open(url) as other:
        with other.database.writing() as connection:
            connection.exec_driver_sql("SELECT * FROM head FOR UPDATE")
            with pytest.raises(CannotKeepError) as raised:
                store.append(some(1, 1), NOON)
        assert str(raised.value) == LOCKED.format(store.database.place)
        assert store.append(some(1, 1), NOON)[0].number == 1


def test_a_thread_of_the_same_process_that_holds_it_for_too_long_is_told(
    store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(database, "PATIENCE", 0.1)
    with store.database.writing(), pytest.raises(CannotKeepError) as raised:
        store.append(some(1, 1), NOON)
    assert str(raised.value) == LOCKED.format(store.database.place)
    assert store.append(some(1, 1), NOON)[0].number == 1


@pytest.mark.parametrize("way", [Store.open, Store.look])
def test_a_server_that_does_not_answer_is_told_without_its_password(way: Any, tmp_path: Path) -> None:
    with pytest.raises(CannotKeepError) as raised:
        way(f"postgresql://becket:secret@/records?host={tmp_path}")
    words = str(raised.value)
    assert words.startswith("Cannot open the records: no answer from postgresql+psycopg://becket:***@/records")
    assert words.endswith("See that it runs and that name and password are right, then try again.")
    assert "secret" not in words


@pytest.mark.parametrize("engine", ["postgresql"], indirect=True)
def test_a_database_that_is_not_there_is_told(url: str) -> None:
    with pytest.raises(CannotKeepError, match='database "test_none" does not exist'):
        Store.open(url.replace("/test_", "/test_none?x=").split("?x=")[0] + "?" + url.partition("?")[2])


@pytest.mark.parametrize(
    ("error", "words"),
    [
        (psycopg.errors.DiskFull, "Cannot keep it: the disk is full. Write it on paper now."),
        (psycopg.errors.ReadOnlySqlTransaction, "Cannot keep it: PLACE may only be read. Write it on paper now."),
        (psycopg.errors.AdminShutdown, "Cannot keep it: no answer from PLACE (so it said). Write it on paper now."),
        (psycopg.errors.TooManyConnections, "Cannot keep it: no answer from PLACE (so it said)."),
        (psycopg.errors.QueryCanceled, "Cannot keep it: PLACE has been locked by another program for too long."),
        (psycopg.errors.DataCorrupted, "Cannot keep it: PLACE is damaged or not a database."),
    ],
)
def test_what_postgresql_says_is_told_in_words(error: type[psycopg.Error], words: str) -> None:
    with pytest.raises((CannotKeepError, BrokenStoreError)) as raised, told("PLACE", Doing.KEEP):
        raise OperationalError("INSERT", {}, error("so it said"))
    assert str(raised.value).startswith(words)


def test_a_bug_is_not_told_as_trouble() -> None:
    bug = OperationalError("SELECT", {}, psycopg.errors.SyntaxError("at or near"))
    with pytest.raises(OperationalError), told("PLACE", Doing.KEEP):
        raise bug


def test_a_folder_or_a_path_without_folder_is_told(tmp_path: Path) -> None:
    none = tmp_path / "no"
    for path, words in (
        (tmp_path, f"{tmp_path} is a folder. Give the name of a file in it."),
        (none / "a", f"there is no folder {none} that becket may look into. Make it, or name another."),
    ):
        with pytest.raises(CannotKeepError) as raised:
            Store.open(str(path))
        assert str(raised.value) == f"Cannot open the records: {words}"
    with pytest.raises(CannotKeepError) as raised:
        Store.look(str(none))
    assert str(raised.value) == f"Cannot open the records: there is no file {none}. Name one that is there."


@pytest.mark.parametrize(
    "url", ["", "mysql://a/b", "http://a", "sqlite://", "sqlite:///:memory:", "postgresql://a:b:c/d", "a\0b"]
)
def test_an_address_of_another_kind_is_refused(url: str) -> None:
    with pytest.raises(UnreadableTextError) as raised:
        Store.open(url)
    assert (
        raised.value.wanted
        == "the records are found at a path as becket.sqlite, sqlite:///PATH, or postgresql://USER@HOST/NAME"
    )


def test_an_address_of_sqlite_is_a_path(tmp_path: Path) -> None:
    with Store.open(f"sqlite:///{tmp_path / 'a b%c.sqlite'}") as store:
        store.append(some(1, 1), NOON)
    with Store.look(str(tmp_path / "a b%c.sqlite")) as store:
        assert store.head().number == 1
