"""What is wrong with the files of a crane: every fault, every contradiction.

In:    paths of a crane book and a job sheet.
Out:   one report of all of them in one run.
Never: printing, exit codes, judging a lift.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from becket.book.crane import Book
from becket.errors import Fault, FaultyFileError
from becket.intake.book import read_parts
from becket.intake.jobs import is_csv, read_sheet
from becket.intake.page import Page, place_of
from becket.intake.settings import read_settings
from becket.limits.contradictions import find_contradictions
from becket.settings.values import Settings
from becket.verdict import Verdict


@dataclass(frozen=True, kw_only=True, order=True)
class FilePlace:
    """Where a figure stands."""

    file: str
    line: int
    column: int
    field: str


@dataclass(frozen=True, kw_only=True)
class PlacedContradiction:
    """Figures that contradict each other, each with its place."""

    name: str
    why: str
    places: tuple[FilePlace, ...]


@dataclass(frozen=True, kw_only=True)
class CheckReport:
    """What was found. Pass: no fault, no finding."""

    verdict: Verdict
    faults: tuple[Fault, ...]
    findings: tuple[PlacedContradiction, ...]


def check_files(book_path: Path, jobs_path: Path | None) -> CheckReport:
    """Return every fault of both files and of the settings beside the book, and the book's contradictions [-].

    A file with faults is read on as far as it goes: one run shows them all.

    Args:
        book_path: of the crane book [-]
        jobs_path: of the job sheet; None where there is none [-]
    """
    faults: list[Fault] = []
    settings = _settings(book_path, faults)
    page = Page(str(book_path))
    book = _book(book_path, page, settings, faults)
    if jobs_path is not None:
        _jobs(jobs_path, settings, _for_names(book, page), faults)
    findings = _findings(str(book_path), book, settings, page.marks) if book is not None and not page.faults else ()
    verdict = Verdict.FAIL if faults or findings else Verdict.PASS
    return CheckReport(verdict=verdict, faults=tuple(sorted(set(faults))), findings=findings)


def _settings(book_path: Path, faults: list[Fault]) -> Settings:
    try:
        return read_settings(book_path.parent)
    except FaultyFileError as error:
        faults += error.faults
        return read_settings(None)


def _book(path: Path, page: Page, settings: Settings, faults: list[Fault]) -> Book | None:
    try:
        book = read_parts(path, page, settings)
    except FaultyFileError as error:
        faults += error.faults
        return None
    faults += page.faults
    return book


def _jobs(path: Path, settings: Settings, book: Book | None, faults: list[Fault]) -> None:
    page = Page(str(path), decimal_comma=is_csv(path))
    try:
        read_sheet(path, page, settings, book)
    except FaultyFileError as error:
        faults += error.faults
    else:
        faults += page.faults


def _for_names(book: Book | None, page: Page) -> Book | None:
    """Return the book with what is faulty left out, so that a sheet is not blamed for it."""
    if book is None or not page.faults:
        return book
    faulty = page.faulty_fields()
    if "charts" in faulty:
        book = replace(book, charts=())
    if "blocks" in faulty:
        book = replace(book, blocks={})
    if book.boom is not None and "boom.lengths" in faulty:
        book = replace(book, boom=replace(book.boom, lengths=()))
    return book


def _findings(
    file: str, book: Book, settings: Settings, marks: Mapping[str, tuple[int, int]]
) -> tuple[PlacedContradiction, ...]:
    found = []
    for one in find_contradictions(book, settings):
        places = []
        for field in one.fields:
            line, column = place_of(marks, field)
            places.append(FilePlace(file=file, line=line, column=column, field=field))
        found.append(PlacedContradiction(name=one.name, why=one.why, places=tuple(places)))
    return tuple(sorted(found, key=lambda finding: (finding.places, finding.name)))
