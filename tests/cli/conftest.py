"""Running the command line inside the test's own process."""

from __future__ import annotations

import io
import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from becket.cli.main import run
from becket.cli.walk import DEMO_FILES, write_demo


@dataclass(frozen=True)
class Outcome:
    """What a command left behind."""

    code: int
    out: str
    err: str

    @property
    def answer(self) -> Any:
        """The JSON object on standard output."""
        return json.loads(self.out)


Runner = Callable[..., Outcome]


@pytest.fixture
def becket(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Runner:
    """Return a function that runs ``becket`` with words and, where given, typed lines."""

    def runner(*words: object, typed: str = "") -> Outcome:
        monkeypatch.setattr("sys.stdin", io.StringIO(typed))
        code = run([str(word) for word in words])
        captured = capsys.readouterr()
        return Outcome(code, captured.out, captured.err)

    return runner


@pytest.fixture(scope="session")
def demo_source(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with the demo files, written once."""
    folder = tmp_path_factory.mktemp("demo")
    write_demo(folder)
    return folder


@pytest.fixture
def demo(demo_source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the working folder of the test, with its own copy of the demo files in it."""
    for name in DEMO_FILES:
        shutil.copy(demo_source / name, tmp_path / name)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def held_by_schema(command: str, answer: Any) -> None:
    """Assert that the answer of a command is what its published schema says."""
    schema = json.loads((files("becket.schema") / f"{command}.json").read_text(encoding="utf-8"))
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(answer)


def fits(text: str) -> None:
    """Assert that every line of an answer fits 80 columns, faults with their path aside."""
    long = [line for line in text.splitlines() if len(line) > 80]
    assert not long, long
