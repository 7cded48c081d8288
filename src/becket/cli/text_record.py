"""What was found in the records, and what was done with them, in words.

In:    what verifying found; what went out or came in.
Out:   text.
Never: a store.
"""

from __future__ import annotations

from pathlib import Path

from becket.records.archive import Exported
from becket.records.fill import Filled
from becket.records.photo_check import PhotosChecked
from becket.records.take_in import TakenIn
from becket.records.verify import Verified

_ON_PAPER = 16  # digits of a hash that a person copies


def verified_text(place: str, found: Verified) -> str:
    """Return what verifying found, the first broken place first [-].

    Args:
        place: of the store
        found: by verifying
    """
    lines = []
    if found.first_broken is not None:
        lines.append(f"BROKEN at event {found.first_broken.number}: {found.first_broken.why}.")
        lines.append("Nothing from there on is proved. Keep this file as it is; compare it with the last backup.")
    lines += [f"BROKEN {sentence}." for sentence in found.broken_documents]
    if found.guards_gone:
        lines.append(f"The guards against change are gone: {', '.join(found.guards_gone)}.")
    kind = "whole" if found.is_whole else "not whole"
    lines.append(f"{place}: {found.count} events, {found.documents} documents, {kind}.")
    if found.is_whole and found.head is not None and found.head.number:
        anchor = f"{found.head.number}:{found.head.hash[:_ON_PAPER]}"
        lines.append(f"On paper: {anchor} (verify --anchor {anchor} proves it later).")
    return "\n".join(lines)


def photos_text(found: PhotosChecked | None) -> str:
    """Return what checking the photos found; nothing where there are none [-].

    Args:
        found: by checking; None: their folder was not named
    """
    if found is None or not found.count:
        return ""
    lines = [f"BROKEN {sentence}." for sentence in found.broken]
    kind = f"{len(found.broken)} not as kept" if found.broken else "whole"
    return "\n".join([*lines, f"{found.count} photos, {kind}."])


def done_text(place: Path | str, done: Exported | TakenIn | Filled) -> str:
    """Return what went out or came in [-].

    Args:
        place: to which it went
        done: how much of each
    """
    photos = "" if isinstance(done, Filled) else f", {done.photos} photos"
    end = f"last event {done.head.number}:{done.head.hash[:_ON_PAPER]}"
    return f"{place}: {done.events} events, {done.documents} documents{photos}; {end}."
