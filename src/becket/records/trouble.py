"""What a driver says, in words of ours: what stands there and what to do.

In:    errors of SQLite, of PostgreSQL, of the pool of connections.
Out:   ``CannotKeepError``, ``BrokenStoreError``.
Never: an error that a person cannot mend: that is a bug and stays as it is.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from enum import Enum
from pathlib import Path
from typing import Final

from sqlalchemy.exc import DBAPIError
from sqlalchemy.exc import TimeoutError as PoolTimeoutError

from becket.errors import BecketError, BrokenStoreError, CannotKeepError


class Doing(Enum):
    """What was tried; the first words of what is said."""

    OPEN = "Cannot open the records"
    READ = "Cannot read the records"
    KEEP = "Cannot keep it"
    COPY = "Cannot copy the records"


_PAPER: Final = "Write it on paper now"
NO_TEXT: Final = "Could not decode"  # so Python's driver begins where bytes are no UTF-8
_BY_HAND: Final = ("no such table", "no such column", NO_TEXT)  # of a store of this version
_SMALL: Final = 1_000_000  # a disk with less room than this is full [bytes]


@contextmanager
def told(place: str, doing: Doing) -> Iterator[None]:
    """Turn an error of the database into one of ours [-].

    Args:
        place: path or address, without a password
        doing: what is tried

    Raises:
        CannotKeepError: disk full, read-only, locked, not reached.
        BrokenStoreError: not a database, or damaged.
    """
    try:
        yield
    except DBAPIError as error:
        ours = _in_words(error, place, doing)
        if ours is None:
            raise
        raise ours from error
    except PoolTimeoutError as error:
        raise CannotKeepError(locked_words(place, doing)) from error


def locked_words(place: str, doing: Doing) -> str:
    """Return what is said when another writes for too long [-].

    Args:
        place: path or address
        doing: what was tried
    """
    return f"{doing.value}: {place} has been locked by another program for too long. {_then(doing, 'Close it')}"


def _then(doing: Doing, cure: str) -> str:
    """The second sentence: paper first where an entry is at stake."""
    if doing is Doing.KEEP:
        return f"{_PAPER}. {cure}, then enter it again."
    return f"{cure}, then try again."


def _in_words(error: DBAPIError, place: str, doing: Doing) -> BecketError | None:
    fault = error.orig
    if isinstance(fault, sqlite3.Error):
        return sqlite_in_words(fault, place, doing)
    return _of_postgresql(fault, place, doing)


def sqlite_in_words(fault: sqlite3.Error, place: str, doing: Doing) -> BecketError | None:
    """Return an error of SQLite as one of ours; none where it is a bug [-].

    Args:
        fault: of the driver
        place: path of the file
        doing: what was tried
    """
    code = getattr(fault, "sqlite_errorcode", 0) & 0xFF
    if code == sqlite3.SQLITE_IOERR and _is_full(place):
        code = sqlite3.SQLITE_FULL
    match code:
        case sqlite3.SQLITE_FULL:
            return CannotKeepError(_full(place, doing))
        case sqlite3.SQLITE_BUSY | sqlite3.SQLITE_LOCKED:
            return CannotKeepError(locked_words(place, doing))
        case sqlite3.SQLITE_READONLY | sqlite3.SQLITE_PERM:
            return CannotKeepError(_read_only(place, doing))
        case sqlite3.SQLITE_CANTOPEN:
            return CannotKeepError(_not_opened(place, doing))
        case sqlite3.SQLITE_IOERR:
            cure = "Look at the disk: is it full, taken out or failing? Mend it"
            return CannotKeepError(f"{doing.value}: the disk of {place} does not answer. {_then(doing, cure)}")
        case sqlite3.SQLITE_CORRUPT | sqlite3.SQLITE_NOTADB:
            return BrokenStoreError(_broken(place, doing))
        case _ if str(fault).startswith(_BY_HAND):
            return BrokenStoreError(_changed(place, doing, fault))
        case _:
            return None


def _of_postgresql(fault: BaseException | None, place: str, doing: Doing) -> BecketError | None:
    state = getattr(fault, "sqlstate", None)
    kind = str(state)[:2]
    if state == "53100":
        return CannotKeepError(_full(place, doing))
    if state in ("55P03", "40P01", "57014"):
        return CannotKeepError(locked_words(place, doing))
    if state in ("25006", "42501"):
        return CannotKeepError(_read_only(place, doing))
    if state in ("XX001", "XX002"):
        return BrokenStoreError(_broken(place, doing))
    if state in ("42P01", "42703"):  # no such table, no such column
        return BrokenStoreError(_changed(place, doing, fault))
    if kind in ("08", "28", "3D", "53", "57") or (state is None and type(fault).__name__ == "OperationalError"):
        reason = " ".join(str(fault).split())[:200]
        cure = "See that it runs and that name and password are right"
        return CannotKeepError(f"{doing.value}: no answer from {place} ({reason}). {_then(doing, cure)}")
    return None


def _full(place: str, doing: Doing) -> str:
    return f"{doing.value}: the disk is full. {_then(doing, f'Make room on the disk of {place}')}"


def _read_only(place: str, doing: Doing) -> str:
    return f"{doing.value}: {place} may only be read. {_then(doing, 'Give becket the right to write there')}"


def _not_opened(place: str, doing: Doing) -> str:
    return f"{doing.value}: {place} cannot be opened. {_then(doing, 'Give becket the right to read and write there')}"


def _broken(place: str, doing: Doing) -> str:
    return (
        f"{doing.value}: {place} is damaged or not a database. Leave it as it is, copy it, "
        "and restore the last backup: becket record restore"
    )


def _changed(place: str, doing: Doing, fault: BaseException | None) -> str:
    what = str(fault).strip().splitlines()[0][:200]
    return (
        f"{doing.value}: {place} was changed by hand ({what}). Leave it as it is, copy it, "
        "and restore the last backup: becket record restore"
    )


def _is_full(place: str) -> bool:
    try:
        return shutil.disk_usage(Path(place).parent).free < _SMALL
    except OSError:
        return False
