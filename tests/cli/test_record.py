"""``becket record``: what is said, the exit code, and what stands in the folder afterwards."""

from __future__ import annotations

import json
import shutil
import sqlite3
from pathlib import Path
from zipfile import ZipFile

import pytest

from becket.guide.event import Event, read_event
from becket.records.guards import drop_guards, place_guards
from becket.records.store import Store
from tests.cli.conftest import Runner

NOON = "2026-11-30T12:00:00+01:00"


def an_event(number: int) -> Event:
    """Return an event of an invented change."""
    return read_event(
        {
            "key": f"k{number}",
            "crane": "demo",
            "run": "r",
            "kind": "entered",
            "person": "p",
            "role": "rigger",
            "device": "d",
            "at": NOON,
            "tick": number,
            "shown": {},
            "entered": {"item": "s1", "round": 1},
        }
    )


@pytest.fixture
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a data folder with records and a photo; the test works beside it."""
    monkeypatch.chdir(tmp_path)
    folder = tmp_path / "data"
    (folder / "photos").mkdir(parents=True)
    (folder / "photos" / "a.jpg").write_bytes(b"photo")
    with Store.open(str(folder / "becket.sqlite")) as store:
        store.append([an_event(number) for number in range(1, 6)], NOON)
        store.keep_document("book", "crane: a")
    return folder


def end_of(folder: Path) -> str:
    """Return number and hash of the last event as they are printed."""
    with Store.look(str(folder / "becket.sqlite")) as store:
        return f"{store.head().number}:{store.head().hash[:16]}"


def test_verify_says_whole_and_gives_the_line_for_paper(data: Path, becket: Runner) -> None:
    end = end_of(data)
    found = becket("record", "verify", "--data", "data")
    assert found.code == 0
    assert found.out.splitlines()[:2] == [
        "data/becket.sqlite: 5 events, 1 documents, whole.",
        f"On paper: {end} (verify --anchor {end} proves it later).",
    ]
    assert becket("record", "verify", "--data", "data", "--anchor", end.upper()).code == 0
    assert becket("record", "verify", "--url", "sqlite:///data/becket.sqlite").code == 0
    other = becket("record", "verify", "--data", "data", "--anchor", "5:00000000")
    assert other.code == 1
    assert other.out.startswith("BROKEN at event 5: its hash is ")


def test_verify_names_the_first_broken_event(data: Path, becket: Runner) -> None:
    with sqlite3.connect(data / "becket.sqlite") as connection:
        connection.executescript("DROP TRIGGER events_stay; UPDATE events SET body = '{}' WHERE number = 3")
    connection.close()
    found = becket("record", "verify", "--data", "data")
    assert found.code == 1
    assert found.out.splitlines()[:4] == [
        "BROKEN at event 3: its text, its time of arrival, its number or its hash was changed.",
        "Nothing from there on is proved. Keep this file as it is; compare it with the last backup.",
        "The guards against change are gone: events_stay.",
        "data/becket.sqlite: 5 events, 1 documents, not whole.",
    ]
    answer = becket("record", "verify", "--data", "data", "--json")
    assert answer.code == 1
    assert answer.answer["first_broken"]["number"] == 3
    assert answer.answer["is_whole"] is False
    assert answer.answer["guards_gone"] == ["events_stay"]
    assert becket("record", "export", "--data", "data", "-o", "a.zip").code == 1  # goes out, and says so
    assert (data.parent / "a.zip").exists()
    for name in ("b.zip", "b.sqlite"):
        refused = becket("record", "backup", "--data", "data", "-o", name)
        assert refused.code == 2
        assert "event 3" in refused.err
        assert not (data.parent / name).exists()


def test_guards_alone_that_are_gone_are_a_fault_too(data: Path, becket: Runner) -> None:
    with sqlite3.connect(data / "becket.sqlite") as connection:
        connection.executescript("DROP TRIGGER head_lasts")
    connection.close()
    found = becket("record", "verify", "--data", "data")
    assert (found.code, found.out.splitlines()[0]) == (1, "The guards against change are gone: head_lasts.")
    # the way that the message names: out, and into an empty store
    assert becket("record", "export", "--data", "data", "-o", "a.zip").code == 0
    assert becket("record", "import", "a.zip", "--data", "new").code == 0
    assert becket("record", "verify", "--data", "new").code == 0


def test_out_and_in(data: Path, becket: Runner) -> None:
    end = end_of(data)
    out = becket("record", "export", "--data", "data", "-o", "a.zip")
    assert out.code == 0
    assert f"a.zip: 5 events, 1 documents, 1 photos; last event {end}." in out.out
    into = becket("record", "import", "a.zip", "--data", "new")
    assert into.code == 0
    assert into.out.startswith(f"new/becket.sqlite: 5 events, 1 documents, 1 photos; last event {end}.")
    assert Path("new/photos/a.jpg").read_bytes() == b"photo"
    again = becket("record", "import", "a.zip", "--data", "new")
    assert again.code == 2
    assert again.err == (
        "new/becket.sqlite: is not empty (5 events, 1 documents). What is kept is never mixed with what comes in. "
        "Name a place where nothing is kept.\n"
    )


@pytest.mark.parametrize("name", ["monday.zip", "monday.sqlite"])
def test_backup_and_restore(data: Path, becket: Runner, name: str) -> None:
    with Store.open(str(data / "becket.sqlite")) as store:  # in use
        assert becket("record", "backup", "--data", "data", "-o", name).code == 0
        store.append([an_event(6)], NOON)
    restored = becket("record", "restore", name, "--data", "new")
    assert restored.code == 0
    assert "5 events" in restored.out
    assert Path("new/photos/a.jpg").exists() is name.endswith("zip")
    assert becket("record", "verify", "--data", "new").code == 0
    refused = becket("record", "restore", name, "--data", "new")
    assert refused.code == 2
    assert "is there" in refused.err or "is not empty" in refused.err


def test_move(data: Path, becket: Runner) -> None:
    end = end_of(data)
    moved = becket("record", "move", "--data", "data", "--to", "other.sqlite")
    assert moved.code == 0
    assert moved.out.splitlines()[:2] == [
        f"other.sqlite: 5 events, 1 documents; last event {end}.",
        "The old ones stay where they were. Photos stay in the data folder.",
    ]
    assert becket("record", "verify", "--url", "other.sqlite", "--anchor", end).code == 0


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ("", "becket record: Missing command; see becket record --help"),
        ("verify", "neither --data nor --url; --data DIR, a folder, or --url URL, a database"),
        ("verify --data none", "--data none; a folder that is there"),
        ("verify --url none.sqlite", "Cannot open the records: there is no file none.sqlite. Name one that is there."),
        ("verify --data data --anchor 5", '"5"; write NUMBER:HASH as it stands on paper, 1234:0f3a9c21'),
        ("verify --data data --anchor 5:xyz", "write NUMBER:HASH as it stands on paper"),
        ("verify --data data --anchor 5:abc", "5:abc: an event's number from 1 and 8 or more digits of its hash"),
        (
            "export --data data -o none/a.zip",
            "none/a.zip: cannot be written there; give the name of a file in a folder",
        ),
        ("backup --data data -o a.tar", "-o a.tar: the name ends in no kind of file that is known"),
        ("import none.zip --data new", "none.zip: No such file or directory; nothing was taken in"),
        ("import data/becket.sqlite --data new", "data/becket.sqlite: is not a whole archive of becket"),
        ("restore none.zip --data new", "none.zip: cannot be read or written; No such file or directory"),
        ("restore data/becket.sqlite --url new.sqlite", "is a copy of a SQLite store; restore it into a folder with"),
        (
            "move --data data --to mysql://a/b",
            "'mysql'; the records are found at a path as becket.sqlite, sqlite:///PATH, or postgresql://",
        ),
        ("move --data data --to data/becket.sqlite", "data/becket.sqlite: is not empty (5 events, 1 documents)."),
    ],
)
def test_slips_are_one_line_and_change_nothing(data: Path, becket: Runner, words: str, said: str) -> None:
    found = becket("record", *words.split())
    assert found.code == 2
    assert said in found.err
    assert len(found.err.splitlines()) == 1
    assert found.out == ""
    with Store.look(str(data / "becket.sqlite")) as store:
        assert store.head().number == 5


def test_the_answer_as_json_has_the_keys_that_the_page_names(data: Path, becket: Runner) -> None:
    answer = becket("record", "verify", "--data", "data", "--json").answer
    page = (Path(__file__).parents[2] / "docs" / "records.md").read_text(encoding="utf-8")
    assert [key for key in answer if f"`{key}`" not in page] == []
    assert json.loads(json.dumps(answer))["head"]["number"] == 5


def by_hand(folder: Path, statement: str) -> None:
    """Do what the guards refuse, and make them anew."""
    with Store.open(str(folder / "becket.sqlite")) as store, store.database.writing() as connection:
        drop_guards(connection)
        connection.exec_driver_sql(statement)
        place_guards(connection)


def test_export_takes_everything_out_where_the_end_is_gone(data: Path, becket: Runner) -> None:
    by_hand(data, "DELETE FROM head")
    found = becket("record", "export", "--data", "data", "-o", "out.zip")
    assert found.code == 1
    assert "the row that keeps the end of the chain is gone" in found.out
    with ZipFile("out.zip") as archive:
        assert len(archive.read("events.jsonl").splitlines()) == 5


def test_a_backup_without_guards_is_made_and_told(data: Path, becket: Runner) -> None:
    with Store.open(str(data / "becket.sqlite")) as store, store.database.writing() as connection:
        drop_guards(connection)
    for name in ("a.sqlite", "a.zip"):
        found = becket("record", "backup", "--data", "data", "-o", name)
        assert found.code == 1, name
        assert "The guards against change are gone from the store" in found.out
        assert becket("record", "restore", name, "--data", f"new-{name}").code == 0


@pytest.mark.parametrize(
    "words",
    [
        "import bad.zip --data new",
        "import none.zip --data new",
        "restore bad.zip --data new",
        "restore none.zip --data new",
        "restore bad.sqlite --data new",
        "move --data broken --to sqlite:///new.sqlite",
    ],
)
def test_what_is_refused_leaves_nothing_behind(data: Path, becket: Runner, words: str) -> None:
    shutil.copytree(data, "broken")
    by_hand(Path("broken"), "UPDATE events SET received = '2001-01-01T00:00:00Z' WHERE number = 2")
    Path("bad.zip").write_bytes(b"no archive")
    Path("bad.sqlite").write_bytes(b"SQLite format 3\0" + b"x" * 5000)
    there = sorted(path.name for path in Path().iterdir())
    found = becket("record", *words.split())
    assert found.code == 2, found
    assert sorted(path.name for path in Path().iterdir()) == there


def test_a_refused_import_takes_nothing_away_that_was_there(data: Path, becket: Runner) -> None:
    Path("new").mkdir()
    Path("new", "hazel.crane.yaml").write_text("crane: x", encoding="utf-8")
    Path("bad.zip").write_bytes(b"no archive")
    assert becket("record", "import", "bad.zip", "--data", "new").code == 2
    assert [path.name for path in Path("new").iterdir()] == ["hazel.crane.yaml"]


def test_an_archive_with_another_text_than_the_hashed_one_is_refused(data: Path, becket: Runner) -> None:
    """A blank more is no other event, and yet not what was kept."""
    assert becket("record", "export", "--data", "data", "-o", "out.zip").code == 0
    with ZipFile("out.zip") as old, ZipFile("odd.zip", "w") as new:
        for name in old.namelist():
            content = old.read(name)
            new.writestr(name, content.replace(b'"tick":2', b'"tick": 2') if name == "events.jsonl" else content)
    found = becket("record", "import", "odd.zip", "--data", "new")
    assert found.code == 2
    assert "line 2: its text is not the one that was hashed" in found.err
