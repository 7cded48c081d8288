"""Out and in again: the same numbers, hashes, documents and photos; whatever is odd is refused and leaves nothing."""

# ruff: noqa: E501  # one odd archive a line

from __future__ import annotations

import csv
import hashlib
import io
import json
import resource
import stat
import zipfile
from collections.abc import Callable
from pathlib import Path
from typing import Any
from zipfile import ZipFile, ZipInfo

import pytest

from becket.errors import BecketError, CannotWriteError, RefusedError
from becket.records import archive, take_in
from becket.records.archive import export_archive
from becket.records.archive_names import is_good_name
from becket.records.guards import drop_guards
from becket.records.store import Store
from becket.records.take_in import take_in_archive
from becket.records.verify import verify
from tests.records.conftest import NewUrl
from tests.records.invented import LATER, NOON, an_event, some

PHOTO = b"\xff\xd8 not really a picture \xff\xd9"
Files = dict[str, bytes]


def silent(what: str, done: int, of: int) -> None:
    """Tell nobody."""


@pytest.fixture
def photos(tmp_path: Path) -> Path:
    """Return a folder of photos, with some that are none."""
    folder = tmp_path / "photos"
    (folder / "ab").mkdir(parents=True)
    (folder / "ab" / "abcd.jpg").write_bytes(PHOTO)
    (folder / "b.jpg").write_bytes(PHOTO * 2)
    (folder / ".part").write_bytes(b"half of one")
    (folder / "incoming").mkdir()
    (folder / "incoming" / "c.jpg").write_bytes(b"half of another")
    (tmp_path / "secret").write_bytes(b"of somebody")
    (folder / "link.jpg").symlink_to(tmp_path / "secret")
    return folder


@pytest.fixture
def full(store: Store) -> Store:
    """Return a store with events and documents."""
    store.append(
        [*some(1, 3), an_event(4, run=None, person=None, entered={"v": [1e300, 2**60, "½\u2028\n", None]})], NOON
    )
    store.append(some(5, 6), LATER)
    for kind, text in (("script", "{}"), ("book", "crane: a ½\r\n"), ("jobs", ""), ("settings", "")):
        store.keep_document(kind, text)
    return store


@pytest.fixture
def packed(full: Store, photos: Path, tmp_path: Path) -> Path:
    """Return the archive of the full store."""
    path = tmp_path / "records.zip"
    export_archive(full, path, photos, silent)
    return path


def test_out_and_in_gives_the_same(full: Store, packed: Path, new_url: NewUrl, tmp_path: Path) -> None:
    with Store.open(new_url()) as empty:
        done = take_in_archive(empty, packed, tmp_path / "new", silent)
        assert empty.read(None) == full.read(None)
        assert empty.head() == full.head() == done.head
        for kind in ("book", "settings", "jobs", "script"):
            assert empty.documents(kind) == full.documents(kind)
        assert verify(empty, full.head()).is_whole
        assert (done.events, done.documents, done.photos) == (6, 4, 2)
        (outcome,) = empty.append([an_event(7)], LATER)
        assert outcome.number == 7
    there = {path.relative_to(tmp_path / "new").as_posix() for path in (tmp_path / "new").rglob("*") if path.is_file()}
    assert there == {"ab/abcd.jpg", "b.jpg"}
    assert (tmp_path / "new" / "ab" / "abcd.jpg").read_bytes() == PHOTO


def test_the_same_records_give_the_same_bytes(full: Store, packed: Path, photos: Path, tmp_path: Path) -> None:
    export_archive(full, tmp_path / "again.zip", photos, silent)
    assert packed.read_bytes() == (tmp_path / "again.zip").read_bytes()


def test_any_program_can_read_what_is_in_it(full: Store, packed: Path) -> None:
    kept = full.read(None)
    with ZipFile(packed) as opened:
        assert sorted(opened.namelist()) == sorted([
            "events.jsonl", "events.csv", "manifest.json", "photos/ab/abcd.jpg", "photos/b.jpg",
            *(f"documents/{one.kind}/{one.fingerprint}.txt" for kind in ("book", "settings", "jobs", "script")
              for one in full.documents(kind)),
        ])  # fmt: skip
        lines = [json.loads(line) for line in opened.read("events.jsonl").decode().split("\n")[:-1]]
        rows = list(csv.DictReader(io.StringIO(opened.read("events.csv").decode("utf-8-sig"), newline="")))
        manifest = json.loads(opened.read("manifest.json"))
    # the chain of the JSON lines can be proved with nothing but SHA-256
    before = "0" * 64
    for line, one in zip(lines, kept, strict=True):
        body = json.dumps(line["event"], sort_keys=True, separators=(",", ":"), ensure_ascii=False)
        text = "\n".join((before, str(line["number"]), line["received"], body))
        assert hashlib.sha256(text.encode()).hexdigest() == line["hash"] == one.hash
        before = line["hash"]
    assert manifest["head"] == {"number": 6, "hash": before}
    assert manifest["photos"]["b.jpg"] == hashlib.sha256(PHOTO * 2).hexdigest()
    for row, line in zip(rows, lines, strict=True):
        assert json.loads(row["entered"]) == line["event"]["entered"]
        assert json.loads(row["shown"]) == line["event"]["shown"]
        assert (row["number"], row["hash"], row["person"]) == (
            str(line["number"]),
            line["hash"],
            line["event"]["person"] or "",
        )


def test_an_empty_store_goes_out_and_in(new_url: NewUrl, tmp_path: Path) -> None:
    with Store.open(new_url()) as one, Store.open(new_url()) as other:
        export_archive(one, tmp_path / "a.zip", None, silent)
        assert take_in_archive(other, tmp_path / "a.zip", None, silent).head == other.head() == one.head()


def test_what_comes_in_meanwhile_is_not_in_it(full: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = archive._table

    def late(*given: object) -> None:
        full.append(some(7, 9), LATER)
        real(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(archive, "_table", late)
    done = export_archive(full, tmp_path / "a.zip", None, silent)
    assert (done.events, done.head.number, full.head().number) == (6, 6, 9)
    with ZipFile(tmp_path / "a.zip") as opened:
        assert len(opened.read("events.csv").splitlines()) == 1 + 6


def refused(packed: Path, target: Store, photos: Path | None) -> str:
    """Return what is said to an archive; nothing of it may stay."""
    before = set(photos.rglob("*")) if photos and photos.exists() else set()
    with pytest.raises(RefusedError) as raised:
        take_in_archive(target, packed, photos, silent)
    assert target.head().number == len(target.read(None)) == 0
    assert target.documents("book") == ()
    if photos is not None:
        assert {path for path in photos.rglob("*") if path.is_file()} == {path for path in before if path.is_file()}
        assert not list(photos.glob(".import*"))
    return str(raised.value).replace(str(packed), "FILE")


def changed(packed: Path, change: Callable[[Files], None], order: Callable[[list[str]], list[str]] = list) -> Path:
    """Return the archive with its files changed."""
    with ZipFile(packed) as opened:
        files = {name: opened.read(name) for name in opened.namelist()}
    change(files)
    path = packed.with_name("changed.zip")
    with ZipFile(path, "w", zipfile.ZIP_DEFLATED) as written:
        for name in order(list(files)):
            written.writestr(name, files[name])
    return path


def lines(change: Callable[[list[bytes]], list[bytes]]) -> Callable[[Files], None]:
    """Return a change of the lines of events."""

    def it(files: Files) -> None:
        files["events.jsonl"] = b"".join(change(files["events.jsonl"].splitlines(keepends=True)))

    return it


def manifest(change: Callable[[dict[str, Any]], object]) -> Callable[[Files], None]:
    """Return a change of the manifest."""

    def it(files: Files) -> None:
        found = json.loads(files["manifest.json"])
        change(found)
        files["manifest.json"] = json.dumps(found).encode()

    return it


def other(name: str, data: bytes) -> Callable[[Files], None]:
    """Return a change of one file, or one more."""
    return lambda files: files.update({name: data})


NOTHING = "; nothing was taken in"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lines(lambda all: [all[0], all[1].replace(b"rigger", b"office"), *all[2:]]), "event 2: was changed, its hash does not hold"),
        (lines(lambda all: [all[0].replace(b"+01:00", b"+02:00", 1), *all[1:]]), "event 1: was changed, its hash does not hold"),
        (lines(lambda all: [*all[:2], *all[3:]]), "event 3: is missing; event 4 stands there"),
        (lines(lambda all: all[1:]), "event 1: is missing; event 2 stands there"),
        (lines(lambda all: [all[1], all[0], *all[2:]]), "event 1: is missing; event 2 stands there"),
        (lines(lambda all: [*all, all[-1]]), "event 7: is missing; event 6 stands there"),
        (lines(lambda all: all[:-1]), "the chain ends at event 5, it should end at 6"),
        (lines(lambda all: []), "the chain ends at event 0, it should end at 6"),
        (lines(lambda all: [*all[:-1], all[-1][: len(all[-1]) // 2]]), "events.jsonl, line 6: is no event ("),
        (lines(lambda all: [b"[]\n", *all]), "events.jsonl, line 1: is no event ("),
        (lines(lambda all: [all[0].replace(b'"number": 1', b'"number": "1"'), *all[1:]]), "events.jsonl, line 1: is no event"),
        (lines(lambda all: [all[0].replace(b'"kind":"entered"', b'"kind":"guessed"'), *all[1:]]), "events.jsonl, line 1: is no event (kind: 'guessed'"),
        (lines(lambda all: [b"[" * 300_000 + b"\n", *all]), "events.jsonl, line 1: is no event ("),
        (lines(lambda all: [b"x" * 500_000, *all]), "events.jsonl, line 1: is no event ("),
        (manifest(lambda found: found.update(head={"number": 6, "hash": "0" * 64})), "the chain ends at event 6, it should end at 6 with another hash"),
        (manifest(lambda found: found.update(format="becket records 2")), "FILE: its format is 'becket records 2', 'becket records 1' is known"),
        (manifest(lambda found: found.pop("head")), "FILE: its manifest.json cannot be read"),
        (manifest(lambda found: found["photos"].update({"b.jpg": "0" * 64})), "photo b.jpg: was changed, its hash does not hold"),
        (manifest(lambda found: found["photos"].pop("b.jpg")), "FILE: its manifest.json and its files differ: 'photos/b.jpg'"),
        (manifest(lambda found: found["photos"].update({"../c.jpg": "0" * 64})), "FILE: its manifest.json and its files differ: 'photos/../c.jpg'"),
        (other("manifest.json", b"{"), "FILE: its manifest.json cannot be read"),
        (other("photos/b.jpg", b"another"), "photo b.jpg: was changed, its hash does not hold"),
        (other("photos/c.jpg", b"one more"), "FILE: its manifest.json and its files differ: 'photos/c.jpg'"),
        (lambda files: files.pop("photos/b.jpg"), "FILE: its manifest.json and its files differ: 'photos/b.jpg'"),
        (lambda files: files.pop("manifest.json"), "FILE: holds no manifest.json: is not an archive of becket"),
        (lambda files: files.pop("events.jsonl"), "FILE: holds no events.jsonl: is not an archive of becket"),
        (other("documents/book/0123456789abcdef.txt", b"a"), "FILE: its manifest.json and its files differ: 'documents/book/0123456789abcdef.txt'"),
        (lambda files: files.update({n: b"\xff" for n in files if n.startswith("documents/book")}), "FILE: is not a whole archive of becket"),
        (lambda files: files.update({n: b"crane: b" for n in files if n.startswith("documents/book")}), "its text was changed"),
        (other("readme.txt", b"a"), "FILE: holds 'readme.txt', which is no name of an archive of becket"),
        (other("../evil", b"a"), "FILE: holds '../evil', which is no name of an archive of becket"),
        (other("/etc/evil", b"a"), "FILE: holds '/etc/evil', which is no name of an archive of becket"),
        (other("photos/../../evil.jpg", b"a"), "FILE: holds 'photos/../../evil.jpg', which is no name of an archive of becket"),
        (other("photos\\evil.jpg", b"a"), "which is no name of an archive of becket"),
        (other("photos/C:evil.jpg", b"a"), "which is no name of an archive of becket"),
        (other("photos/.import-x", b"a"), "which is no name of an archive of becket"),
        (other("photos/B.JPG", PHOTO), "FILE: holds 'photos/B.JPG' twice"),
        (other("events.csv", b"0" * 60_000_000), "FILE: would unpack to 60,"),
        (other("photos/b.jpg", b"0" * 51_000_000), "FILE: 'photos/b.jpg' has 51,000,000 bytes, 50,000,000 is most"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_what_is_odd_is_refused(
    packed: Path, new_url: NewUrl, tmp_path: Path, change: Callable[[Files], None], words: str
) -> None:
    path = changed(packed, change)
    with Store.open(new_url()) as empty:
        said = refused(path, empty, tmp_path / "new")
    assert words in said
    assert said.endswith(NOTHING)
    assert not (tmp_path.parent / "evil").exists()


def test_a_broken_chain_is_refused_on_both_engines(packed: Path, new_url: NewUrl, tmp_path: Path) -> None:
    path = changed(packed, lines(lambda all: [*all[:4], all[4].replace(b"rigger", b"office"), all[5]]))
    with Store.open(new_url()) as empty:
        assert (
            refused(path, empty, tmp_path / "new")
            == "event 5: was changed, its hash does not hold; nothing was taken in"
        )


def odd_entry(path: Path, info: ZipInfo, data: bytes = b"x") -> Path:
    """Return the archive with one more entry."""
    with ZipFile(path, "a") as opened:
        opened.writestr(info, data)
    return path


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_a_link_a_folder_and_another_way_of_packing_are_refused(packed: Path, new_url: NewUrl, tmp_path: Path) -> None:
    link = ZipInfo("photos/c.jpg")
    link.external_attr = (stat.S_IFLNK | 0o777) << 16
    other_way = ZipInfo("photos/c.jpg")
    other_way.compress_type = zipfile.ZIP_BZIP2
    original = packed.read_bytes()
    for info in (link, other_way):
        packed.write_bytes(original)
        with Store.open(new_url()) as empty:
            said = refused(odd_entry(packed, info), empty, tmp_path / "new")
        assert "'photos/c.jpg' has a password, is a link or is packed in another way" in said


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_a_file_that_is_no_archive_or_cut_short_is_refused(packed: Path, new_url: NewUrl, tmp_path: Path) -> None:
    whole = packed.read_bytes()
    for data in (b"", b"PK", whole[: len(whole) // 2], whole[:-30], b"\0" * 100):
        packed.write_bytes(data)
        with Store.open(new_url()) as empty:
            assert (
                refused(packed, empty, tmp_path / "new")
                == "FILE: is not a whole archive of becket; nothing was taken in"
            )
    spoilt = bytearray(whole)
    start = whole.index(b"events.jsonl") + 60
    spoilt[start : start + 40] = b"\xff" * 40
    packed.write_bytes(spoilt)
    with Store.open(new_url()) as empty:
        assert refused(packed, empty, tmp_path / "new").endswith(NOTHING)
        with pytest.raises(CannotWriteError, match="No such file or directory; nothing was taken in"):
            take_in_archive(empty, tmp_path / "none.zip", None, silent)


def test_a_store_in_which_something_is_kept_is_refused(
    full: Store, packed: Path, new_url: NewUrl, tmp_path: Path
) -> None:
    place = full.database.place
    with pytest.raises(RefusedError) as raised:
        take_in_archive(full, packed, tmp_path / "new", silent)
    assert str(raised.value) == (
        f"{place}: is not empty (6 events, 4 documents). What is kept is never mixed with what comes in. "
        "Name a place where nothing is kept."
    )
    with Store.open(new_url()) as one:
        one.keep_document("book", "a")
        with pytest.raises(RefusedError, match=r"is not empty \(0 events, 1 documents\)"):
            take_in_archive(one, packed, tmp_path / "new", silent)


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_photos_need_a_place_and_are_not_written_over(packed: Path, new_url: NewUrl, tmp_path: Path) -> None:
    with Store.open(new_url()) as empty:
        assert (
            refused(packed, empty, None) == "2 photos have no place; name a data folder for them; nothing was taken in"
        )
        new = tmp_path / "new"
        new.mkdir()
        (new / "b.jpg").write_bytes(b"of somebody else")
        assert refused(packed, empty, new).startswith(f"{new / 'b.jpg'}: another file has this name")
        assert (new / "b.jpg").read_bytes() == b"of somebody else"
        (new / "b.jpg").write_bytes(PHOTO * 2)  # the same: an import that was broken off
        assert take_in_archive(empty, packed, new, silent).photos == 2


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_photos_go_again_when_the_store_cannot_keep_the_rest(
    packed: Path, new_url: NewUrl, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = take_in._settle

    def fail(*given: object) -> None:
        real(*given)  # type: ignore[arg-type]
        raise RefusedError("the disk is full")

    monkeypatch.setattr(take_in, "_settle", fail)
    with Store.open(new_url()) as empty:
        assert refused(packed, empty, tmp_path / "new") == "the disk is full"


def test_an_archive_that_cannot_be_written_leaves_the_old_one(full: Store, photos: Path, tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "no" / "a.zip"):
        with pytest.raises(CannotWriteError, match="give the name of a file in a folder that is there"):
            export_archive(full, path, None, silent)
    (tmp_path / "a.zip").write_bytes(b"old")
    (photos / "b.jpg").unlink()
    (photos / "b.jpg").mkdir()

    def stop(what: str, done: int, of: int) -> None:
        raise OSError(28, "No space left on device")

    with pytest.raises(CannotWriteError, match=r"a\.zip: cannot be written \(No space left on device\); nothing is"):
        export_archive(full, tmp_path / "a.zip", photos, stop)
    assert (tmp_path / "a.zip").read_bytes() == b"old"
    assert not list(tmp_path.glob(".*part"))


def test_a_broken_store_goes_out_as_it_is_and_does_not_come_in(full: Store, new_url: NewUrl, tmp_path: Path) -> None:
    with full.database.writing() as connection:
        drop_guards(connection)
        connection.exec_driver_sql("UPDATE events SET body = 'no event' WHERE number = 2")
    export_archive(full, tmp_path / "a.zip", None, silent)
    with ZipFile(tmp_path / "a.zip") as opened:
        assert json.loads(opened.read("events.jsonl").splitlines()[1])["event"] == "no event"
    with Store.open(new_url()) as empty, pytest.raises(BecketError, match=r"events\.jsonl, line 2: is no event"):
        take_in_archive(empty, tmp_path / "a.zip", None, silent)


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_memory_stays_flat(new_url: NewUrl, tmp_path: Path) -> None:
    with Store.open(new_url()) as store, Store.open(new_url()) as empty:
        for start in range(1, 10_000, 1000):
            store.append(some(start, start + 999), NOON)
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        export_archive(store, tmp_path / "a.zip", None, silent)
        take_in_archive(empty, tmp_path / "a.zip", None, silent)
        grown = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before
        assert (tmp_path / "a.zip").stat().st_size > 1_000_000
        assert empty.head() == store.head()
    assert grown < 6_000, f"{grown} kB"  # the records are 8,000 kB as text, and three times that as objects


def test_good_names_are_few() -> None:
    good = ("manifest.json", "documents/jobs/0123456789abcdef.txt", "photos/a", "photos/ab/cd/ef/0a-b_c.jpg")
    bad = ("", "photos/", "photos", "photos//a", "photos/a/", "photos/a..jpg", "photos/a.", "photos/a b", "photos/ä",
           "photos/con.jpg", "photos/x/COM1", "photos/a/b/c/d/e", "photos/" + "a" * 200, "photos/a\n", "events.jsonl\n",
           "documents/book/0123456789ABCDEF.txt", "documents/photo/0123456789abcdef.txt", "becket.sqlite")  # fmt: skip
    assert [name for name in good if not is_good_name(name)] == []
    assert [name for name in bad if is_good_name(name)] == []
