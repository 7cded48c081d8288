"""A book or a job sheet that comes in: looked at beside its place, then put there in one move.

In:    a name and bytes from outside.
Out:   the file in the folder, the older one kept beside it, an event; or every fault with its line.
Never: a path from outside; a file lost; half a file.
"""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from tempfile import NamedTemporaryFile
from time import time
from typing import Final

from becket.errors import CannotWriteError, Fault, FaultyFileError, RefusedError
from becket.intake.book import read_book
from becket.intake.files import BOM
from becket.intake.jobs import is_csv, read_jobs, read_sheet
from becket.intake.page import Page, nearest
from becket.settings.values import Settings
from becket.units import shortened
from becket.web.crane_files import CraneFile, CraneFiles
from becket.web.house import House
from becket.web.upload_kind import kind_of

ENDS: Final[Mapping[str, str]] = {"book": ".crane.yaml", "jobs": ".jobs.yaml", "table": ".jobs.csv"}
LEFT_OVER: Final = 3600.0  # older than this, a file beside belongs to no upload that still runs [s]
LONGEST: Final = 60  # letters of a name, without its end
_ODD: Final = re.compile(r"[^A-Za-z0-9_-]+")
_DEVICES: Final = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])", re.IGNORECASE)  # names that Windows keeps
_KNOWN_ENDS: Final = re.compile(r"(\.crane|\.jobs)?\.(ya?ml|csv|txt)$", re.IGNORECASE)


@dataclass(frozen=True, kw_only=True)
class Taken:
    """A file that came in, or what keeps it out. ``faults`` empty: it is in its place."""

    kind: str  # "book", "jobs", "table"
    name: str  # under which it stands in the folder; with faults: as it was sent
    crane: str | None  # id of the crane that it is of
    fingerprint: str | None  # None: it is not in
    kept_old: str | None  # name of the older file; None: there was none, or it was the same
    faults: tuple[Fault, ...]
    text: str  # what came in, so that it can be shown again


def take_file(house: House, name: str, data: bytes, person: str | None = None) -> Taken:
    """Return what became of a file from outside.

    Args:
        house: whose folder it goes to
        name: as the sender calls it; in the folder only its letters and digits are used
        data: its bytes
        person: id of who brings it; None: not known

    Raises:
        RefusedError: it is no text file of becket, its name has no letter, its crane is not on file; the book of
            another crane stands under this name, or this crane's under another.
        CannotWriteError: the folder does not take it.
        CannotKeepError: the store does not take it; nothing has changed.
    """
    stem = clean_name(name)
    beside = write_beside(house.folder, data)
    try:
        settings = house.settings()
        kind = kind_of(beside, name, settings)
        _check_bound(house, kind, stem)
        crane, faults = _look(house, kind, stem, beside, settings)
        _check_bound(house, kind, stem, crane)
        target = house.folder / f"{stem}{ENDS[kind]}"
        text = data.decode("utf-8", "replace")
        if faults:
            sent = as_sent(name)
            told = tuple(_named(one, sent) for one in faults)
            return _taken(kind, sent, crane, text=text, faults=told)
        fingerprint = house.store.keep_document("book" if kind == "book" else "jobs", text)
        kept_old = put_beside(beside, target)
        entered = {"name": target.name, "fingerprint": fingerprint, "kept_old": kept_old}
        house.note("file_taken", crane or stem, entered, person=person)
        return _taken(kind, target.name, crane, text=text, fingerprint=fingerprint, kept_old=kept_old)
    finally:
        beside.unlink(missing_ok=True)


def clean_name(name: str) -> str:
    """Return a name of letters, digits and dashes, without folders and ends [-].

    Args:
        name: as it came

    Raises:
        RefusedError: nothing is left of it.

    >>> clean_name("../../etc/Hazel 70 (2).crane.yaml")
    'Hazel-70-2'
    """
    last = re.split(r"[/\\]", name)[-1]
    stem = _ODD.sub("-", _KNOWN_ENDS.sub("", last)).strip("-_")[:LONGEST]
    if not stem:
        raise RefusedError(
            f'file name "{last[:60]}" has no letter or digit; name it after the crane: hazel-70.crane.yaml'
        )
    if _DEVICES.fullmatch(stem):
        raise RefusedError(f"{stem} is the name of a device on Windows; name the file after the crane")
    return stem


def as_sent(name: str) -> str:
    """Return a name as its sender calls it, without folders and signs that cannot be seen [-].

    Args:
        name: as it came

    >>> as_sent("C:/week/Hazel 70 (2).jobs.yaml")
    'Hazel 70 (2).jobs.yaml'
    """
    seen = "".join(sign for sign in re.split(r"[/\\]", name)[-1] if sign.isprintable())
    return seen if len(seen) <= 2 * LONGEST else f"{seen[:LONGEST]} ..."


def write_beside(folder: Path, data: bytes) -> Path:
    """Return a new file in the folder with these bytes, on the disk, under a name that nothing reads [-].

    Args:
        folder: of the house
        data: of the file

    Raises:
        CannotWriteError: the folder takes no file.
    """
    beside: Path | None = None
    try:
        with NamedTemporaryFile(dir=folder, prefix=".", suffix=".becket", delete=False) as file:
            beside = Path(file.name)
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        return beside
    except OSError as error:
        if beside is not None:
            beside.unlink(missing_ok=True)
        why = f"{folder.name}: takes no file ({error.strerror}). Nothing is changed. Make room, then bring it again."
        raise CannotWriteError(why) from error


def sweep(folder: Path) -> None:
    """Take away what an upload left that ended in the middle: the server was killed, or the power went.

    Args:
        folder: of the house
    """
    for left in folder.glob(".*.becket"):
        with suppress(OSError):
            if time() - left.stat().st_mtime > LEFT_OVER:
                left.unlink()


def _check_bound(house: House, kind: str, stem: str, crane: str | None = None) -> None:
    """Refuse what would stand in the place of another crane's file, there or not, for who has some cranes only."""
    if house.only is None:
        return
    own = ", ".join(f"{one}{ENDS[kind]}" for one in sorted(house.only))
    if stem not in house.only:
        raise RefusedError(f'"{stem}" is not among the cranes of this account; name the file after its crane: {own}')
    if crane is not None and crane != stem:
        raise RefusedError(f"the sheet is of {crane}, its name says {stem}; name the file {crane}{ENDS[kind]}")


def _look(house: House, kind: str, stem: str, path: Path, settings: Settings) -> tuple[str | None, tuple[Fault, ...]]:
    """Return the id of the crane and every fault."""
    try:
        if kind == "book":
            _check_book(house, stem, read_book(path, settings).book.crane)
            return stem, ()
        suffix = path.with_suffix(".csv" if kind == "table" else ".yaml")
        os.link(path, suffix)
        try:
            crane = _crane_of_sheet(house, stem, suffix, settings)
            read_jobs(suffix, settings, crane.book)
        finally:
            suffix.unlink()
        return crane.id, ()
    except FaultyFileError as error:
        return None, error.faults


def _check_book(house: House, stem: str, name: str) -> None:
    """Refuse a book that would take over another crane's records, or part a crane from its own."""
    on_file = [one for one in CraneFiles(house.folder).all().values() if one.fingerprint]  # those that can be read
    if any(one.id == stem and _is_same(one.name, name) for one in on_file):
        return
    for one in on_file:
        if _is_same(one.name, name) and house.only is None:
            raise RefusedError(f"{one.name} is on file as {one.path.name}; name the file so")
        if _is_same(one.name, name):
            raise RefusedError(f'crane "{shortened(name)}" is not among the cranes of this account')
    for one in on_file:
        if _is_same(one.id, stem):
            raise RefusedError(
                f"{one.path.name} on file is of {one.name}, this book is of {shortened(name)}; name the file after its "
                f"crane. If {one.name} itself has a new name, take the old file out of the folder first"
            )


def _is_same(name: str, other: str) -> bool:
    """Return whether two names differ by case and outer blanks alone."""
    return name.strip().casefold() == other.strip().casefold()


def _crane_of_sheet(house: House, stem: str, path: Path, settings: Settings) -> CraneFile:
    """Return the crane that a sheet names, faults or not: with its book every fault is told in one go."""
    page = Page(str(path), decimal_comma=is_csv(path))
    sheet = read_sheet(path, page, settings, None)
    name = sheet.crane if sheet is not None and sheet.crane else ""
    for crane in house.cranes():
        if crane.book is not None and (crane.name == name or (not name and crane.id == stem)):
            return crane
    known = [crane.name for crane in house.cranes()]
    if name and page.faults:
        page.fault_at("crane", f'"{shortened(name)}" is not on file', nearest(name, known, "cranes on file"))
    page.stop_if_faulty()
    listed = ", ".join(known) or "none yet"
    raise RefusedError(
        f'the sheet is of crane "{shortened(name)}", which is not on file; on file: {listed}. Bring its book first'
    )


def put_beside(beside: Path, target: Path) -> str | None:
    """Move a file to its place; return the name under which the older one is kept, None where there was none [-].

    Args:
        beside: the new file
        target: its place

    Raises:
        CannotWriteError: it cannot be moved; the old one is as it was.
    """
    kept = None
    try:
        if target.exists() and target.read_bytes() != beside.read_bytes():
            kept = _old_name(target)
            os.link(target, target.with_name(kept))
        os.chmod(beside, 0o644)
        os.replace(beside, target)
    except OSError as error:
        raise CannotWriteError(
            f"{target.name}: cannot be written ({error.strerror}). The old one is as it was."
        ) from error
    return kept


def _old_name(target: Path) -> str:
    """Return a name that is read as no book and no sheet, with the moment in it."""
    stem, suffix = target.name.rsplit(".", 1)
    moment = datetime.now(UTC).strftime("%Y-%m-%d-%H%M%S-%f")
    return f"{stem}.{moment}.{suffix}"


def _taken(
    kind: str,
    name: str,
    crane: str | None,
    *,
    text: str,
    fingerprint: str | None = None,
    kept_old: str | None = None,
    faults: tuple[Fault, ...] = (),
) -> Taken:
    return Taken(
        kind=kind,
        name=name,
        crane=crane,
        fingerprint=fingerprint,
        kept_old=kept_old,
        faults=faults,
        text=text.removeprefix(BOM.decode()),
    )


def _named(fault: Fault, name: str) -> Fault:
    return Fault(
        file=name, line=fault.line, column=fault.column, field=fault.field, found=fault.found, wanted=fault.wanted
    )
