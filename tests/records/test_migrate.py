"""The tables come to the newest version once, whole or not at all; what is not ours is not touched."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import inspect, text

from becket.errors import BecketError, BrokenStoreError
from becket.records import migrate
from becket.records.database import Database
from becket.records.guards import missing_guards
from becket.records.migrate import NEWEST, STEPS, run_steps
from becket.records.store import Store
from becket.records.tables import VERSION_TABLE, metadata
from becket.records.verify import verify
from tests.records.invented import NOON, some

STEP = """
import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade():
    with op.batch_alter_table("events", recreate="always") as batch:
        batch.add_column(sa.Column("extra", sa.Text))
"""
BAD_STEP = STEP + '    op.execute("SELECT nothing FROM nowhere")\n'


def names(store: Store) -> set[str]:
    """Return the tables that are there."""
    with store.database.reading() as connection:
        return set(inspect(connection).get_table_names())


def test_the_number_of_the_newest_step_is_that_of_the_files() -> None:
    script = ScriptDirectory(str(STEPS))
    assert script.get_heads() == [NEWEST]
    assert [step.revision for step in script.walk_revisions()] == [f"{n:04}" for n in range(int(NEWEST), 0, -1)]


def test_the_steps_make_the_tables_that_the_code_speaks_of(store: Store) -> None:
    assert names(store) == {"events", "head", "documents", VERSION_TABLE}
    with store.database.reading() as connection:
        context = MigrationContext.configure(connection, opts={"version_table": VERSION_TABLE})
        unlike = [one for one in compare_metadata(context, metadata) if one[0] != "remove_index"]
        assert unlike == []
        for table in metadata.sorted_tables:
            there = [column["name"] for column in inspect(connection).get_columns(table.name)]
            assert there == [column.name for column in table.columns]
        indexes = {one["name"] for one in inspect(connection).get_indexes("events")}
        assert {"events_of_crane", "events_of_run"} <= indexes


def step_in(folder: Path, text: str) -> Path:
    """Return a copy of the steps with one more."""
    target = folder / "steps" / "versions"
    target.mkdir(parents=True)
    for path in (STEPS / "versions").glob("v*.py"):
        (target / path.name).write_text(path.read_text())
    (target / "v0002_more.py").write_text(text)
    return folder / "steps"


def newer(monkeypatch: pytest.MonkeyPatch, steps: Path) -> None:
    """Let the code know one step more."""
    monkeypatch.setattr(migrate, "NEWEST", "0002")
    monkeypatch.setattr(migrate, "run_steps", lambda connection: run_steps(connection, steps))


def test_a_later_step_keeps_everything_and_the_guards_are_back(
    url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with Store.open(url) as store:
        store.append(some(1, 3), NOON)
        kept = store.read(None)
    newer(monkeypatch, step_in(tmp_path, STEP))
    with pytest.raises(BrokenStoreError, match=r"is of an older becket\. Start becket serve once; it is brought up\."):
        Store.look(url)
    with Store.open(url) as store:
        assert store.read(None) == kept
        assert verify(store).is_whole
        with store.database.reading() as connection:
            assert missing_guards(connection) == ()
            assert "extra" in {column["name"] for column in inspect(connection).get_columns("events")}
    monkeypatch.undo()
    with pytest.raises(BrokenStoreError) as raised:
        Store.open(url)
    assert str(raised.value).endswith("is of a newer becket (version 0002, this one knows 0001). Use the newer becket.")


def test_a_step_that_does_not_put_the_guards_back_is_found_and_undone(
    url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Store.open(url).close()
    newer(monkeypatch, step_in(tmp_path, STEP))
    monkeypatch.setattr(migrate, "place_guards", lambda connection: None)
    with pytest.raises(BrokenStoreError, match="the guards against change are gone: events_stay"):
        Store.open(url)
    monkeypatch.undo()
    Store.open(url).close()  # still of the version before, and whole


def test_a_step_that_fails_leaves_nothing_behind(url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with Store.open(url) as store:
        store.append(some(1, 3), NOON)
        kept = store.read(None)
    newer(monkeypatch, step_in(tmp_path, BAD_STEP))
    with pytest.raises(Exception, match="nowhere"):
        Store.open(url)
    monkeypatch.undo()
    with Store.open(url) as store:
        assert store.read(None) == kept
        assert verify(store).is_whole


OPEN = """
import sys
from becket.records.store import Store
with Store.open(sys.argv[1]) as store:
    print(store.head().number)
"""


def test_many_processes_that_open_an_empty_database_at_once_make_it_once(url: str) -> None:
    many = [
        subprocess.Popen([sys.executable, "-c", OPEN, url], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for _ in range(4)
    ]
    said = [process.communicate(timeout=60) for process in many]
    assert [one for one in said if one != ("0\n", "")] == []
    with Store.open(url) as store:
        assert verify(store).is_whole


def test_a_database_of_another_program_is_not_touched(url: str) -> None:
    database = Database(url)
    table = "strange" if database.is_sqlite else "documents"
    with database.writing() as connection:
        connection.execute(text(f"CREATE TABLE {table} (a TEXT)"))
    for way in (Store.open, Store.look):
        with pytest.raises(BrokenStoreError) as raised:
            way(url)
        assert str(raised.value) == (
            f"{database.place}: is a database of another program (tables {table}). Name another."
        )
    with database.reading() as connection:
        assert inspect(connection).get_table_names() == [table]
    database.close()


def test_looking_makes_nothing(url: str) -> None:
    if not url.startswith("postgresql"):
        sqlite3.connect(url).close()
        Path(url).touch()
    with pytest.raises(BecketError, match=r"holds no records of becket\. Name the file that does\."):
        Store.look(url)
    database = Database(url)
    with database.reading() as connection:
        assert inspect(connection).get_table_names() == []
    database.close()


def test_the_help_of_the_program_needs_neither_sqlalchemy_nor_alembic() -> None:
    code = "import sys; from becket.cli.main import run; run(['--help']); run(['check', '--help']); "
    code += "assert not {'sqlalchemy', 'alembic', 'psycopg'} & set(sys.modules), 'loaded'"
    subprocess.run([sys.executable, "-c", code], check=True, capture_output=True)


def test_a_database_that_is_up_to_date_opens_without_alembic(url: str) -> None:
    Store.open(url).close()
    code = OPEN + "assert 'alembic' not in sys.modules, 'loaded'"
    subprocess.run([sys.executable, "-c", code, url], check=True, capture_output=True)
