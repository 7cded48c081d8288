"""The cranes of a folder: read again when a file changes, told with its faults when it is broken."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from becket.errors import NotOnFileError
from becket.web.crane_files import CraneFile, CraneFiles
from tests.web.asking import Phone

BOOK = "hazel-70.crane.yaml"


def touch_later(path: Path, text: str) -> None:
    """Write a file, with a time of change of its own."""
    path.write_text(text, encoding="utf-8")
    stat = path.stat()
    os.utime(path, ns=(stat.st_atime_ns, stat.st_mtime_ns + 5_000_000_000))


def hazel(folder: Path) -> CraneFile:
    """Return the crane as a fresh look at the folder finds it."""
    return CraneFiles(folder).one("hazel-70")


def test_a_book_its_sheet_and_their_fingerprints(folder: Path) -> None:
    crane = hazel(folder)
    assert (crane.id, crane.name, crane.sheet_name) == ("hazel-70", "Hazel 70", "hazel-70.jobs.yaml")
    assert crane.book is not None
    assert crane.sheet is not None
    assert crane.fingerprint == crane.book.fingerprint
    assert crane.faults == ()


def test_a_csv_sheet_belongs_to_the_crane_that_it_names_whatever_its_own_name(folder: Path) -> None:
    (folder / "rowan-30.jobs.csv").rename(folder / "next-week.jobs.csv")
    assert CraneFiles(folder).one("rowan-30").sheet_name == "next-week.jobs.csv"
    assert hazel(folder).sheet_name == "hazel-70.jobs.yaml"


def test_the_newest_sheet_wins_even_when_it_is_broken(folder: Path) -> None:
    text = (folder / "hazel-70.jobs.yaml").read_text(encoding="utf-8")
    touch_later(folder / "newer.jobs.yaml", text.replace("load: 1.6 t", "load: 1.6 bananas"))
    crane = hazel(folder)
    assert crane.sheet_name == "newer.jobs.yaml"
    assert crane.sheet is None
    assert [(fault.file, fault.line > 0) for fault in crane.faults] == [("newer.jobs.yaml", True)]


def test_nothing_is_read_twice_and_a_change_is_seen(folder: Path) -> None:
    files = CraneFiles(folder)
    first = files.one("hazel-70")
    assert files.one("hazel-70") is first
    text = (folder / BOOK).read_text(encoding="utf-8")
    touch_later(folder / BOOK, text + "# looked at again\n")
    second = files.one("hazel-70")
    assert second.fingerprint != first.fingerprint
    assert second.book is not None


def test_a_broken_book_is_not_replaced_by_the_last_good_one(folder: Path) -> None:
    files = CraneFiles(folder)
    assert files.one("hazel-70").book is not None
    touch_later(folder / BOOK, (folder / BOOK).read_text(encoding="utf-8").replace("winch:", "wich:", 1))
    crane = files.one("hazel-70")
    assert crane.book is None
    assert crane.sheet is None
    assert any(fault.field.startswith("wich") and fault.line > 0 for fault in crane.faults)
    assert files.one("rowan-30").book is not None


def test_a_page_of_a_broken_book_names_file_and_line_and_the_others_go_on(phone: Phone, folder: Path) -> None:
    book = folder / BOOK
    touch_later(book, book.read_text(encoding="utf-8").replace("winch:", "wich:", 1))
    now = phone.get("/c/hazel-70/now")
    fault = phone.house.crane("hazel-70").faults[0]
    assert f"{BOOK}:{fault.line}" in now.text or f"line {fault.line}" in now.text
    assert str(folder) not in now.text
    assert phone.get("/c/rowan-30/now").status_code == 200
    assert phone.get("/api/feed/hazel-70?after=0").json()["book"] is None
    assert phone.get("/api/kept/hazel-70").json()["scripts"] == []


def test_settings_that_cannot_be_read_stop_every_crane_there(folder: Path) -> None:
    (folder / "becket.settings.yaml").write_text("touch_tolerance: soon\n", encoding="utf-8")
    for crane in CraneFiles(folder).all().values():
        assert crane.book is None
        assert any(fault.file == "becket.settings.yaml" for fault in crane.faults)


def test_a_name_that_no_event_can_carry_is_a_fault(folder: Path) -> None:
    shutil.copyfile(folder / BOOK, folder / "Hazel 71.crane.yaml")
    crane = CraneFiles(folder).one("Hazel 71")
    assert crane.book is None
    assert "rename the file" in crane.faults[0].wanted


def test_hidden_files_and_old_ones_are_no_cranes(folder: Path) -> None:
    for name in (".x.crane.yaml", "hazel-70.crane.2026-11-30-101500-000000.yaml", "notes.txt"):
        shutil.copyfile(folder / BOOK, folder / name)
    assert list(CraneFiles(folder).all()) == ["hazel-70", "rowan-30"]


def test_a_crane_that_is_not_there_names_those_that_are(folder: Path, phone: Phone) -> None:
    with pytest.raises(NotOnFileError, match='crane "x" is not on file; cranes on file: hazel-70, rowan-30'):
        CraneFiles(folder).one("x")
    answer = phone.get("/c/x/now")
    assert answer.status_code == 404
    assert "cranes on file: hazel-70, rowan-30" in answer.text
