"""Take an archive into an empty store: the same numbers and hashes, or nothing.

In:    a zip as ``archive.py`` writes it, from anywhere.
Out:   the store filled, the photos in their folder.
Never: trust: names, sizes, every link of the chain, every text and photo are checked before anything stays.
"""

from __future__ import annotations

import hashlib
import json
import os
import stat
import tempfile
import zlib
from collections.abc import Iterator, Mapping
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any, Final
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

from becket.errors import BecketError, CannotWriteError, RefusedError
from becket.guide.event import canonical_text, read_event
from becket.records.archive_names import (
    FORMAT,
    LARGEST,
    LONGEST_LINE,
    MOST_TIMES,
    document_name,
    is_good_name,
    is_photo_name,
)
from becket.records.fill import Tell, check_end, fill_store
from becket.records.kept import DOCUMENT_KINDS, Document, Head, Kept
from becket.records.store import Store

_PIECE: Final = 1 << 20  # of a photo [bytes]
_NOTHING: Final = "nothing was taken in"


@dataclass(frozen=True, kw_only=True)
class TakenIn:
    """What came in."""

    events: int
    documents: int
    photos: int
    head: Head


@dataclass(frozen=True, kw_only=True)
class Manifest:
    """What the archive says of itself; each of it is checked."""

    head: Head
    documents: tuple[tuple[str, str], ...]  # kind, fingerprint
    photos: Mapping[str, str]  # name -> SHA-256


def take_in_archive(store: Store, path: Path, photos: Path | None, tell: Tell) -> TakenIn:
    """Return what came into an empty store [-].

    Args:
        store: in which nothing is kept
        path: of the archive
        photos: folder for them; it is made; None: there is no place for photos
        tell: is told how many events are in

    Raises:
        RefusedError: not an archive, a bad name or size, a broken chain, a store in which something is kept.
        CannotWriteError: the photos cannot be written.
        CannotKeepError: the store cannot keep it.
    """
    try:
        with ZipFile(path) as archive:
            _check_entries(archive, path)
            manifest = _manifest(archive, path)
            return _take_in(store, archive, manifest, photos, tell)
    except (BadZipFile, zlib.error, EOFError, NotImplementedError, UnicodeDecodeError) as error:
        raise RefusedError(f"{path}: is not a whole archive of becket; {_NOTHING}") from error
    except OSError as error:
        if isinstance(error, BecketError):
            raise
        raise CannotWriteError(f"{error.filename or path}: {error.strerror or error}; {_NOTHING}") from error


def _take_in(store: Store, archive: ZipFile, manifest: Manifest, photos: Path | None, tell: Tell) -> TakenIn:
    if manifest.photos and photos is None:
        raise RefusedError(f"{len(manifest.photos)} photos have no place; name a data folder for them; {_NOTHING}")
    with ExitStack() as undo, tempfile.TemporaryDirectory(prefix=".import-", dir=_made(photos)) as staged:
        for name, digest in manifest.photos.items():
            _stage(archive, name, digest, Path(staged))
        with store.database.writing() as line:
            filled = fill_store(line, store.database.place, _events(archive), _documents(archive, manifest), tell)
            check_end(filled.head, manifest.head)
            if photos is not None:
                _settle(manifest.photos, Path(staged), photos, undo)
        undo.pop_all()  # it is kept
    count = len(manifest.photos)
    return TakenIn(events=filled.events, documents=filled.documents, photos=count, head=filled.head)


def _made(photos: Path | None) -> Path | None:
    if photos is not None:
        photos.mkdir(parents=True, exist_ok=True)
    return photos


def _check_entries(archive: ZipFile, path: Path) -> None:
    """Refuse what no archive of becket holds, before anything is unpacked."""
    seen: set[str] = set()
    total = 0
    for entry in archive.infolist():
        _check_entry(entry, path)
        if entry.filename.casefold() in seen:
            raise RefusedError(f"{path}: holds {_shown(entry.filename)} twice; {_NOTHING}")
        seen.add(entry.filename.casefold())
        total += entry.file_size
    most = MOST_TIMES * path.stat().st_size
    if total > most:
        raise RefusedError(f"{path}: would unpack to {total:,} bytes, {MOST_TIMES} times its size is most; {_NOTHING}")
    for name in ("manifest.json", "events.jsonl"):
        if name not in seen:
            raise RefusedError(f"{path}: holds no {name}: is not an archive of becket; {_NOTHING}")


def _check_entry(entry: ZipInfo, path: Path) -> None:
    name = _shown(entry.filename)
    if not is_good_name(entry.filename) or entry.orig_filename != entry.filename:
        raise RefusedError(f"{path}: holds {name}, which is no name of an archive of becket; {_NOTHING}")
    kind = stat.S_IFMT(entry.external_attr >> 16)
    is_packed_as_ours = entry.compress_type in (ZIP_DEFLATED, ZIP_STORED)
    if entry.flag_bits & 1 or kind not in (0, stat.S_IFREG) or not is_packed_as_ours:
        raise RefusedError(f"{path}: {name} has a password, is a link or is packed in another way; {_NOTHING}")
    largest = LARGEST[entry.filename.partition("/")[0]]
    if entry.file_size > largest:
        raise RefusedError(f"{path}: {name} has {entry.file_size:,} bytes, {largest:,} is most; {_NOTHING}")


def _shown(name: str) -> str:
    return repr(name[:80])


def _manifest(archive: ZipFile, path: Path) -> Manifest:
    try:
        found = json.loads(archive.read("manifest.json"))
        known = str(found["format"])
        head = Head(number=int(found["head"]["number"]), hash=str(found["head"]["hash"]))
        documents = tuple((str(one["kind"]), str(one["fingerprint"])) for one in found["documents"])
        photos = {str(name): str(digest) for name, digest in found["photos"].items()}
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise RefusedError(f"{path}: its manifest.json cannot be read; {_NOTHING}") from error
    if known != FORMAT:
        raise RefusedError(f"{path}: its format is {known[:60]!r}, {FORMAT!r} is known; {_NOTHING}")
    there = {entry.filename for entry in archive.infolist()}
    wanted = {*(document_name(*one) for one in documents), *(f"photos/{name}" for name in photos)}
    unlike = wanted ^ {name for name in there if "/" in name}
    if unlike or not all(kind in DOCUMENT_KINDS for kind, _ in documents):
        listed = ", ".join(_shown(name) for name in sorted(unlike)[:3])
        raise RefusedError(f"{path}: its manifest.json and its files differ: {listed}; {_NOTHING}")
    return Manifest(head=head, documents=documents, photos=photos)


def _events(archive: ZipFile) -> Iterator[Kept]:
    with archive.open("events.jsonl") as file:
        number = 0
        while line := file.readline(LONGEST_LINE):
            number += 1
            yield _kept(line, number)


def _kept(line: bytes, number: int) -> Kept:
    try:
        found: dict[str, Any] = json.loads(line)
        event = read_event(found["event"])
        place, received = found["number"], found["received"]
        before, digest = found["before"], found["hash"]
    except (ValueError, KeyError, TypeError, RecursionError) as error:
        why = " ".join(str(error).split())[:200]
        raise RefusedError(f"events.jsonl, line {number}: is no event ({why}); {_NOTHING}") from error
    if not line.rstrip(b"\r\n").endswith(f'"event": {canonical_text(event)}}}'.encode()):
        raise RefusedError(f"events.jsonl, line {number}: its text is not the one that was hashed; {_NOTHING}")
    if not (isinstance(place, int) and all(isinstance(one, str) for one in (received, before, digest))):
        raise RefusedError(f"events.jsonl, line {number}: is no event; {_NOTHING}")
    return Kept(event=event, number=place, received=received, before=before, hash=digest)


def _documents(archive: ZipFile, manifest: Manifest) -> Iterator[Document]:
    for kind, fingerprint in manifest.documents:
        text = archive.read(document_name(kind, fingerprint)).decode()
        yield Document(kind=kind, fingerprint=fingerprint, text=text)


def _stage(archive: ZipFile, name: str, wanted: str, folder: Path) -> None:
    """Unpack one photo beside its place and compare it with its hash."""
    if not is_photo_name(f"photos/{name}"):
        raise RefusedError(f"photo {_shown(name)}: is no name of a photo; {_NOTHING}")
    target = folder / name
    target.parent.mkdir(parents=True, exist_ok=True)
    with archive.open(f"photos/{name}") as source, open(target, "xb") as file:
        digest = _copied(source, file)
        file.flush()
        os.fsync(file.fileno())
    if digest != wanted:
        raise RefusedError(f"photo {name}: was changed, its hash does not hold; {_NOTHING}")


def _copied(source: IO[bytes], target: IO[bytes]) -> str:
    digest = hashlib.sha256()
    while piece := source.read(_PIECE):
        digest.update(piece)
        target.write(piece)
    return digest.hexdigest()


def _settle(photos: Mapping[str, str], staged: Path, folder: Path, undo: ExitStack) -> None:
    """Move the photos to their place; one that is there with other content is not written over."""
    for name, digest in photos.items():
        place = folder / name
        if place.is_symlink() or (place.exists() and not _is_same(place, digest)):
            raise RefusedError(f"{place}: another file has this name; name an empty data folder; {_NOTHING}")
    for name in photos:
        place = folder / name
        if place.exists():
            continue
        place.parent.mkdir(parents=True, exist_ok=True)
        os.rename(staged / name, place)
        undo.callback(place.unlink, missing_ok=True)


def _is_same(path: Path, digest: str) -> bool:
    with open(path, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest() == digest
