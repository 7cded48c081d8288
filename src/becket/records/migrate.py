"""Bring the tables up to the version of this becket, one process at a time.

In:    a database: empty, older, or as it should be.
Out:   the tables and their guards; counted after every migration and at every opening.
Never: half a step: it is one transaction; a database of a newer becket, or of another program, touched.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from typing import Any, Final

from sqlalchemy import Connection, inspect, text

from becket.errors import BrokenStoreError
from becket.records.database import Database
from becket.records.guards import missing_guards, place_guards
from becket.records.tables import VERSION_TABLE, metadata
from becket.records.trouble import Doing

NEWEST: Final = "0001"  # the last step in migrations/versions; a test compares
STEPS: Final = Path(__file__).parent / "migrations"
_LOCK: Final = 0x6265636B6574  # "becket": the lock that PostgreSQL keeps for migrations


def bring_up_to_date(database: Database) -> None:
    """Make or change the tables where they are not of this version; then count the guards [-].

    Args:
        database: to write to

    Raises:
        BrokenStoreError: made by a newer becket, by another program, or its guards are gone.
    """
    with database.reading(Doing.OPEN) as connection:
        version = _version(connection, database.place)
    if version != NEWEST:
        with database.writing(Doing.OPEN) as connection:
            _migrate(connection, database.place)
    with database.reading(Doing.OPEN) as connection:
        check_guards(connection, database.place)


def check_version(database: Database) -> None:
    """Refuse a database that is not of this version, without changing it [-].

    Args:
        database: to read

    Raises:
        BrokenStoreError: older, newer, empty, or of another program.
    """
    with database.reading(Doing.OPEN) as connection:
        version = _version(connection, database.place)
    if version is None:
        raise BrokenStoreError(f"{database.place}: holds no records of becket. Name the file that does.")
    if version != NEWEST:
        raise BrokenStoreError(f"{database.place}: is of an older becket. Start becket serve once; it is brought up.")


def check_guards(connection: Connection, place: str) -> None:
    """Refuse a database whose guards against change are not all there [-].

    Args:
        connection: to the database
        place: its path or address

    Raises:
        BrokenStoreError: names those that are gone.
    """
    gone = missing_guards(connection)
    if gone:
        raise BrokenStoreError(
            f"{place}: the guards against change are gone: {', '.join(gone)}. Somebody changed the database by hand. "
            "Run becket record verify; then export it and import it into an empty store, or restore the last backup."
        )


def _migrate(connection: Connection, place: str) -> None:
    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": _LOCK})
    if _version(connection, place) == NEWEST:  # another was quicker
        return
    run_steps(connection)
    place_guards(connection)
    check_guards(connection, place)


def run_steps(connection: Connection, folder: Path = STEPS) -> None:
    """Run every step that the database has not seen [-].

    Args:
        connection: inside a transaction, alone
        folder: of the steps
    """
    # Alembic takes a third of a second to load; a database that is up to date does without
    from alembic.config import Config
    from alembic.runtime.environment import EnvironmentContext
    from alembic.script import ScriptDirectory

    script = ScriptDirectory(str(folder))

    def upgrade(revision: Any, _: object) -> Iterable[Any]:
        return script._upgrade_revs("head", revision)

    with EnvironmentContext(Config(), script, fn=upgrade) as environment:
        environment.configure(
            connection=connection, target_metadata=metadata, version_table=VERSION_TABLE, transactional_ddl=True
        )
        environment.run_migrations()


def _version(connection: Connection, place: str) -> str | None:
    """The version that the tables are of; none where there are none."""
    names = set(inspect(connection).get_table_names())
    if VERSION_TABLE not in names:
        ours = {table.name for table in metadata.sorted_tables}
        strange = names if connection.dialect.name == "sqlite" else names & ours
        if strange:
            listed = ", ".join(sorted(strange)[:5])
            raise BrokenStoreError(f"{place}: is a database of another program (tables {listed}). Name another.")
        return None
    found = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalar()
    version = None if found is None else str(found)
    if version is not None and version > NEWEST:
        raise BrokenStoreError(
            f"{place}: is of a newer becket (version {version}, this one knows {NEWEST}). Use the newer becket."
        )
    return version
