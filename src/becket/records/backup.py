"""Back up records while they are in use, and bring a backup back where nothing is kept.

In:    a store; a file of SQLite or an archive.
Out:   a file, whole, its chain verified; a store.
Never: a file or records written over.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from secrets import token_hex
from typing import Final

from sqlalchemy import Connection, inspect

from becket.errors import BrokenStoreError, CannotWriteError, RefusedError
from becket.records.database import Database
from becket.records.guards import missing_guards, place_guards
from becket.records.kept import Head
from becket.records.store import Store
from becket.records.trouble import Doing, sqlite_in_words
from becket.records.verify import Verified, verify

_BESIDE: Final = ("-wal", "-shm", "-journal")  # SQLite's own files beside a database


def back_up_file(store: Store, path: Path) -> Verified:
    """Return what was found in a copy of a SQLite store, made while others write; it is whole [-].

    Guards that are gone are told in it: the copy is good, whoever took them away is not known.

    Args:
        store: on SQLite
        path: of the copy; an older copy of that name is replaced

    Raises:
        RefusedError: the store is not on SQLite, or the path is its own.
        BrokenStoreError: the copy's chain does not hold; there is no copy then.
        CannotWriteError: the copy cannot be written.
    """
    source = store.database.path
    if source is None:
        raise RefusedError(f"{store.database.place}: is on PostgreSQL; back it up into a file that ends in .zip")
    if path.exists() and os.path.samefile(source, path):
        raise RefusedError(f"{path}: is the store itself; name another file")
    with _beside(path) as copy:
        _copy(source, copy)
        with Store.look(str(copy)) as copied:
            found = _whole(copied, path)
        os.replace(copy, path)
    return found


def restore_file(copy: Path, path: Path) -> Head:
    """Return the end of the chain of a store that was made from a copy [-].

    Args:
        copy: a file of SQLite, as ``back_up_file`` makes it
        path: of the store; nothing may be there

    Raises:
        RefusedError: something is there.
        BrokenStoreError: the copy is damaged or its chain does not hold; nothing was restored.
        CannotWriteError: the store cannot be written.
    """
    _check_free(path)
    if not copy.is_file():
        raise RefusedError(f"{copy}: there is no such file; name the backup")
    with _beside(path) as beside:
        _copy(copy, beside)
        _guard(beside)
        with Store.open(str(beside)) as restored:  # an older one is brought up to date here
            head = _whole(restored, copy).head
        _check_free(path)
        os.replace(beside, path)
    assert head is not None  # it is whole
    return head


def _guard(copy: Path) -> None:
    """Make the guards anew in a copy that lost them: whether it is as it was kept the chain tells, not they."""
    database = Database(str(copy))
    try:
        with database.writing() as connection:
            if _has_tables(connection) and missing_guards(connection):
                place_guards(connection)
    finally:
        database.close()


def _has_tables(connection: Connection) -> bool:
    there = set(inspect(connection).get_table_names())
    return {"events", "documents", "head"} <= there


def _check_free(path: Path) -> None:
    for name in (path, *(path.with_name(path.name + end) for end in _BESIDE)):
        if name.exists():
            raise RefusedError(
                f"{name}: is there, and nothing is ever written over. Stop becket serve, move it away, then restore."
            )


def is_sqlite_file(path: Path) -> bool:
    """Return whether a file is one of SQLite by its first bytes [-].

    Args:
        path: of the file
    """
    with open(path, "rb") as file:
        return file.read(16) == b"SQLite format 3\0"


def _whole(store: Store, path: Path) -> Verified:
    found = verify(store)
    if found.fault is not None:
        why = f"the records in it are not as they were kept: {found.fault}"
        raise BrokenStoreError(f"{path}: {why}. Run becket record verify.")
    return found


@contextmanager
def _beside(path: Path) -> Iterator[Path]:
    """A name beside a path; whatever stands there at the end goes."""
    if not path.parent.is_dir() or path.is_dir():
        raise CannotWriteError(f"{path}: cannot be written there; give the name of a file in a folder that is there")
    beside = path.with_name(f".{path.name[:40]}.{token_hex(6)}.part")
    try:
        yield beside
    except OSError as error:
        if error.strerror is None:
            raise
        raise CannotWriteError(f"{path}: cannot be written ({error.strerror}); nothing is changed") from error
    finally:
        for end in ("", *_BESIDE):
            with suppress(OSError):
                beside.with_name(beside.name + end).unlink()


def _copy(source: Path, target: Path) -> None:
    """Copy a database of SQLite as it is at one moment, into one file, onto the disk."""
    try:
        with (
            closing(sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True)) as old,
            closing(sqlite3.connect(target)) as new,
        ):
            old.backup(new)
            new.execute("PRAGMA journal_mode = DELETE")
    except sqlite3.Error as error:
        ours = sqlite_in_words(error, str(source), Doing.COPY)
        if ours is None:
            raise
        raise ours from error
    with open(target, "rb") as file:
        os.fsync(file.fileno())
