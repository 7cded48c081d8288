"""Take all records out: one zip that any program can read.

In:    a store that may be in use, the folder of its photos.
Out:   events.jsonl (exact), events.csv (for a table program), documents/, photos/, manifest.json.
Never: a file half-written; more than a few rows in memory; a photo that a link leads to.
"""

from __future__ import annotations

import csv
import hashlib
import io
import json
import os
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from secrets import token_hex
from typing import IO, Any, Final
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from sqlalchemy import Connection, select

from becket.errors import BrokenStoreError, CannotWriteError
from becket.records import tables
from becket.records.append import chain_end
from becket.records.archive_names import FORMAT, document_name, is_photo_name
from becket.records.chain import BEGINNING
from becket.records.fill import Tell
from becket.records.kept import Head
from becket.records.photo_shelf import INCOMING
from becket.records.rows import REPEATED
from becket.records.store import Store

COLUMNS: Final = ("number", "received", *REPEATED, "shown", "entered", "before", "hash")
_AT_ONCE: Final = 1000  # rows held in memory
_PIECE: Final = 1 << 20  # of a photo [bytes]


@dataclass(frozen=True, kw_only=True)
class Exported:
    """What went out."""

    events: int
    documents: int
    photos: int
    head: Head


def export_archive(store: Store, path: Path, photos: Path | None, tell: Tell) -> Exported:
    """Return what went into one zip file, which is put in its place whole [-].

    Args:
        store: to read; nobody needs to stop writing, what comes later is not in it
        path: of the file
        photos: their folder; None: there are none
        tell: is told how many events and photos are out

    Raises:
        CannotWriteError: the file could not be written; what stood there before still stands there.
    """
    if not path.parent.is_dir() or path.is_dir():
        raise CannotWriteError(f"{path}: cannot be written there; give the name of a file in a folder that is there")
    beside = path.with_name(f".{path.name[:40]}.{token_hex(6)}.part")
    try:
        with open(beside, "xb") as file:
            with ZipFile(file, "w", ZIP_DEFLATED) as archive, store.database.reading() as connection:
                exported = _write(archive, connection, store.database.place, photos, tell)
            file.flush()
            os.fsync(file.fileno())
        os.replace(beside, path)
    except OSError as error:
        if isinstance(error, CannotWriteError) or error.strerror is None:
            raise
        raise CannotWriteError(f"{path}: cannot be written ({error.strerror}); nothing is changed") from error
    finally:
        with suppress(OSError):  # it is in its place
            beside.unlink()
    return exported


def _write(archive: ZipFile, connection: Connection, place: str, photos: Path | None, tell: Tell) -> Exported:
    head = _end_of(connection, place)
    with archive.open(_info("events.jsonl"), "w", force_zip64=True) as file:
        count = _lines(file, connection, head.number, tell)
    with archive.open(_info("events.csv"), "w", force_zip64=True) as file:
        _table(file, connection)
    documents = _documents(archive, connection)
    pictures = _photos(archive, photos, tell)
    manifest = {
        "format": FORMAT,
        "events": count,
        "head": {"number": head.number, "hash": head.hash},
        "documents": documents,
        "photos": pictures,
    }
    archive.writestr(_info("manifest.json"), json.dumps(manifest, indent=1, ensure_ascii=False) + "\n")
    return Exported(events=count, documents=len(documents), photos=len(pictures), head=head)


def _end_of(connection: Connection, place: str) -> Head:
    """The end of the chain; where its own row is gone, the last event that is there: it comes out as it stands."""
    try:
        return chain_end(connection, place)
    except BrokenStoreError:
        last = select(tables.events.c.number, tables.events.c.hash).order_by(tables.events.c.number.desc()).limit(1)
        row = connection.execute(last).first()
        return Head(number=0, hash=BEGINNING) if row is None else Head(number=row.number, hash=row.hash)


def _rows(connection: Connection) -> Iterator[Any]:
    chosen = select(tables.events).order_by(tables.events.c.number)
    return iter(connection.execution_options(yield_per=_AT_ONCE).execute(chosen))


def _lines(file: IO[bytes], connection: Connection, of: int, tell: Tell) -> int:
    count = 0
    for count, row in enumerate(_rows(connection), 1):
        about = {"number": row.number, "received": row.received, "before": row.before, "hash": row.hash}
        # the event stands there with the very letters that are hashed
        file.write(f'{json.dumps(about)[:-1]}, "event": {_body(row.body)}}}\n'.encode())
        if count % _AT_ONCE == 0:
            tell("events", count, max(of, count))
    return count


def _body(text: str) -> str:
    """The text as it stands; in quotes where somebody made something else of it by hand."""
    try:
        is_object = isinstance(json.loads(text), dict) and "\n" not in text
    except ValueError:
        is_object = False
    return text if is_object else json.dumps(text)


def _table(file: IO[bytes], connection: Connection) -> None:
    # table programs take the mark at the beginning for UTF-8
    with io.TextIOWrapper(file, "utf-8-sig", newline="") as text:
        writer = csv.writer(text)
        writer.writerow(COLUMNS)
        for row in _rows(connection):
            there = {**row._mapping, **_parts(row.body)}
            writer.writerow([there[name] for name in COLUMNS])


def _parts(body: str) -> dict[str, str]:
    try:
        event = json.loads(body)
        return {name: json.dumps(event[name], ensure_ascii=False, sort_keys=True) for name in ("shown", "entered")}
    except (ValueError, KeyError, TypeError):
        return {"shown": "", "entered": body}


def _documents(archive: ZipFile, connection: Connection) -> list[dict[str, str]]:
    kept = []
    chosen = select(tables.documents).order_by(tables.documents.c.number)
    for row in connection.execution_options(yield_per=1).execute(chosen):
        archive.writestr(_info(document_name(row.kind, row.fingerprint)), row.text.encode())
        kept.append({"kind": row.kind, "fingerprint": row.fingerprint})
    return kept


def _photos(archive: ZipFile, folder: Path | None, tell: Tell) -> dict[str, str]:
    """SHA-256 of every photo by its name; only ordinary files with ordinary names are photos, and whole ones."""
    if folder is None or not folder.is_dir():
        return {}
    found = [path for path in sorted(folder.rglob("*")) if path.is_file() and not path.is_symlink()]
    names = {path.relative_to(folder).as_posix(): path for path in found if folder / INCOMING not in path.parents}
    chosen = {name: path for name, path in names.items() if is_photo_name(f"photos/{name}")}
    hashes = {}
    for count, (name, path) in enumerate(chosen.items(), 1):
        hashes[name] = _photo(archive, f"photos/{name}", path)
        tell("photos", count, len(chosen))
    return hashes


def _photo(archive: ZipFile, name: str, path: Path) -> str:
    digest = hashlib.sha256()
    with open(path, "rb") as source, archive.open(_info(name, ZIP_STORED), "w", force_zip64=True) as target:
        while piece := source.read(_PIECE):
            digest.update(piece)
            target.write(piece)
    return digest.hexdigest()


def _info(name: str, way: int = ZIP_DEFLATED) -> ZipInfo:
    """An entry with one date for all: the same records give the same bytes."""
    info = ZipInfo(name, (1980, 1, 1, 0, 0, 0))
    info.compress_type = way
    info.external_attr = 0o644 << 16
    return info
