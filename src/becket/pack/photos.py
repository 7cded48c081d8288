"""Photos of the manual's pages that lie beside a crane book.

In:    a crane book, the folder that it lies in.
Out:   each photo as a data URI, by the name under which its pattern gives it.
Never: a file outside the folder, a kind of file that is neither JPEG nor PNG, a photo that was left out in silence.
"""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Final

from becket.book.crane import Book
from becket.errors import RefusedError

MOST_BYTES: Final = 5_000_000
FIRST_BYTES: Final[Mapping[str, bytes]] = MappingProxyType(
    {"image/jpeg": b"\xff\xd8\xff", "image/png": b"\x89PNG\r\n\x1a\n"}
)
RIGHT: Final = "a JPEG or PNG of at most 5 MB in the folder of the book is wanted, as pages/6-14.jpg"


def read_photos(book: Book, folder: Path) -> dict[str, str]:
    """Return every photo that a pattern names, as a data URI, by its name in the book [-].

    Args:
        book: the crane
        folder: in which the book lies

    Raises:
        RefusedError: a name that leads out of the folder or to no file; a file that cannot be read, is over 5 MB or is
            neither JPEG nor PNG.
    """
    photos: dict[str, str] = {}
    for number, pattern in enumerate(book.patterns):
        if pattern.picture is not None and pattern.picture not in photos:
            photos[pattern.picture] = _photo(f"patterns[{number}].picture", pattern.picture, folder)
    return photos


def _photo(field: str, name: str, folder: Path) -> str:
    fault = ""
    data = b""
    try:
        path = (folder / name).resolve()
        if not path.is_relative_to(folder.resolve()):
            fault = "lies outside the folder of the book"
        elif not path.exists():
            fault = "there is no such file"
        elif not path.is_file():  # a folder; a pipe would never end
            fault = "is no file"
        else:
            data = _bytes(path)
    except (OSError, ValueError, RuntimeError) as error:  # ValueError: a name no file can have; RuntimeError: a loop
        fault = f"cannot be read ({getattr(error, 'strerror', None) or error})"
    kind = next((kind for kind, first in FIRST_BYTES.items() if data.startswith(first)), None)
    if len(data) > MOST_BYTES:
        fault = "is over 5 MB"
    if fault or kind is None:
        raise RefusedError(f"{field}: {name}: {fault or 'is neither JPEG nor PNG by its first bytes'}; {RIGHT}")
    return f"data:{kind};base64,{b64encode(data).decode('ascii')}"


def _bytes(path: Path) -> bytes:
    with path.open("rb") as file:
        return file.read(MOST_BYTES + 1)
