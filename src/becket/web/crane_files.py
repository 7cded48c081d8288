"""The cranes of a folder, as its files say now.

In:    a folder with ``NAME.crane.yaml``, ``*.jobs.yaml`` or ``*.jobs.csv``, ``becket.settings.yaml``.
Out:   one record a crane, read again when a file has changed; every fault with its place.
Never: the last good figures in place of a file that is now broken; writing.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from pathlib import Path
from typing import Final

from becket.book.crane import Book
from becket.book.jobs import JobSheet
from becket.errors import Fault, FaultyFileError, NotOnFileError
from becket.intake.book import read_book
from becket.intake.jobs import is_csv, read_jobs, read_sheet
from becket.intake.page import Page
from becket.intake.settings import FILE_NAME as SETTINGS
from becket.intake.settings import read_settings
from becket.settings.values import Settings

BOOKS: Final = ".crane.yaml"
_NAME: Final = re.compile(r"[A-Za-z0-9][A-Za-z0-9_.-]{0,63}")  # it is in addresses and in every event of the crane
SHEETS: Final = (".jobs.yaml", ".jobs.csv")

Signs = tuple[tuple[str, int, int], ...]  # name, time of change, size: when these are the same, nothing is read again


@dataclass(frozen=True, kw_only=True)
class CraneFile:
    """One crane as its files say at one moment. ``book`` None: ``faults`` says why it cannot be used."""

    id: str
    name: str  # as the book says; the id where the book cannot be read
    path: Path
    fingerprint: str  # of the bytes of the book; "" where it cannot be read
    book: Book | None
    settings: Settings
    settings_fingerprint: str  # of the crew's file of settings; "" where there is none
    sheet: JobSheet | None
    sheet_name: str | None  # file of the job sheet
    sheet_fingerprint: str | None
    made: str  # when becket read this state of the files, ISO 8601 with offset
    faults: tuple[Fault, ...]  # of book, settings and job sheet; the file is named without its folder


class CraneFiles:
    """The cranes of one folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._signs: Signs | None = None
        self._cranes: Mapping[str, CraneFile] = {}

    def all(self) -> Mapping[str, CraneFile]:
        """Return every crane by its id, as the files say now [-]."""
        signs = self._look()
        if signs != self._signs:
            self._cranes, self._signs = self._read(signs), signs
        return self._cranes

    def one(self, name: str, only: frozenset[str] | None = None) -> CraneFile:
        """Return one crane [-].

        Args:
            name: its id: the file's name without its end
            only: cranes besides which there are none for who asks; None: there is no such bound

        Raises:
            NotOnFileError: there is no such book in the folder.
        """
        cranes = {one: crane for one, crane in self.all().items() if only is None or one in only}
        if name not in cranes:
            known = ", ".join(cranes) or "none yet"
            raise NotOnFileError(f'crane "{name}" is not on file; cranes on file: {known}')
        return cranes[name]

    def _look(self) -> Signs:
        found = []
        for path in sorted(self.folder.iterdir()):
            if (path.name.endswith((BOOKS, *SHEETS)) and not path.name.startswith(".")) or path.name == SETTINGS:
                try:
                    stat = path.stat()
                except OSError:
                    continue  # taken away while we looked
                found.append((path.name, stat.st_mtime_ns, stat.st_size))
        return tuple(found)

    def _read(self, signs: Signs) -> dict[str, CraneFile]:
        settings, faults = self._settings()
        sheets = sorted((when, name) for name, when, _ in signs if name.endswith(SHEETS))
        newest_first = [self.folder / name for _, name in reversed(sheets)]
        owners = {path: _owner(path, settings) for path in newest_first}
        books = [self.folder / name for name, _, _ in signs if name.endswith(BOOKS)]
        beside = _Beside(settings=settings, fingerprint=_seal(self.folder / SETTINGS), faults=faults, owners=owners)
        return {path.name.removesuffix(BOOKS): _crane(path, beside) for path in books}

    def _settings(self) -> tuple[Settings, tuple[Fault, ...]]:
        try:
            return read_settings(self.folder), ()
        except FaultyFileError as error:
            return read_settings(None), _without_folder(error.faults)


def _owner(path: Path, settings: Settings) -> str | None:
    """Return the crane that a job sheet names, faults or not; None: it cannot be told."""
    try:
        sheet = read_sheet(path, Page(str(path), decimal_comma=is_csv(path)), settings, None)
    except FaultyFileError:
        return None
    return sheet.crane if sheet is not None else None


@dataclass(frozen=True, kw_only=True)
class _Beside:
    """What stands in the folder for every crane."""

    settings: Settings
    fingerprint: str  # of the settings
    faults: tuple[Fault, ...]  # of the settings: no figure rests on others than the crew's own
    owners: Mapping[Path, str | None]  # job sheet, newest first -> the crane that it names


def _crane(path: Path, beside: _Beside) -> CraneFile:
    name, made = path.name.removesuffix(BOOKS), datetime.now().astimezone().isoformat(timespec="seconds")
    faults = [*beside.faults, *_odd_name(path, name)]
    is_usable, book, sheet = not faults, None, None
    try:
        book = read_book(path, beside.settings).book
    except FaultyFileError as error:
        faults += _without_folder(error.faults)
    sheet_path = _sheet_of(name, book, beside.owners)
    try:
        sheet = read_jobs(sheet_path, beside.settings, book).sheet if sheet_path and book else None
    except FaultyFileError as error:
        faults += _without_folder(error.faults)
    return CraneFile(
        id=name,
        name=book.crane if book else name,
        path=path,
        fingerprint=book.fingerprint if book else "",
        book=book if is_usable else None,
        settings=beside.settings,
        settings_fingerprint=beside.fingerprint,
        sheet=sheet if is_usable else None,
        sheet_name=sheet_path.name if sheet_path else None,
        sheet_fingerprint=sheet.fingerprint if sheet else None,
        made=made,
        faults=tuple(sorted(faults)),
    )


def _sheet_of(name: str, book: Book | None, owners: Mapping[Path, str | None]) -> Path | None:
    """Return the newest job sheet of a crane; one that names no crane goes by its file name."""
    for path, owner in owners.items():
        if (owner is not None and book is not None and owner == book.crane) or (
            owner is None and path.name.startswith(f"{name}.")
        ):
            return path
    return None


def _odd_name(path: Path, name: str) -> tuple[Fault, ...]:
    if _NAME.fullmatch(name):
        return ()
    wanted = f"letters, digits, points, dashes before {BOOKS}, as hazel-70{BOOKS}: rename the file"
    return (Fault(file=path.name, line=0, column=0, field="file", found=f'is named "{name}"', wanted=wanted),)


def _seal(path: Path) -> str:
    try:
        return sha256(path.read_bytes()).hexdigest()[:16]
    except OSError:
        return ""


def _without_folder(faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    """Return faults that name the file alone: the folder of the server is nobody's business on a phone."""
    return tuple(
        Fault(
            file=Path(one.file).name,
            line=one.line,
            column=one.column,
            field=one.field,
            found=one.found,
            wanted=one.wanted,
        )
        for one in faults
    )
