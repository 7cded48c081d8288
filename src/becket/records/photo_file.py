"""A photo from a phone, made fit to keep: turned upright, at most 1600 px, nothing in it but the picture.

In:    the bytes of a JPEG as the phone took it.
Out:   the bytes that are kept, the hash of both, width and height.
Never: a file that is not a whole JPEG; position, time, maker or thumbnail of the phone in what is kept.
"""

from __future__ import annotations

import hashlib
import warnings
from dataclasses import dataclass
from io import BytesIO

from PIL import Image, ImageOps, UnidentifiedImageError

from becket.errors import RefusedError

LONGEST_SIDE = 1600  # of what is kept [px]
MOST_PIXELS = 60_000_000  # a phone of 50 MP passes; a picture that unpacks to more is refused unread
MOST_SCANS = 100  # over the picture; a phone needs 10 at most, and a small file can ask for 100 000
QUALITY = 82
_START, _END, _SCAN = b"\xff\xd8\xff", b"\xff\xd9", b"\xff\xda"


@dataclass(frozen=True, kw_only=True)
class KeptPhoto:
    """One photo as it is kept."""

    original: str  # SHA-256 of the file as the phone took it, hex
    kept: str  # SHA-256 of what is kept, hex
    width: int  # [px]
    height: int  # [px]
    data: bytes  # JPEG


def hash_of(data: bytes) -> str:
    """Return the SHA-256 of bytes, in hex [-].

    Args:
        data: any
    """
    return hashlib.sha256(data).hexdigest()


def make_photo(data: bytes) -> KeptPhoto:
    """Return a photo as it is kept [px].

    Args:
        data: the file as the phone took it

    Raises:
        RefusedError: it is not a whole JPEG, or unpacks to more than a phone's photo.

    Source: docs/photos.md.
    """
    original = hash_of(data)
    if not data.startswith(_START):
        raise RefusedError("Not a JPEG. Take the photo with the phone's camera, as JPEG.")
    if _END not in data[-64:]:
        raise RefusedError("The photo is not whole, or something hangs behind it. Send it again.")
    if data.count(_SCAN) > MOST_SCANS:
        raise RefusedError("The photo is made in too many parts. Take it with the phone's camera, as JPEG.")
    picture = _opened(data)
    upright = ImageOps.exif_transpose(picture).convert("RGB")
    upright.thumbnail((LONGEST_SIDE, LONGEST_SIDE), Image.Resampling.LANCZOS)
    bare = Image.new("RGB", upright.size)
    bare.paste(upright)
    out = BytesIO()
    bare.save(out, "JPEG", quality=QUALITY, optimize=True)
    kept = out.getvalue()
    return KeptPhoto(original=original, kept=hash_of(kept), width=bare.width, height=bare.height, data=kept)


def kept_photo(original: str, data: bytes) -> KeptPhoto:
    """Return a photo that is kept already, from the bytes of its file [px].

    Args:
        original: SHA-256 of the file as the phone took it
        data: as ``make_photo`` made it

    Raises:
        RefusedError: it is no JPEG.
    """
    picture = _opened(data)
    return KeptPhoto(original=original, kept=hash_of(data), width=picture.width, height=picture.height, data=data)


def _opened(data: bytes) -> Image.Image:
    """Return the picture, read to its last line; scaled down while it is read where it is large."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            picture = Image.open(BytesIO(data), formats=("JPEG",))
            if picture.width * picture.height > MOST_PIXELS:
                raise RefusedError(f"The photo has {picture.width} x {picture.height} px. Take it smaller.")
            picture.draft("RGB", (2 * LONGEST_SIDE, 2 * LONGEST_SIDE))
            picture.load()
    except (OSError, SyntaxError, ValueError, UnidentifiedImageError, Image.DecompressionBombError, Warning) as error:
        if isinstance(error, RefusedError):
            raise
        raise RefusedError("The photo cannot be read: it is not whole, or not a photo. Take it again.") from error
    return picture
