"""A small SQLite file beside the records: of this server alone, for no other user of the machine.

In:    its place, its tables, what is lost with it.
Out:   connections of one call each, committed at their end.
Never: a record of the crane in it; a fault of the disk as a traceback.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from becket.errors import CannotWriteError

_PATIENCE = 5  # s for another connection
_OWN = 0o600


class SideFile:
    """One file with a few tables."""

    def __init__(self, path: Path, tables: str, lost: str) -> None:
        self.path, self._lost = path, lost
        with suppress(OSError):
            os.close(os.open(path, os.O_CREAT | os.O_RDWR, _OWN))
            path.chmod(_OWN)
        with self.open() as base:
            base.executescript(tables)

    @contextmanager
    def open(self, *, is_write: bool = False) -> Iterator[sqlite3.Connection]:
        """Give a connection of this call alone, committed at its end: handlers run in several threads.

        Args:
            is_write: nobody else writes between what is read here and what is written
        """
        try:
            base = sqlite3.connect(self.path, timeout=_PATIENCE)
            try:
                with base:
                    if is_write:
                        base.execute("BEGIN IMMEDIATE")
                    yield base
            finally:
                base.close()
        except sqlite3.Error as error:
            raise CannotWriteError(self._why(error)) from error

    def _why(self, error: sqlite3.Error) -> str:
        code = getattr(error, "sqlite_errorcode", 0) & 0xFF
        if code in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB):
            return f"{self.path}: is damaged. Remove it and start again: {self._lost}, no record is"
        if code == sqlite3.SQLITE_FULL:
            return f"{self.path}: the disk is full. Make room, then try again"
        if code in (sqlite3.SQLITE_READONLY, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_PERM):
            return f"{self.path}: cannot be written. Give becket the right to write there, then try again"
        return f"{self.path}: cannot be used ({error}). Stop other programs that use it, then try again"
