"""The guards: triggers that refuse to change or take away what is kept.

In:    a connection inside a transaction.
Out:   the triggers, made anew; the names of those that are not there as they should be.
Never: a table.

They hold off slips and programs that do not know better. Who may drop a trigger can do as they like: the chain is what
finds it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from sqlalchemy import Connection, text

# name of the trigger -> its text; {0} is "CREATE TRIGGER name"
_SQLITE: Final[Mapping[str, str]] = {
    "events_stay": "{0} BEFORE UPDATE ON events BEGIN SELECT RAISE(ABORT, 'an event cannot be changed'); END",
    "events_last": "{0} BEFORE DELETE ON events BEGIN SELECT RAISE(ABORT, 'an event cannot be taken away'); END",
    # INSERT OR REPLACE takes the old row away without asking the guard of DELETE
    "events_once": (
        "{0} BEFORE INSERT ON events WHEN EXISTS (SELECT 1 FROM events WHERE number = NEW.number OR key = NEW.key) "
        "BEGIN SELECT RAISE(ABORT, 'an event cannot be replaced'); END"
    ),
    "documents_stay": "{0} BEFORE UPDATE ON documents BEGIN SELECT RAISE(ABORT, 'a document cannot be changed'); END",
    "documents_last": (
        "{0} BEFORE DELETE ON documents BEGIN SELECT RAISE(ABORT, 'a document cannot be taken away'); END"
    ),
    "documents_new": (
        "{0} BEFORE INSERT ON documents WHEN EXISTS (SELECT 1 FROM documents WHERE number = NEW.number "
        "OR (fingerprint = NEW.fingerprint AND kind = NEW.kind)) "
        "BEGIN SELECT RAISE(ABORT, 'a document cannot be replaced'); END"
    ),
    "head_grows": (
        "{0} BEFORE UPDATE ON head WHEN NEW.number <= OLD.number "
        "BEGIN SELECT RAISE(ABORT, 'the end of the chain only moves on'); END"
    ),
    "head_lasts": "{0} BEFORE DELETE ON head BEGIN SELECT RAISE(ABORT, 'the end of the chain stays'); END",
    "head_is_kept": (
        "{0} BEFORE INSERT ON head WHEN EXISTS (SELECT 1 FROM head) "
        "BEGIN SELECT RAISE(ABORT, 'the end of the chain stays'); END"
    ),
}
_REFUSE: Final = """
CREATE OR REPLACE FUNCTION becket_refuse() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION '% on %: what is kept cannot be changed', TG_OP, TG_TABLE_NAME
        USING ERRCODE = 'integrity_constraint_violation';
END $$
"""
_POSTGRESQL: Final[Mapping[str, str]] = {
    "events_stay": "{0} BEFORE UPDATE OR DELETE ON events FOR EACH ROW EXECUTE FUNCTION becket_refuse()",
    "events_last": "{0} BEFORE TRUNCATE ON events FOR EACH STATEMENT EXECUTE FUNCTION becket_refuse()",
    "documents_stay": "{0} BEFORE UPDATE OR DELETE ON documents FOR EACH ROW EXECUTE FUNCTION becket_refuse()",
    "documents_last": "{0} BEFORE TRUNCATE ON documents FOR EACH STATEMENT EXECUTE FUNCTION becket_refuse()",
    "head_grows": (
        "{0} BEFORE UPDATE ON head FOR EACH ROW WHEN (NEW.number <= OLD.number) EXECUTE FUNCTION becket_refuse()"
    ),
    "head_lasts": "{0} BEFORE DELETE ON head FOR EACH ROW EXECUTE FUNCTION becket_refuse()",
    "head_is_kept": "{0} BEFORE TRUNCATE ON head FOR EACH STATEMENT EXECUTE FUNCTION becket_refuse()",
}


def place_guards(connection: Connection) -> None:
    """Make every trigger anew: Alembic's way to change a table of SQLite copies it and loses them [-].

    Args:
        connection: inside a transaction, the tables there
    """
    if connection.dialect.name == "sqlite":
        for name, body in _SQLITE.items():
            connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS {name}")
            connection.exec_driver_sql(_sqlite_text(name, body))
        return
    connection.exec_driver_sql(_REFUSE.replace("%", "%%"))
    for name, body in _POSTGRESQL.items():
        table = name.partition("_")[0]
        connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS {name} ON {table}")
        connection.exec_driver_sql(body.format(f"CREATE TRIGGER {name}"))


def missing_guards(connection: Connection) -> tuple[str, ...]:
    """Return the names of the triggers that are gone, switched off or not ours any more, in order [-].

    Args:
        connection: to the database
    """
    if connection.dialect.name == "sqlite":
        rows = connection.execute(text("SELECT name, sql FROM sqlite_master WHERE type = 'trigger'"))
        there = {row.name: row.sql for row in rows}
        return tuple(name for name, body in _SQLITE.items() if there.get(name) != _sqlite_text(name, body))
    rows = connection.execute(
        text(
            "SELECT tgname FROM pg_trigger WHERE NOT tgisinternal AND tgenabled IN ('O', 'A') "
            "AND tgfoid = to_regproc('becket_refuse') AND tgrelid IN "
            "(to_regclass('events'), to_regclass('documents'), to_regclass('head'))"
        )
    )
    names = {name for (name,) in rows}
    return tuple(name for name in _POSTGRESQL if name not in names)


def drop_guards(connection: Connection) -> None:
    """Take every trigger away, as one does who wants to change what is kept; for tests [-].

    Args:
        connection: inside a transaction
    """
    names = _SQLITE if connection.dialect.name == "sqlite" else _POSTGRESQL
    for name in names:
        on = "" if connection.dialect.name == "sqlite" else f" ON {name.partition('_')[0]}"
        connection.exec_driver_sql(f"DROP TRIGGER IF EXISTS {name}{on}")


def _sqlite_text(name: str, body: str) -> str:
    return body.format(f"CREATE TRIGGER {name}")
