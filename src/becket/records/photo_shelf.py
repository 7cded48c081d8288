"""The photos of a data folder: what has come in so far, what is kept.

In:    pieces of a photo, in order, under the hash of the whole.
Out:   how much has arrived; the photo as it is kept, by the hash of its original.
Never: a name from outside as a path; half a photo as a whole one; two senders' pieces mixed.
"""

from __future__ import annotations

import os
import re
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from threading import RLock

from becket.errors import CannotWriteError, NotOnFileError, OutOfRangeError, RefusedError
from becket.guide.photo import MOST_BYTES
from becket.records.photo_file import KeptPhoto, hash_of, kept_photo, make_photo

MOST_PIECE = 1_000_000  # of one piece
INCOMING = "incoming"  # folder of what is not whole yet: no photo, and in no archive
_HASH = re.compile(r"[0-9a-f]{64}")
_TURNS = tuple(RLock() for _ in range(16))  # pieces of one photo come one after another, whoever sends them


class OtherBytesError(RefusedError):
    """What arrived is not what its hash says; it is thrown away, and the phone sends it again."""


@dataclass(frozen=True, kw_only=True)
class Arrived:
    """How far a photo has come. ``photo``: it is whole and kept."""

    offset: int  # bytes that have arrived
    photo: KeptPhoto | None


class PhotoShelf:
    """The folder with the photos; each under the hash of its original."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._incoming = folder / INCOMING

    def path(self, original: str) -> Path:
        """Return where a kept photo lies [-].

        Args:
            original: SHA-256 of the file as the phone took it

        Raises:
            NotOnFileError: no such photo, or not yet whole.
        """
        found = self.folder / f"{_checked(original)}.jpg"
        if not found.is_file():
            raise NotOnFileError(f"photo {original[:12]}: not here, or not yet whole")
        return found

    def has(self, original: str) -> bool:
        """Return whether a photo is kept, whole [-].

        Args:
            original: SHA-256 of the file as the phone took it
        """
        return (self.folder / f"{_checked(original)}.jpg").is_file()

    def kept(self, original: str) -> KeptPhoto:
        """Return a photo as it is kept, read from its file; nothing of it is on the way any more [px].

        Args:
            original: SHA-256 of the file as the phone took it

        Raises:
            NotOnFileError: no such photo, or not yet whole.
            RefusedError: the file is none that becket wrote.
        """
        found = kept_photo(original, self.path(original).read_bytes())
        self._part(original).unlink(missing_ok=True)  # the power went when it had just become whole
        return found

    def offset(self, original: str) -> int:
        """Return how many bytes of a photo have arrived, so that the phone goes on from there [-].

        Args:
            original: SHA-256 of the file as the phone took it
        """
        part = self._part(original)
        return part.stat().st_size if part.is_file() else 0

    def take(self, original: str, offset: int, piece: bytes, total: int) -> Arrived:
        """Return how far a photo has come with one more piece; the last piece makes it whole [-].

        Args:
            original: SHA-256 of the file as the phone took it
            offset: where the piece begins; what has arrived so far
            piece: bytes
            total: bytes of the whole

        Raises:
            OutOfRangeError: the piece is too long, does not fit on what has arrived, or the whole is too long.
            OtherBytesError: it is whole and is not what its hash says; it is sent again from its beginning.
            RefusedError: it is whole and not a photo; the phone keeps it.
            CannotWriteError: the disk is full or cannot be written.
        """
        with _TURNS[int(_checked(original)[0], 16)]:
            return self._take(original, offset, piece, total)

    def _take(self, original: str, offset: int, piece: bytes, total: int) -> Arrived:
        if not 0 < total <= MOST_BYTES:
            raise OutOfRangeError("photo", f"{total} bytes", f"1 to {MOST_BYTES} bytes")
        if len(piece) > MOST_PIECE:
            raise OutOfRangeError("piece", f"{len(piece)} bytes", f"at most {MOST_PIECE} bytes")
        if self.has(original):
            self._part(original).unlink(missing_ok=True)  # the power went when it had just become whole
            return Arrived(offset=total, photo=None)
        here = self.offset(original)
        if offset != here or offset + len(piece) > total:
            raise OutOfRangeError("offset", offset, f"{here}: that many bytes have arrived")
        self._append(original, piece)
        if here + len(piece) < total:
            return Arrived(offset=here + len(piece), photo=None)
        return Arrived(offset=total, photo=self._whole(original))

    def _whole(self, original: str) -> KeptPhoto:
        part = self._part(original)
        data = part.read_bytes()
        try:
            if hash_of(data) != original:
                raise OtherBytesError("The photo that arrived is not the one that was sent. It is sent again.")
            photo = make_photo(data)
        except RefusedError:
            part.unlink()
            raise
        _write_beside(self.folder / f"{original}.jpg", photo.data)
        part.unlink(missing_ok=True)
        return photo

    def _append(self, original: str, piece: bytes) -> None:
        part = self._part(original)
        before = part.stat().st_size if part.is_file() else 0
        try:
            self._incoming.mkdir(parents=True, exist_ok=True)
            with part.open("ab") as file:
                file.write(piece)
                file.flush()
                os.fsync(file.fileno())
        except OSError as error:
            if part.is_file():
                os.truncate(part, before)
            raise CannotWriteError(f"{self.folder}: {error.strerror}. The photo stays on the phone.") from error

    def _part(self, original: str) -> Path:
        return self._incoming / f"{_checked(original)}.part"


def _write_beside(path: Path, data: bytes) -> None:
    """Write under one name for each photo, then rename: what a power cut leaves is written over the next time."""
    beside = path.with_name(f".{path.name}")
    try:
        with beside.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        beside.replace(path)
    except OSError as error:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
        raise CannotWriteError(f"{path.parent}: {error.strerror}. The photo stays on the phone.") from error


def _checked(original: str) -> str:
    if not _HASH.fullmatch(original):
        raise RefusedError("A photo is named by the 64 hex digits of its SHA-256.")
    return original
