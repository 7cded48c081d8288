"""Photos that come in from phones, piece by piece, and what is shown of them.

In:    pieces of a photo that an event on file names; events of a run or of a crane.
Out:   how far a photo has come; becket's own event of what is kept; the photos of a record or a pattern.
Never: a byte that no event on file asks for; a second event for the same photo; a file that is not what was kept.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from hashlib import sha256
from typing import Final

from becket.errors import BecketError, NotOnFileError, OutOfRangeError
from becket.guide.event import Event
from becket.guide.photo import Photo, photo_of, photos_kept
from becket.records.photo_file import KeptPhoto, hash_of
from becket.records.photo_shelf import MOST_PIECE, OtherBytesError, PhotoShelf
from becket.web.house import House

FOLDER: Final = "photos"  # in the folder of the firm


@dataclass(frozen=True, kw_only=True)
class Named:
    """A photo by the event that names it."""

    crane: str  # id
    photo: str  # SHA-256 of the file as the phone took it
    event: str  # key


@dataclass(frozen=True, kw_only=True)
class Progress:
    """How far a photo has come. Where it is not whole, the phone goes on from ``offset``."""

    offset: int  # bytes that have arrived
    whole: bool


@dataclass(frozen=True, kw_only=True)
class PhotoSeen:
    """One photo as a page shows it."""

    event: Event  # that names it
    photo: Photo
    kept: str | None  # SHA-256 of what is kept; None: it has not arrived
    width: int  # [px]; 0: it has not arrived
    height: int  # [px]


def shelf_of(house: House) -> PhotoShelf:
    """Return where the photos of a firm lie [-].

    Args:
        house: of the firm
    """
    return PhotoShelf(house.folder / FOLDER)


def progress_of(house: House, named: Named) -> Progress:
    """Return how far a photo has come; one that is whole has its event from now on [-].

    Args:
        house: of the firm
        named: by its event

    Raises:
        NotOnFileError: no event on file names this photo.
        CannotKeepError: the store does not take the event.
    """
    event, photo = _on_file(house, named)
    shelf = shelf_of(house)
    if not shelf.has(named.photo):
        return Progress(offset=shelf.offset(named.photo), whole=False)
    _note_kept(house, event, shelf.kept(named.photo))
    return Progress(offset=photo.size, whole=True)


def take_piece(house: House, named: Named, offset: int, piece: bytes) -> Progress:
    """Return how far a photo has come with one more piece; one that does not fit on is not taken [-].

    Args:
        house: of the firm
        named: by its event
        offset: where the piece begins
        piece: bytes

    Raises:
        NotOnFileError: no event on file names this photo.
        OutOfRangeError: the piece is too long.
        RefusedError: it is whole and not a photo.
        CannotWriteError: the disk is full or cannot be written.
        CannotKeepError: the store does not take the event.
    """
    event, photo = _on_file(house, named)
    if len(piece) > MOST_PIECE:
        raise OutOfRangeError("piece", f"{len(piece)} bytes", f"at most {MOST_PIECE} bytes")
    shelf = shelf_of(house)
    try:
        arrived = shelf.take(named.photo, offset, piece, photo.size)
    except OtherBytesError:
        return Progress(offset=0, whole=False)
    except OutOfRangeError:  # another tab was faster, or the answer to this piece was lost: the phone is told where
        return progress_of(house, named)
    if arrived.offset < photo.size:
        return Progress(offset=arrived.offset, whole=False)
    _note_kept(house, event, arrived.photo or shelf.kept(named.photo))
    return Progress(offset=photo.size, whole=True)


def photos_in(events: Sequence[Event]) -> tuple[PhotoSeen, ...]:
    """Return the photos that events name, in their order, each once, with what is kept of it [-].

    Args:
        events: of one run, or of one crane outside of runs
    """
    kept = photos_kept(events)
    found: dict[str, PhotoSeen] = {}
    for event in events:
        photo = photo_of(event)
        if photo is not None and photo.photo not in found:
            found[photo.photo] = _seen(event, photo, kept.get(photo.photo, {}))
    return tuple(found.values())


def photos_of_pattern(events: Iterable[Event], state: str) -> tuple[PhotoSeen, ...]:
    """Return the photos that were taken on the page of a pattern [-].

    Args:
        events: of the crane, in order
        state: of the pattern
    """
    return tuple(one for one in photos_in([e for e in events if e.run is None]) if one.photo.pattern == state)


def photo_bytes(house: House, photo: str, kept: str | None) -> bytes | None:
    """Return a photo as it is kept; None: it is not here, or is not what the chain says was kept [-].

    Args:
        house: of the firm
        photo: SHA-256 of the original
        kept: SHA-256 of what is kept, as becket's event has it
    """
    try:
        data = shelf_of(house).path(photo).read_bytes()
    except (BecketError, OSError):
        return None
    return data if hash_of(data) == kept else None


def photo_of_crane(house: House, crane: str, photo: str) -> bytes:
    """Return a photo of a crane as it is kept [-].

    Args:
        house: of the firm
        crane: its id
        photo: SHA-256 of the original

    Raises:
        NotOnFileError: no such photo of this crane, or its file is not what was kept.
    """
    kept = house.log(crane).photos.get(photo)
    data = photo_bytes(house, photo, kept) if kept else None
    if data is None:
        raise NotOnFileError(f"photo {photo[:12]}: not here, not yet whole, or its file was changed")
    return data


def _on_file(house: House, named: Named) -> tuple[Event, Photo]:
    kept = house.store.find([named.event])
    event = kept[0].event if kept else None
    photo = photo_of(event) if event is not None else None
    if event is None or photo is None or event.crane != named.crane or photo.photo != named.photo:
        raise NotOnFileError(
            f"photo {named.photo[:12]}: no entry on file names it; the entry goes first, then the photo"
        )
    return event, photo


def _note_kept(house: House, event: Event, photo: KeptPhoto) -> None:
    """Keep becket's own event of a photo, once for each run or crane that names it."""
    where = f"{photo.original} {event.crane} {event.run}"
    key = f"photo-kept-{sha256(where.encode()).hexdigest()[:32]}"
    entered = {
        "photo": photo.original,
        "kept": photo.kept,
        "width": photo.width,
        "height": photo.height,
        "bytes": len(photo.data),
    }
    with house.receiving:
        if not house.store.find([key]):
            house.note("photo_kept", event.crane, entered, key=key, run=event.run)


def _seen(event: Event, photo: Photo, kept: object) -> PhotoSeen:
    said = kept if isinstance(kept, dict) else {}
    sides = [said.get(name) for name in ("width", "height")]
    width, height = (one if isinstance(one, int) else 0 for one in sides)
    digest = said.get("kept")
    return PhotoSeen(
        event=event, photo=photo, kept=digest if isinstance(digest, str) else None, width=width, height=height
    )
