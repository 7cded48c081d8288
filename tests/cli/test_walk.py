"""The demo: its files, and every command of its walk."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

import pytest

from becket.cli.overview import COMMANDS
from becket.cli.walk import DEMO_FILES, WALK, command_line, write_demo
from becket.errors import CannotWriteError, RefusedError


def test_the_files_are_written_as_they_ship_and_a_second_time_changes_nothing(tmp_path: Path) -> None:
    for _ in range(2):
        write_demo(tmp_path / "new" / "folder")
        for name in DEMO_FILES:
            assert (tmp_path / "new" / "folder" / name).read_bytes() == (files("becket.demo") / name).read_bytes()


def test_a_file_of_the_crew_is_not_overwritten(tmp_path: Path) -> None:
    own = tmp_path / DEMO_FILES[0]
    own.write_text("mine", "utf-8")
    with pytest.raises(RefusedError) as error:
        write_demo(tmp_path)
    assert str(error.value) == f"{own}: is there and differs from the demo's; name another folder with --into"
    assert own.read_text("utf-8") == "mine"
    assert [path.name for path in tmp_path.iterdir()] == [DEMO_FILES[0]]


def test_a_place_that_takes_no_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    with pytest.raises(CannotWriteError) as error:
        write_demo(tmp_path / "file")
    assert str(error.value) == f"{tmp_path / 'file'}: cannot be written; File exists"


def test_the_walk_shows_every_command_of_the_job() -> None:
    """The phone and its records are told of at the end: the walk starts no server."""
    assert {stop.words[0] for stop in WALK} == set(COMMANDS) - {"demo", "serve", "record"}


def test_commands_are_shown_as_one_types_them() -> None:
    words = ["falls", "demo/hazel-70.crane.yaml", "--load", "12.8 t", *("--rigging", "420 kg") * 3]
    line = command_line(words, "head 3\nblock\n")
    assert line.startswith("$ becket falls demo/hazel-70.crane.yaml --load '12.8 t' ")
    assert line.endswith("\n> head 3\n> block")
    assert all(len(part) <= 80 for part in line.splitlines())
    assert all(part.endswith(" \\") for part in line.splitlines()[:-3])
