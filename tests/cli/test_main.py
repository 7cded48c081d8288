"""The program as a process of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from becket.cli.overview import overview
from tests.cli.conftest import Runner

SOURCE = Path(__file__).parents[2] / "src"


def becket_process(*words: str, folder: Path, **more: str) -> subprocess.CompletedProcess[bytes]:
    """Return what ``python -m becket.cli.main`` left behind."""
    return subprocess.run(
        [sys.executable, "-m", "becket.cli.main", *words],
        cwd=folder,
        env={**os.environ, "PYTHONPATH": str(SOURCE), **more},
        capture_output=True,
        check=False,
        timeout=60,
    )


@pytest.mark.parametrize("words", [(), ("--help",), ("-h",), ("help",)])
def test_bare_help_in_every_spelling(becket: Runner, words: tuple[str, ...]) -> None:
    outcome = becket(*words)
    assert (outcome.code, outcome.out, outcome.err) == (0, overview() + "\n", "")


def test_bare_help_needs_no_library(tmp_path: Path) -> None:
    probe = "import sys; from becket.cli.main import run; run(['--help']); sys.exit('click' in sys.modules)"
    done = subprocess.run(
        [sys.executable, "-c", probe], env={**os.environ, "PYTHONPATH": str(SOURCE)}, capture_output=True, check=False
    )
    assert done.returncode == 0, done.stderr


def test_a_process_of_its_own_answers_with_its_exit_code(demo: Path) -> None:
    good = becket_process("check", "hazel-70.crane.yaml", "hazel-70.jobs.yaml", folder=demo)
    assert (good.returncode, good.stderr) == (0, b"")
    assert good.stdout.startswith(b"good\n")
    bad = becket_process("check", "nothing.yaml", folder=demo)
    assert bad.returncode == 2
    assert b"Traceback" not in bad.stderr + bad.stdout


def test_a_terminal_that_knows_ascii_only_gets_ascii(demo: Path) -> None:
    book = demo / "hazel-70.crane.yaml"
    book.write_text(book.read_text(encoding="utf-8").replace("name: Hazel 70", "name: Hasel Größe 70"), "utf-8")
    done = becket_process("pattern", book.name, "main:2", folder=demo, PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert done.returncode in (0, 1), done.stderr
    assert b"Gr\\xf6\\xdfe" in done.stdout


def test_a_reader_that_goes_away_ends_the_program_quietly(demo: Path) -> None:
    script = f"{sys.executable} -m becket.cli.main check hazel-70.crane.yaml | true; echo ${{PIPESTATUS[0]}}"
    done = subprocess.run(
        ["bash", "-c", script],
        cwd=demo,
        env={**os.environ, "PYTHONPATH": str(SOURCE)},
        capture_output=True,
        check=False,
    )
    assert b"Traceback" not in done.stderr
    assert b"Broken" not in done.stderr
