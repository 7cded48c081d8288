"""Whether the photos are as they were kept.

In:    a store with the events ``photo_kept``; the folder of the photos.
Out:   how many photos the events name, a sentence for each that is gone or was changed.
Never: a mending; a photo taken for whole because its name is right.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Final

from sqlalchemy import select

from becket.errors import BecketError
from becket.records import tables
from becket.records.photo_shelf import PhotoShelf
from becket.records.store import Store

_PIECE: Final = 1 << 20  # [bytes]


@dataclass(frozen=True, kw_only=True)
class PhotosChecked:
    """What checking the photos found."""

    count: int  # photos that the events name
    broken: tuple[str, ...]  # a sentence each


def check_photos(store: Store, folder: Path) -> PhotosChecked:
    """Return whether every photo that the chain names is there as it was kept [-].

    Args:
        store: to read
        folder: of the photos

    Source: docs/photos.md.
    """
    chosen = select(tables.events.c.number, tables.events.c.body).where(tables.events.c.kind == "photo_kept")
    with store.database.reading() as connection:
        rows = connection.execute(chosen.order_by(tables.events.c.number)).all()
    named = {found: row.number for row in rows if (found := _named(row.body)) is not None}
    shelf = PhotoShelf(folder)
    broken = [
        f"photo {photo[:12]} of event {number}: {why}"
        for (photo, kept), number in named.items()
        if (why := _why(shelf, photo, kept)) is not None
    ]
    return PhotosChecked(count=len(named), broken=tuple(broken))


def _named(body: str) -> tuple[str, str] | None:
    """Return the hashes of original and kept file; None: somebody made something else of the event by hand."""
    try:
        entered = json.loads(body)["entered"]
        return str(entered["photo"]), str(entered["kept"])
    except (ValueError, KeyError, TypeError):
        return None


def _why(shelf: PhotoShelf, photo: str, kept: str) -> str | None:
    try:
        with shelf.path(photo).open("rb") as file:
            return None if _digest(file) == kept else "was changed, its hash does not hold"
    except (BecketError, OSError):
        return "is not in the folder photos"


def _digest(file: IO[bytes]) -> str:
    digest = hashlib.sha256()
    while piece := file.read(_PIECE):
        digest.update(piece)
    return digest.hexdigest()
