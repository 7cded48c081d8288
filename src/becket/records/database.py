"""The way to the database: its address, its connections, its transactions.

In:    the path of a file, or an address that begins with sqlite: or postgresql:
Out:   connections inside a transaction, for reading or for writing.
Never: a table; an error of a driver: every one is told in words.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any, Final

from sqlalchemy import URL, Connection, Engine, create_engine, event, make_url
from sqlalchemy.exc import ArgumentError

from becket.errors import CannotKeepError, UnreadableTextError
from becket.records.trouble import Doing, locked_words, told

PATIENCE: Final = 10.0  # how long one waits for another that writes [s]
_WANTED: Final = "the records are found at a path as becket.sqlite, sqlite:///PATH, or postgresql://USER@HOST/NAME"
_WRITING: Final = "becket_writing"


class Database:
    """An engine, and the two ways to use it."""

    def __init__(self, url: str, is_only_read: bool = False) -> None:
        address = _address(url)
        self.is_sqlite = address.get_backend_name() == "sqlite"
        self.place = str(address.database) if self.is_sqlite else address.render_as_string(hide_password=True)
        self.path = Path(str(address.database)) if self.is_sqlite else None
        self.engine = _sqlite(address, is_only_read) if self.is_sqlite else _postgresql(address)
        self._file: tuple[int, int] | None = None  # which file stood at the path
        self._turn = threading.Lock()  # threads of one process wait in a queue, not by trying again

    @contextmanager
    def reading(self, doing: Doing = Doing.READ) -> Iterator[Connection]:
        """Yield a connection that sees one moment of the database [-].

        Args:
            doing: what is tried, for what is said

        Raises:
            CannotKeepError: it cannot be read; says why and what to do.
            BrokenStoreError: it is damaged.
        """
        self._look_at_file(doing)
        level = {} if self.is_sqlite else {"isolation_level": "REPEATABLE READ"}
        with told(self.place, doing), self.engine.connect() as connection:
            connection.execution_options(**level)
            with connection.begin():
                yield connection

    @contextmanager
    def writing(self, doing: Doing = Doing.KEEP) -> Iterator[Connection]:
        """Yield a connection that writes; all of it is kept at the end, or nothing [-].

        Args:
            doing: what is tried, for what is said

        Raises:
            CannotKeepError: nothing was kept; says why and what to do.
        """
        if not self._turn.acquire(timeout=PATIENCE):
            raise CannotKeepError(locked_words(self.place, doing))
        try:
            self._look_at_file(doing)
            with told(self.place, doing), self.engine.connect() as connection:
                connection.execution_options(**{_WRITING: True})
                with connection.begin():
                    yield connection
        finally:
            self._turn.release()

    def close(self) -> None:
        """Close every connection [-]."""
        self.engine.dispose()

    def _look_at_file(self, doing: Doing) -> None:
        """Leave a file that no longer stands at the path: what is written into it is lost."""
        if self.path is None:
            return
        try:
            found = os.stat(self.path)
        except FileNotFoundError:
            if self._file is None:
                return  # it is about to be made
            self.close()
            raise CannotKeepError(
                f"{doing.value}: {self.path} was taken away. Put it back, or restore a backup there."
            ) from None
        except OSError:
            return  # SQLite says why in better words
        file = found.st_dev, found.st_ino
        if self._file not in (None, file):
            self.close()
        self._file = file


def _address(url: str) -> URL:
    if not url.startswith(("sqlite:", "postgresql:", "postgres:", "postgresql+psycopg:")):
        if "://" in url or not url or "\0" in url:
            found = repr(url.partition("://")[0]) if url else "an empty address"
            raise UnreadableTextError(found, _WANTED)
        return URL.create("sqlite", database=url)
    try:
        address = make_url(url)
    except (ArgumentError, ValueError) as error:
        raise UnreadableTextError(f"{url.partition(':')[0]}:...", _WANTED) from error
    if address.get_backend_name() == "sqlite":
        if address.database in (None, "", ":memory:"):
            raise UnreadableTextError("sqlite: without a file", _WANTED)
        return URL.create("sqlite", database=address.database)
    return address.set(drivername="postgresql+psycopg")


def _sqlite(address: URL, is_only_read: bool) -> Engine:
    path = Path(str(address.database))
    if is_only_read:
        address = URL.create("sqlite", database=path.absolute().as_uri(), query={"mode": "ro", "uri": "true"})
    engine = create_engine(address)

    @event.listens_for(engine, "connect")
    def _prepare(connection: Any, record: object) -> None:
        connection.isolation_level = None  # BEGIN is ours, below
        connection.execute(f"PRAGMA busy_timeout = {int(PATIENCE * 1000)}")
        connection.execute("PRAGMA recursive_triggers = ON")
        if not is_only_read:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")  # what is acknowledged is on the disk

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        is_writing = connection.get_execution_options().get(_WRITING, False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if is_writing else "BEGIN")

    return engine


def _postgresql(address: URL) -> Engine:
    try:
        engine = create_engine(address, connect_args={"connect_timeout": int(PATIENCE)})
    except ModuleNotFoundError as error:
        raise CannotKeepError(
            "PostgreSQL needs the driver psycopg, which is not installed; install becket with the extra pg: becket[pg]"
        ) from error

    @event.listens_for(engine, "connect")
    def _prepare(connection: Any, record: object) -> None:
        is_on, connection.autocommit = connection.autocommit, True
        connection.execute(f"SET lock_timeout = '{int(PATIENCE * 1000)}ms'")
        (commit,) = connection.execute("SHOW synchronous_commit").fetchone()
        if commit in ("off", "local"):  # what is acknowledged is on the disk
            connection.execute("SET synchronous_commit = on")
        connection.autocommit = is_on

    return engine
