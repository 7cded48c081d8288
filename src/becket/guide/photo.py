"""A photo as the events of a run or of a pattern name it.

In:    an event, what is on file.
Out:   what the photo is of, who took it; why an event of a photo is refused, in words.
Never: the picture itself; a photo taken as a proof of anything.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from becket.guide.event import Event
from becket.guide.run_words import run_word

MOST_BYTES: Final = 25_000_000  # of one photo as the phone took it
MOST_OF_RECORD: Final = 40  # photos of one run, or of one pattern
LONGEST_NOTE: Final = 2000  # characters
_HASH: Final = re.compile(r"[0-9a-f]{64}")


@dataclass(frozen=True, kw_only=True)
class Photo:
    """What an event ``photo_taken`` says."""

    photo: str  # SHA-256 of the file as the phone took it, hex
    size: int  # of that file [bytes]
    item: str | None  # of the script, where it was taken on a step
    pattern: str | None  # state, where it was taken on the page of a pattern
    note: str


def photo_of(event: Event) -> Photo | None:
    """Return what an event says of a photo; None: it is no ``photo_taken``, or cannot be read [-].

    Args:
        event: of any kind
    """
    if event.kind != "photo_taken":
        return None
    photo, size = event.entered.get("photo"), event.entered.get("bytes")
    item, pattern = event.entered.get("item"), event.entered.get("pattern")
    note = event.entered.get("note", "")
    if not isinstance(photo, str) or not _HASH.fullmatch(photo):
        return None
    if not isinstance(size, int) or isinstance(size, bool) or not 0 < size <= MOST_BYTES:
        return None
    if not _is_text_or_none(item) or not _is_text_or_none(pattern):
        return None
    if not isinstance(note, str) or len(note) > LONGEST_NOTE:
        return None
    return Photo(photo=photo, size=size, item=_text(item), pattern=_text(pattern), note=note.strip())


def photos_kept(events: Iterable[Event]) -> dict[str, Mapping[str, object]]:
    """Return what becket keeps of each photo, by the hash of its original: hash, width, height [-].

    Only becket's own word counts: an event of another role or device says nothing.

    Args:
        events: of one run, or of a crane
    """
    own = (one for one in events if one.kind == "photo_kept" and one.role == "becket" and one.device == "becket")
    return {str(one.entered.get("photo")): one.entered for one in own}


def why_photo_refused(event: Event, on_file: Iterable[Event]) -> str | None:
    """Return why an event of a photo is refused, in words; None: it is no photo, or is kept [-].

    Args:
        event: good in form
        on_file: of its crane

    Source: docs/photos.md.
    """
    if event.kind != "photo_taken":
        return None
    found = photo_of(event)
    if found is None:
        return run_word("photo_unreadable", {})
    same = [photo_of(one) for one in on_file if one.crane == event.crane and one.run == event.run]
    named = {one.photo for one in same if one is not None and (event.run is not None or one.pattern == found.pattern)}
    is_full = len(named - {found.photo}) >= MOST_OF_RECORD
    return run_word("photos_full", {"most": MOST_OF_RECORD}) if is_full else None


def _is_text_or_none(value: object) -> bool:
    return value is None or (isinstance(value, str) and 0 < len(value) <= 200)


def _text(value: object) -> str | None:
    return value if isinstance(value, str) else None
