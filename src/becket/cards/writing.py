"""A file put in its place whole, or not at all.

In:    a path and what is to stand there.
Out:   the file; an older one of the same name is replaced in one move.
Never: a half-written file, a file left beside it, a device overwritten.
"""

from __future__ import annotations

import os
import shutil
from contextlib import suppress
from pathlib import Path
from secrets import token_hex

from becket.errors import CannotWriteError


def write_file(path: Path, data: bytes | str) -> None:
    """Write the whole file beside its place, then move it there [-].

    Args:
        path: of the file; its folder must be there
        data: what stands in it; text is written as UTF-8

    Raises:
        CannotWriteError: one line that says why; what stood there before still stands there.
    """
    place = Path(os.path.realpath(path))  # a link stays a link: what it leads to is replaced
    is_there = os.path.exists(place)  # a name that is too long is not there; ``Path.exists`` would raise
    if is_there and not place.is_file():
        kind = "a folder" if place.is_dir() else "not an ordinary file"
        raise CannotWriteError(f"{path}: is {kind}; give the name of a file")
    if not place.parent.is_dir():
        raise CannotWriteError(f"{path}: there is no folder {place.parent}; make it first, or name another")
    beside = place.with_name(f".{place.name[:40]}.{token_hex(6)}.part")
    try:
        _write_whole(beside, data.encode("utf-8") if isinstance(data, str) else data)
        if is_there:
            shutil.copymode(place, beside)
        os.replace(beside, place)
    except OSError as error:
        reason = error.strerror or str(error)
        raise CannotWriteError(f"{path}: cannot be written ({reason}); nothing is changed") from error
    finally:
        with suppress(OSError):  # it is not there: never made, or moved to its place
            beside.unlink()


def _write_whole(beside: Path, data: bytes) -> None:
    with open(beside, "xb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
