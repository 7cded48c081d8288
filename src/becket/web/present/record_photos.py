"""The photos of a run, as its record shows them.

In:    what a record is told from, with the photos that are kept.
Out:   a section: each photo with its step, who, when, on which device, and both hashes.
Never: a photo while a count is hidden; a photo told as a proof; a file that is not what was kept.
"""

from __future__ import annotations

from becket.cards.record_told import PhotoTold, Section
from becket.guide.photo import Photo, photo_of, photos_kept
from becket.web.present.record_kept import KeptLike, RunKept
from becket.web.present.record_times import item_name


def tell_photos(run: RunKept) -> Section:
    """Return the photos of a run [-].

    Args:
        run: what the record is told from
    """
    kept = photos_kept(one.event for one in run.kept)
    found: dict[str, PhotoTold] = {}
    for one in run.of_kind("photo_taken"):
        photo = photo_of(one.event)
        if photo is not None and photo.photo not in found:
            found[photo.photo] = _told(run, one, photo, kept.get(photo.photo))
    says = run.word("record.photos_says" if found else "record.photos_none")
    photos = tuple(found.values())
    return Section(name="photos", title=run.word("record.photos"), says=(says,), photos=photos, is_empty=not photos)


def _told(run: RunKept, one: KeptLike, photo: Photo, kept: object) -> PhotoTold:
    said = kept if isinstance(kept, dict) else {}
    data = None if run.sealed else run.pictures.get(photo.photo)
    of_step = item_name(run, photo.item) if photo.item else run.word("record.photo_bare")
    below = [run.said_by(one), run.word("record.photo_original", hash=photo.photo)]
    if said:
        size = {"width": said.get("width"), "height": said.get("height")}
        below.append(run.word("record.photo_kept", hash=said.get("kept"), **size))
    return PhotoTold(
        photo=photo.photo,
        title=of_step,
        note=photo.note,
        below=tuple(below),
        missing="" if data else _missing(run, one, is_kept=bool(said)),
        width=_whole(said.get("width")),
        height=_whole(said.get("height")),
        data=data,
    )


def _missing(run: RunKept, one: KeptLike, *, is_kept: bool) -> str:
    if run.sealed:
        return run.word("record.photo_hidden")
    if is_kept:
        return run.word("record.photo_changed")
    return run.word("record.photo_on_the_way", device=run.devices[one.event.device])


def _whole(value: object) -> int:
    return value if isinstance(value, int) else 0
