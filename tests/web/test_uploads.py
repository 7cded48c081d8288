"""Books and job sheets from outside: by content, under a clean name, never over another in silence."""

from __future__ import annotations

import errno
import os
from pathlib import Path

import pytest

from becket.errors import CannotWriteError, RefusedError
from becket.intake.check import check_files
from becket.web.uploads import LEFT_OVER, clean_name, sweep, take_file, write_beside
from tests.web.asking import Phone
from tests.web.test_crane_files import BOOK

SHEET, TABLE = "hazel-70.jobs.yaml", "rowan-30.jobs.csv"


def data_of(folder: Path, name: str) -> bytes:
    """Return the bytes of a file."""
    return (folder / name).read_bytes()


def files_and_bytes(folder: Path) -> dict[str, bytes]:
    """Return every file of the cranes with its bytes."""
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.suffix in (".yaml", ".csv")}


@pytest.mark.parametrize(
    ("name", "clean"),
    [
        ("hazel-70.crane.yaml", "hazel-70"),
        ("../../../etc/passwd", "passwd"),
        ("C:\\books\\Hazel 70.crane.YAML", "Hazel-70"),
        (".hidden.crane.yaml", "hidden"),
        ("a\0b\n.jobs.csv", "a-b"),
        ("x" * 500 + ".yaml", "x" * 60),
        ("becket.sqlite", "becket-sqlite"),
        ("crane.crane.yaml.crane.yaml", "crane-crane-yaml"),
    ],
)
def test_a_name_is_letters_digits_and_dashes(name: str, clean: str) -> None:
    assert clean_name(name) == clean


@pytest.mark.parametrize("name", ["", "..", "///", "...yaml", "…", ".crane.yaml"])
def test_a_name_without_a_letter_is_refused(name: str) -> None:
    with pytest.raises(RefusedError, match="has no letter or digit"):
        clean_name(name)


def test_a_book_comes_in_and_is_told(phone: Phone, folder: Path) -> None:
    data = data_of(folder, BOOK).replace(b"Hazel 70", b"Hazel 71")
    taken = take_file(phone.house, "../up/Hazel 71.txt", data)
    assert (taken.kind, taken.name, taken.faults, taken.kept_old) == ("book", "Hazel-71.crane.yaml", (), None)
    assert data_of(folder, "Hazel-71.crane.yaml") == data
    assert phone.house.crane("Hazel-71").name == "Hazel 71"
    (event,) = [one for one in phone.house.events("Hazel-71") if one.kind == "file_taken"]
    assert event.entered["fingerprint"] == phone.house.crane("Hazel-71").fingerprint
    assert phone.house.store.document(str(taken.fingerprint)) is not None


def test_what_an_upload_left_that_ended_in_the_middle_is_swept_away(phone: Phone, folder: Path) -> None:
    """Only what is old, and only what was written beside: one that runs at this moment keeps its file."""
    left, running = write_beside(folder, b"crane: x"), write_beside(folder, b"crane: y")
    own = folder / ".notes"
    own.write_text("mine", encoding="utf-8")
    past = left.stat().st_mtime - LEFT_OVER - 1
    for one in (left, own, folder / BOOK):
        os.utime(one, (past, past))
    sweep(folder)
    assert [one.exists() for one in (left, running, own, folder / BOOK)] == [False, True, True, True]


def test_the_older_file_is_kept_beside_and_is_no_crane(phone: Phone, folder: Path) -> None:
    old = data_of(folder, BOOK)
    taken = take_file(phone.house, BOOK, old + b"# new\n")
    assert taken.kept_old is not None
    assert data_of(folder, taken.kept_old) == old
    assert data_of(folder, BOOK) == old + b"# new\n"
    assert [crane.id for crane in phone.house.cranes()] == ["hazel-70", "rowan-30"]
    again = take_file(phone.house, BOOK, old + b"# new\n")
    assert again.kept_old is None


def test_a_book_of_another_crane_takes_over_no_records(phone: Phone, folder: Path) -> None:
    before = files_and_bytes(folder)
    with pytest.raises(RefusedError) as caught:
        take_file(phone.house, BOOK, data_of(folder, BOOK).replace(b"Hazel 70", b"Beech 70"))
    assert str(caught.value) == (
        "hazel-70.crane.yaml on file is of Hazel 70, this book is of Beech 70; name the file after its crane. "
        "If Hazel 70 itself has a new name, take the old file out of the folder first"
    )
    assert (files_and_bytes(folder), phone.house.store.head().number) == (before, 0)
    with pytest.raises(RefusedError, match=r"^Rowan 30 is on file as rowan-30\.crane\.yaml; name the file so$"):
        take_file(phone.house, BOOK, data_of(folder, "rowan-30.crane.yaml"))
    with pytest.raises(RefusedError, match="on file is of Hazel 70"):
        take_file(phone.house, BOOK.upper(), data_of(folder, BOOK).replace(b"Hazel 70", b"Beech 70"))
    assert files_and_bytes(folder) == before


@pytest.mark.parametrize("name", ["Hazel 70", "HAZEL 70", '" Hazel 70 "'])
def test_a_crane_under_a_second_file_name_is_refused(phone: Phone, folder: Path, name: str) -> None:
    before = files_and_bytes(folder)
    data = data_of(folder, BOOK).replace(b"Hazel 70", name.encode())
    with pytest.raises(RefusedError) as caught:
        take_file(phone.house, "Hazel 70 new.crane.yaml", data)
    assert str(caught.value) == "Hazel 70 is on file as hazel-70.crane.yaml; name the file so"
    assert (files_and_bytes(folder), phone.house.store.head().number) == (before, 0)
    assert take_file(phone.house, BOOK, data).faults == ()


def test_a_crane_of_others_is_not_brought_under_the_name_of_an_own_one(phone: Phone, folder: Path) -> None:
    """Where its file stands is nobody's business who has other cranes."""
    own, data = phone.house.within(frozenset({"oak-9"})), data_of(folder, BOOK)
    with pytest.raises(RefusedError, match=r'^crane "Hazel 70" is not among the cranes of this account$'):
        take_file(own, "oak-9.crane.yaml", data)
    assert not (folder / "oak-9.crane.yaml").exists()


def test_a_book_on_file_that_cannot_be_read_keeps_none_out(phone: Phone, folder: Path) -> None:
    data = data_of(folder, BOOK)
    (folder / BOOK).write_bytes(data.replace(b"winch:", b"wich:", 1))
    assert take_file(phone.house, BOOK, data).faults == ()
    (folder / BOOK).unlink()
    assert take_file(phone.house, "hazel.crane.yaml", data).name == "hazel.crane.yaml"


def test_a_sheet_and_a_table_are_told_by_their_content(phone: Phone, folder: Path) -> None:
    sheet = take_file(phone.house, "week.crane.yaml", data_of(folder, SHEET))
    table = take_file(phone.house, "week-2.yaml", data_of(folder, TABLE))
    assert (sheet.kind, sheet.name, sheet.crane) == ("jobs", "week.jobs.yaml", "hazel-70")
    assert (table.kind, table.name, table.crane) == ("table", "week-2.jobs.csv", "rowan-30")


SLIPS = {
    "a tab in the indent": (b"    site: Dairy", b"\tsite: Dairy", "a tab stands in the indent"),
    "an open quote": (b"site: Dairy", b'site: "Dairy', "cannot be read as YAML"),
    "a colon in the text": (b"site: Dairy, tanks", b"site: Dairy: tanks", "cannot be read as YAML"),
    "a key mistyped": (b"\njobs:", b"\njobz:", "jobz"),
}


@pytest.mark.parametrize("slip", SLIPS)
@pytest.mark.parametrize("name", [SHEET, "Hazel 70 (2).jobs.yaml", "week 9.yaml"])
def test_a_slip_in_a_sheet_makes_no_book_of_it(phone: Phone, folder: Path, slip: str, name: str) -> None:
    """By what can be read of it, and told under the name that it was sent by."""
    old, new, told = SLIPS[slip]
    data = data_of(folder, SHEET)
    assert old in data
    taken = take_file(phone.house, f"C:\\sheets\\{name}", data.replace(old, new, 1))
    assert (taken.kind, taken.name, {fault.file for fault in taken.faults}) == ("jobs", name, {name})
    assert any(told in f"{fault.field} {fault.found}" for fault in taken.faults)
    page = phone.post("/files", files={"file": (name, data.replace(old, new, 1))})
    assert f"{name} is not taken in" in page.text
    assert "crane.yaml is not taken in" not in page.text


@pytest.mark.parametrize(
    ("name", "kind"), [("oak.jobs.yaml", "jobs"), ("oak.crane.yaml", "book"), ("oak.yaml", "book")]
)
@pytest.mark.parametrize("data", [b"crane: Hazel 70\njobz: []\n", b"{crane: [, jobs: x"])
def test_the_name_tells_what_the_content_cannot(phone: Phone, name: str, kind: str, data: bytes) -> None:
    taken = take_file(phone.house, name, data)
    assert (taken.kind, taken.name, bool(taken.faults)) == (kind, name, True)


def test_what_a_book_holds_makes_a_book_of_it_whatever_its_name(phone: Phone, folder: Path) -> None:
    book = data_of(folder, BOOK)
    assert take_file(phone.house, "hazel-70.jobs.yaml", book).name == BOOK
    for slip in (book.replace(b"\ncrane:", b"\nkrane:"), book.replace(b"\nwinch:", b'\nwinch: "')):
        assert take_file(phone.house, "hazel-70.jobs.yaml", slip).kind == "book"


def test_signs_that_cannot_be_seen_are_left_out_of_a_name_that_is_told(phone: Phone) -> None:
    assert take_file(phone.house, "a/oak\u202e\n.jobs.yaml", b"crane: x\n").name == "oak.jobs.yaml"
    assert take_file(phone.house, "o" * 300 + ".yaml", b"crane: x\n").name == "o" * 60 + " ..."


def told_of(phone: Phone, name: str, data: bytes) -> list[str]:
    """Return the faults of a file, without its name."""
    return [str(fault).removeprefix(f"{name}:") for fault in take_file(phone.house, name, data).faults]


def test_a_table_with_tabs_is_told_what_to_put_in_their_place(phone: Phone, folder: Path) -> None:
    data = data_of(folder, TABLE).replace(b",", b"\t")
    wanted = "separate the cells with comma or semicolon"
    for name in (TABLE, "week.txt"):
        assert told_of(phone, name, data) == [f"1:1: first row: the cells are separated by tabs; {wanted}"]


def test_a_table_with_a_mistyped_heading_is_told_its_place(phone: Phone, folder: Path) -> None:
    data = data_of(folder, TABLE).replace(b"crane,", b"krane,", 1)
    for name in (TABLE, "week.txt"):
        assert '1:1: krane: "krane" is no column; did you mean "crane"?' in told_of(phone, name, data)
    assert told_of(phone, "x.csv", b"just words\n")[0].startswith('1:1: just words: "just words" is no column')


@pytest.mark.parametrize("name", [TABLE, "rowan-30.txt"])
def test_a_table_whose_first_line_names_the_separator_comes_in(phone: Phone, folder: Path, name: str) -> None:
    data = b"sep=,\r\n" + data_of(folder, TABLE)
    taken = take_file(phone.house, name, data)
    assert (taken.kind, taken.name, taken.faults, taken.crane) == ("table", TABLE, (), "rowan-30")
    sheet = phone.house.crane("rowan-30").sheet
    assert sheet is not None
    assert len(sheet.jobs) > 1


def test_every_slip_of_a_sheet_is_told_in_one_go(phone: Phone, folder: Path) -> None:
    """Its own and those against the book of its crane, as ``becket check`` tells them."""
    data = data_of(folder, SHEET).replace(b"load: 1.6 t", b"load: 1.6", 1).replace(b"boom: 20.4 m", b"boom: 21 m", 1)
    (folder / "check.jobs.yaml").write_bytes(data)
    report = check_files(folder / BOOK, folder / "check.jobs.yaml")
    (folder / "check.jobs.yaml").unlink()
    wanted = [str(fault).removeprefix(fault.file + ":") for fault in report.faults]
    assert len(wanted) == 2
    assert told_of(phone, SHEET, data) == wanted
    nameless = told_of(phone, SHEET, data.replace(b"crane:", b"krane:", 1))
    assert set(wanted) < set(nameless)
    assert any("krane" in fault for fault in nameless)


def test_a_faulty_sheet_of_a_crane_that_is_not_on_file_is_told_so_among_its_faults(phone: Phone, folder: Path) -> None:
    data = (
        data_of(folder, SHEET).replace(b"load: 1.6 t", b"load: 1.6", 1).replace(b"crane: Hazel 70", b"crane: Hazle 70")
    )
    first, second = told_of(phone, SHEET, data)
    assert first == '3:8: crane: "Hazle 70" is not on file; did you mean "Hazel 70"?'
    assert "load: 1.6 has no unit" in second


def test_a_faulty_file_is_told_line_by_line_and_shown_again_and_the_old_one_stays(phone: Phone, folder: Path) -> None:
    old = data_of(folder, BOOK)
    bad = old.replace(b"winch:", b"wich:", 1)
    taken = take_file(phone.house, BOOK, bad)
    assert {fault.file for fault in taken.faults} == {BOOK}
    assert any(fault.line > 0 and fault.column > 0 for fault in taken.faults)
    assert taken.text == bad.decode()
    assert data_of(folder, BOOK) == old
    assert phone.house.store.head().number == 0
    page = phone.post("/files", files={"file": (BOOK, bad)})
    assert page.status_code == 422
    assert f"{taken.faults[0].line}" in page.text
    assert "wich:" in page.text


@pytest.mark.parametrize(
    "data",
    [
        b"",
        b"%PDF-1.7\n\x00\x01",
        b"PK\x03\x04" + b"\0" * 50,
        b"\x89PNG\r\n\x1a\n\0\0",
        b"\xff\xfe\0b\0e",
        b"just words",
        b"[1, 2, 3]",
        b"x: 1",
        pytest.param(b"a" * 11_000_000, id="large"),
    ],
)
def test_what_is_no_file_of_becket_is_refused(phone: Phone, folder: Path, data: bytes) -> None:
    with pytest.raises(RefusedError, match=r"this file|neither a crane book"):
        take_file(phone.house, BOOK, data)
    assert sorted(path.name for path in folder.glob(".*")) == []


BOMBS = {
    "aliases": b"a: &a [x, x]\nb: &b [*a, *a]\ncrane: *b\n",
    "deep": b"crane: " + b"[" * 5000 + b"]" * 5000,
    "many": b"crane: [" + b"1, " * 150_000 + b"1]",
    "tag": b"crane: !!python/object/apply:os.system [true]\n",
    "wide": b"crane,job\n" + b"," * 100_000,
}


@pytest.mark.parametrize("name", BOMBS)
def test_a_bomb_is_a_fault(phone: Phone, folder: Path, name: str) -> None:
    before = sorted(path.name for path in folder.iterdir())
    taken = take_file(phone.house, "bomb.yaml", BOMBS[name])
    assert taken.faults
    assert sorted(path.name for path in folder.iterdir()) == before


def test_a_sheet_of_a_crane_that_is_not_on_file_is_refused(phone: Phone, folder: Path) -> None:
    with pytest.raises(
        RefusedError, match=r'the sheet is of crane "Oak 9", which is not on file.*Bring its book first'
    ):
        take_file(phone.house, "oak.yaml", data_of(folder, SHEET).replace(b"Hazel 70", b"Oak 9"))


def test_a_full_disk_leaves_everything_as_it_was(phone: Phone, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = {path.name: path.read_bytes() for path in folder.glob("*.yaml")}

    def full(number: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(CannotWriteError, match="takes no file"):
        take_file(phone.house, BOOK, data_of(folder, BOOK) + b"# new\n")
    monkeypatch.undo()
    assert {path.name: path.read_bytes() for path in folder.glob("*.yaml")} == before
    assert sorted(path.name for path in folder.glob(".*")) == []


def test_a_form_that_is_too_large_is_cut_off(phone: Phone) -> None:
    answer = phone.post("/files", files={"file": (BOOK, b"x" * 17_100_000)})
    assert answer.status_code == 413
    assert "At most 17 MB" in answer.text
