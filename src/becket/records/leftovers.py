"""What is refused leaves nothing behind: what was made on the way is taken away again.

In:    where something is about to be made.
Out:   the same places as they were before, when it is refused.
Never: a file or folder that was there before; a folder in which anything stands.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Final

_FILE: Final = "sqlite:///"
_BESIDE: Final = ("", "-wal", "-shm", "-journal")  # SQLite's own files beside a database


def file_of(url: str) -> Path | None:
    """Return the file of a store; None: it is no file [-].

    Args:
        url: of the store

    >>> str(file_of("sqlite:///becket.sqlite")), file_of("postgresql://a@b/c")
    ('becket.sqlite', None)
    """
    path = url.removeprefix(_FILE)
    return Path(path) if path and "://" not in path and "\0" not in path else None


def missing(*places: Path | None) -> tuple[Path, ...]:
    """Return the places that are not there yet, in the same order [-].

    Args:
        places: files and folders; None is left out
    """
    return tuple(place for place in places if place is not None and not place.exists())


@contextmanager
def nothing_left(new: tuple[Path, ...]) -> Iterator[None]:
    """Take away what stands at these places when what is done in between fails.

    Args:
        new: files, then the folders round them; nothing stood there before
    """
    try:
        yield
    except BaseException:
        for place in new:
            with suppress(OSError):
                _take_away(place)
        raise


def _take_away(place: Path) -> None:
    if place.is_dir():
        place.rmdir()  # not where anything stands in it
        return
    for end in _BESIDE:
        place.with_name(place.name + end).unlink(missing_ok=True)
