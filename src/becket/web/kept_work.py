"""Work that gives the same bytes each time, done once on a machine and kept in the user's cache folder.

In:    what the work depends on; the work.
Out:   its bytes.
Never: a start that fails because the cache cannot be written; bytes made from anything else than was named.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path
from tempfile import NamedTemporaryFile

_DAY = 86_400  # s
_SEAL = 32  # bytes of the hash in front, so that a damaged file is made anew


def kept_work(name: str, depends_on: tuple[bytes, ...], work: Callable[[], bytes], *, days: int | None = None) -> bytes:
    """Return the bytes of a piece of work, from the cache where they are there whole [-].

    Args:
        name: of the work, a plain word
        depends_on: everything that the bytes follow from
        work: makes them
        days: after which bytes of this name that nobody asked for are removed; None: they stay
    """
    key = sha256(b"".join(sha256(one).digest() for one in depends_on)).hexdigest()[:32]
    path = _folder() / f"{name}-{key}"
    try:
        found = path.read_bytes()
    except OSError:
        found = b""
    if len(found) > _SEAL and sha256(found[_SEAL:]).digest() == found[:_SEAL]:
        if days is not None:
            _note_use(path)
        return found[_SEAL:]
    made = work()
    _keep(path, made)
    if days is not None:
        _remove_unused(name, days)
    return made


def _folder() -> Path:
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache") / "becket"


def _keep(path: Path, made: bytes) -> None:
    """Write beside, then rename; a cache that cannot be written costs time at the next start and nothing else."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with NamedTemporaryFile(dir=path.parent, prefix=".", delete=False) as file:
            file.write(sha256(made).digest() + made)
        Path(file.name).replace(path)
    except OSError:
        return


def _note_use(path: Path) -> None:
    """Write down at most once a day that the file was asked for."""
    with suppress(OSError):
        if path.stat().st_mtime < time.time() - _DAY:
            os.utime(path)


def _remove_unused(name: str, days: int) -> None:
    oldest = time.time() - days * _DAY
    with suppress(OSError):
        for path in _folder().glob(f"{name}-*"):
            if path.stat().st_mtime < oldest:
                path.unlink()
