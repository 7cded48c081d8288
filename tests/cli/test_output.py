"""Standard output that takes nothing more."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

SOURCE = Path(__file__).parents[2] / "src"
FULL = Path("/dev/full")


@pytest.mark.skipif(not FULL.exists(), reason="this system has no device that is always full")
@pytest.mark.parametrize("words", [("--help",), ("falls", "--help"), ("check", "hazel-70.crane.yaml")])
def test_a_full_disk_is_one_line(demo: Path, words: tuple[str, ...]) -> None:
    with FULL.open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "becket.cli.main", *words],
            cwd=demo,
            env={**os.environ, "PYTHONPATH": str(SOURCE)},
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 2
    assert done.stderr == b"standard output: cannot be written; No space left on device\n"


def test_a_reader_that_is_gone_is_no_error_to_speak_of(demo: Path) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    done = subprocess.run(
        [sys.executable, "-m", "becket.cli.main", "check", "hazel-70.crane.yaml"],
        cwd=demo,
        env={**os.environ, "PYTHONPATH": str(SOURCE)},
        stdout=writer,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(writer)
    assert (done.returncode, done.stderr) == (1, b"")
