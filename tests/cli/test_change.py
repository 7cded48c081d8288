"""``becket change``: from one reeving to another."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Runner, fits, held_by_schema

BOOK = "hazel-70.crane.yaml"
SITE = (
    "--counterweight",
    "12 t",
    "--outriggers",
    "full",
    "--free-radius",
    "40 m",
    "--ground",
    "0 m",
    "--slope",
    "0 deg",
)


@pytest.mark.parametrize(("before", "after"), [("main:2", "main:4"), ("main:4", "main:2"), ("main:4", "main:6")])
def test_a_change_that_can_be_used(becket: Runner, demo: Path, before: str, after: str) -> None:
    outcome = becket("change", BOOK, before, after, *SITE)
    assert (outcome.code, outcome.err) == (0, "")
    assert "NOT FOR USE" not in outcome.out
    for head in ("Position", "Rope to leave", "Rope", "On the way down and up, winch locked", "Steps", "Rules"):
        assert any(line.startswith(head) for line in outcome.out.splitlines()), head
    fits(outcome.out)
    answer = becket("change", BOOK, before, after, *SITE, "--json").answer
    held_by_schema("change", answer)
    assert answer["verdict"] == "pass"
    assert answer["steps"]
    assert {rule["verdict"] for rule in answer["rules"]} == {"pass"}


def test_not_confirmed_is_not_for_use(becket: Runner, demo: Path) -> None:
    outcome = becket("change", BOOK, "main:4", "main:5", *SITE)
    assert outcome.code == 1
    head = outcome.out.split("\n\n")[0]
    assert "NOT FOR USE" in head
    assert "NOT CONFIRMED AGAINST THE MANUAL" in head
    held_by_schema("change", becket("change", BOOK, "main:4", "main:5", *SITE, "--json").answer)


def test_no_room_says_how_much_is_missing(becket: Runner, demo: Path) -> None:
    outcome = becket("change", BOOK, "main:2", "main:4", *SITE[:4], "--free-radius", "9 m")
    assert outcome.code == 1
    assert "NOT FOR USE" in outcome.out
    assert "No position" in outcome.out
    assert " m are missing" in " ".join(outcome.out.split())
    answer = becket("change", BOOK, "main:2", "main:4", *SITE[:4], "--free-radius", "9 m", "--json").answer
    held_by_schema("change", answer)
    assert answer["position"] is None
    assert " m are missing" in answer["why_no_position"]


def test_what_is_fitted_is_asked_for(becket: Runner, demo: Path) -> None:
    outcome = becket("change", BOOK, "main:2", "main:4")
    assert outcome.code == 1
    assert "counterweight" in outcome.out
    held_by_schema("change", becket("change", BOOK, "main:2", "main:4", "--json").answer)


@pytest.mark.parametrize(
    ("words", "line"),
    [
        (("main:2", "main:4", "-o", "sheet.txt"), 'sheet.txt: ends in ".txt"; .pdf or .svg is wanted'),
        (("main:2", "mian:4"), 'block: "mian" is not in the book; nearest: "main"'),
        (("main:2", "main:4", "--outriggers", "ful"), 'outriggers: "ful" is not in the book; nearest: "full"'),
        (("main:2", "main:4", "--sector", "raer"), 'sector: "raer" is not in the book; nearest: "rear"'),
    ],
)
def test_slips_are_one_line(becket: Runner, demo: Path, words: tuple[str, ...], line: str) -> None:
    outcome = becket("change", BOOK, *words)
    assert (outcome.code, outcome.out, outcome.err) == (2, "", line + "\n")
    assert not list(demo.glob("sheet.*"))
