"""``becket check``: faults on standard output, findings, or good."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.cli.overview import GOVERNS
from tests.cli.conftest import Runner, held_by_schema

BOOK, JOBS = "hazel-70.crane.yaml", "hazel-70.jobs.yaml"


def changed(path: Path, old: str, new: str) -> None:
    """Write one change into a file."""
    text = path.read_text("utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), "utf-8")


@pytest.mark.parametrize("words", [(BOOK, JOBS), (BOOK,), ("rowan-30.crane.yaml", "rowan-30.jobs.csv")])
def test_the_demo_files_are_good(becket: Runner, demo: Path, words: tuple[str, ...]) -> None:
    outcome = becket("check", *words)
    assert (outcome.code, outcome.err) == (0, "")
    assert " ".join(outcome.out.split()) == f"good {GOVERNS}"
    answer = becket("check", *words, "--json").answer
    held_by_schema("check", answer)
    assert answer == {"verdict": "pass", "faults": [], "findings": []}


def test_every_fault_of_both_files_in_one_run_sorted_by_place(becket: Runner, demo: Path) -> None:
    changed(demo / BOOK, "guide_sheaves: 0", "guide_sheafs: 0")
    changed(demo / BOOK, "rated: 36 t", "rated: 36 ton")
    changed(demo / JOBS, "load_basis: drawing", "load_basis: drawn")
    outcome = becket("check", BOOK, JOBS)
    assert (outcome.code, outcome.err) == (2, "")
    lines = outcome.out.splitlines()
    assert lines[0].startswith(f"{BOOK}:")
    assert '"guide_sheafs"' in lines[0]
    assert "guide_sheaves" in lines[0].split(";", 1)[1]
    assert "36 ton" in lines[1]
    assert lines[2].startswith(f"{JOBS}:")
    assert "3 faults, 0 findings." in lines
    answer = becket("check", BOOK, JOBS, "--json").answer
    held_by_schema("check", answer)
    assert [(fault["file"], bool(fault["line"])) for fault in answer["faults"]] == [(BOOK, True)] * 2 + [(JOBS, True)]


def test_figures_that_contradict_each_other_are_findings_with_both_places(becket: Runner, demo: Path) -> None:
    changed(demo / BOOK, "4: 24.0 t", "4: 34.0 t")
    outcome = becket("check", BOOK)
    assert (outcome.code, outcome.err) == (1, "")
    assert "FINDING  " in outcome.out
    answer = becket("check", BOOK, "--json").answer
    held_by_schema("check", answer)
    assert answer["findings"]
    assert all(len(finding["places"]) >= 2 for finding in answer["findings"])


HOSTILE = {
    "empty": (b"", "is empty"),
    "binary": (bytes(range(256)) * 40, ""),
    "alias bomb": (b"a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n", ""),
    "tag": (b"!!python/object/apply:os.system [ls]\n", ""),
    "deep": (b"a: " + b"[" * 5000 + b"]" * 5000 + b"\n", ""),
    "not a mapping": (b"- 1\n- 2\n", ""),
    "tabs": (b"boom:\n\tfoot: 1\n", ""),
    "control characters": (b'a: "\\x1b[2J"\n', ""),
    "half a surrogate": (b"a: \xed\xa0\x80\n", ""),
}


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("command", ["check", "falls"])
def test_a_hostile_file_is_refused_in_clear_lines(becket: Runner, demo: Path, name: str, command: str) -> None:
    content, told = HOSTILE[name]
    path = demo / "hostile.yaml"
    path.write_bytes(content)
    more = ("--block", "main", "--load", "1 t", "--boom", "20.4 m") if command == "falls" else ()
    outcome = becket(command, path.name, *more)
    assert outcome.code == 2
    said = outcome.out if command == "check" else outcome.err
    assert said.startswith("hostile.yaml:")
    assert told in said
    assert "Traceback" not in outcome.out + outcome.err
    assert "\x1b" not in outcome.out + outcome.err


def test_a_file_over_the_limit_is_refused_without_being_read(becket: Runner, demo: Path) -> None:
    path = demo / "huge.yaml"
    with path.open("wb") as file:
        file.truncate(100_000_000)
    outcome = becket("check", path.name)
    assert outcome.code == 2
    assert outcome.out.startswith("huge.yaml:0:0: file: ")
