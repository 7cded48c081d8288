"""A copy made while others write is whole; it comes back only where nothing is."""

from __future__ import annotations

import shutil
import sqlite3
import threading
from contextlib import closing
from pathlib import Path

import pytest

from becket.errors import BrokenStoreError, CannotKeepError, CannotWriteError, RefusedError
from becket.records.backup import back_up_file, is_sqlite_file, restore_file
from becket.records.guards import drop_guards
from becket.records.store import Store
from becket.records.verify import verify
from tests.records.invented import NOON, an_event, some
from tests.records.postgres import Server


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """Return the path of a store with events and a document."""
    with Store.open(str(tmp_path / "becket.sqlite")) as store:
        store.append(some(1, 50), NOON)
        store.keep_document("book", "crane: a")
    return tmp_path / "becket.sqlite"


def test_a_copy_made_while_others_write_is_whole_and_comes_back(place: Path, tmp_path: Path) -> None:
    stop = threading.Event()
    acknowledged: list[int] = []

    def write(store: Store) -> None:
        number = 1000
        while not stop.is_set():
            number += 1
            (outcome,) = store.append([an_event(number)], NOON)
            acknowledged.append(outcome.number or 0)

    with Store.open(str(place)) as store:
        writer = threading.Thread(target=write, args=(store,))
        writer.start()
        before = store.head().number
        heads = [back_up_file(store, tmp_path / "copy.sqlite").head for _ in range(3)]
        stop.set()
        writer.join()
        numbers = [head.number for head in heads if head is not None]
        assert before <= numbers[0] <= numbers[1] <= numbers[2] <= store.head().number
        assert acknowledged == list(range(51, 51 + len(acknowledged)))
        assert is_sqlite_file(tmp_path / "copy.sqlite")
        new = tmp_path / "new.sqlite"
        assert restore_file(tmp_path / "copy.sqlite", new) == heads[2]
        with Store.open(str(new)) as restored:
            assert restored.read(None) == store.read(None)[: numbers[2]]
            assert restored.documents("book") == store.documents("book")
            assert verify(restored, heads[2]).is_whole
    assert {path.name for path in tmp_path.iterdir() if path.name.startswith(".")} == set()


def test_what_is_not_yet_in_the_main_file_is_in_the_copy(place: Path, tmp_path: Path) -> None:
    with Store.open(str(place)) as store:
        store.append(some(51, 60), NOON)
        assert (tmp_path / "becket.sqlite-wal").stat().st_size > 0
        assert back_up_file(store, tmp_path / "copy.sqlite").count == 60


def test_nothing_is_written_over(place: Path, tmp_path: Path) -> None:
    with Store.open(str(place)) as store:
        back_up_file(store, tmp_path / "copy.sqlite")
        with pytest.raises(RefusedError, match=r"becket\.sqlite: is the store itself; name another file"):
            back_up_file(store, place)
    words = "is there, and nothing is ever written over. Stop becket serve, move it away, then restore."
    with pytest.raises(RefusedError) as raised:
        restore_file(tmp_path / "copy.sqlite", place)
    assert str(raised.value) == f"{place}: {words}"
    (tmp_path / "new.sqlite-wal").write_bytes(b"of a store that somebody moved away in part")
    with pytest.raises(RefusedError, match=r"new\.sqlite-wal: is there"):
        restore_file(tmp_path / "copy.sqlite", tmp_path / "new.sqlite")


def test_a_broken_store_is_not_backed_up_and_the_old_copy_stays(place: Path, tmp_path: Path) -> None:
    with Store.open(str(place)) as store:
        back_up_file(store, tmp_path / "copy.sqlite")
        old = (tmp_path / "copy.sqlite").read_bytes()
        with store.database.writing() as connection:
            drop_guards(connection)
            connection.exec_driver_sql("DELETE FROM events WHERE number = 7")
        with pytest.raises(BrokenStoreError) as raised:
            back_up_file(store, tmp_path / "copy.sqlite")
    assert str(raised.value) == (
        f"{tmp_path / 'copy.sqlite'}: the records in it are not as they were kept: event 7: event 7 is missing; the "
        "next that is there is 8. Run becket record verify."
    )
    assert (tmp_path / "copy.sqlite").read_bytes() == old


def test_a_damaged_or_foreign_copy_is_not_restored(place: Path, tmp_path: Path) -> None:
    copy, new = tmp_path / "copy.sqlite", tmp_path / "new.sqlite"
    shutil.copy(place, copy)
    with sqlite3.connect(copy) as connection:
        connection.executescript("DROP TRIGGER events_stay; UPDATE events SET role = 'office' WHERE number = 3")
    connection.close()
    with pytest.raises(BrokenStoreError, match=r"copy.sqlite: the records .* event 3: the column role says 'office'"):
        restore_file(copy, new)
    copy.write_bytes(place.read_bytes()[:5000] + b"\xff" * 5000)
    with pytest.raises(BrokenStoreError, match="damaged or not a database"):
        restore_file(copy, new)
    copy.write_bytes(b"not a database at all, but long enough to be one" * 100)
    assert not is_sqlite_file(copy)
    with pytest.raises(BrokenStoreError, match="damaged or not a database"):
        restore_file(copy, new)
    copy.unlink()
    with pytest.raises(RefusedError, match="there is no such file; name the backup"):
        restore_file(copy, new)
    assert [path.name for path in tmp_path.iterdir() if path.name.startswith((".", "new"))] == []


def test_a_whole_store_that_lost_its_guards_is_backed_up_told_and_comes_back_with_them(
    place: Path, tmp_path: Path
) -> None:
    """A nightly backup that could not be brought back would be none; whether it is whole the chain tells."""
    copy, new = tmp_path / "copy.sqlite", tmp_path / "new.sqlite"
    with closing(sqlite3.connect(place)) as connection:
        connection.executescript("DROP TRIGGER events_stay; DROP TRIGGER head_lasts")
    with Store.look(str(place)) as store:
        found = back_up_file(store, copy)
        end = store.head()
    assert (found.guards_gone, found.is_whole) == (("events_stay", "head_lasts"), True)
    assert restore_file(copy, new) == end
    with Store.open(str(new)) as restored:
        assert verify(restored).guards_gone == ()


def test_a_place_that_cannot_be_written_is_told(place: Path, tmp_path: Path) -> None:
    with Store.open(str(place)) as store:
        for path in (tmp_path / "no" / "copy.sqlite", tmp_path):
            with pytest.raises(CannotWriteError, match="give the name of a file in a folder that is there"):
                back_up_file(store, path)


def test_a_disk_that_is_full_is_told(place: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = sqlite3.connect

    def narrow(name: str | Path, **more: object) -> sqlite3.Connection:
        connection = real(name, **more)  # type: ignore[call-overload]
        if str(name).endswith(".part"):
            connection.execute("PRAGMA max_page_count = 3")
        return connection  # type: ignore[no-any-return]

    with Store.open(str(place)) as store:
        monkeypatch.setattr(sqlite3, "connect", narrow)
        with pytest.raises(CannotKeepError, match=r"^Cannot copy the records: the disk is full\. Make room"):
            back_up_file(store, tmp_path / "copy.sqlite")
    assert not (tmp_path / "copy.sqlite").exists()


def test_a_store_on_postgresql_is_backed_up_as_an_archive(server: Server, tmp_path: Path) -> None:
    with Store.open(server.new_database()) as store, pytest.raises(RefusedError, match=r"file that ends in \.zip$"):
        back_up_file(store, tmp_path / "copy.sqlite")
