"""``becket pattern``: a pattern of the book and its checks."""

from __future__ import annotations

from pathlib import Path

from tests.cli.conftest import Runner, fits, held_by_schema

BOOK = "hazel-70.crane.yaml"


def test_a_confirmed_pattern_one_pass_a_line(becket: Runner, demo: Path) -> None:
    outcome = becket("pattern", BOOK, "main:4")
    assert (outcome.code, outcome.err) == (0, "")
    lines = outcome.out.splitlines()
    assert lines[0] == "Hazel 70, main:4: pass"
    assert lines[2].startswith("Typed by AK, 2026-09-14. Confirmed by RS, ")
    assert lines[5:10] == [
        "   1  head 2",
        "   2  block 1",
        "   3  head 3",
        "   4  block 3",
        "      dead end: head right",
    ]
    fits(outcome.out)


def test_json(becket: Runner, demo: Path) -> None:
    for state in ("ball:1", "main:2", "main:3", "main:4", "main:5", "main:6", "main:7"):
        held_by_schema("pattern", becket("pattern", BOOK, state, "--json").answer)
    answer = becket("pattern", BOOK, "main:4", "--json").answer
    assert answer["head_sheaves"] == [2, 3]
    assert answer["block_sheaves"] == [1, 3]
    assert answer["dead_end"] == "head right"
    assert answer["confirmed"]["seal_matches"] is True


def test_not_confirmed_is_said_in_capitals(becket: Runner, demo: Path) -> None:
    outcome = becket("pattern", BOOK, "main:5")
    assert outcome.code == 1
    assert "NOT CONFIRMED AGAINST THE MANUAL" in outcome.out


def test_one_changed_letter_and_it_is_not_confirmed(becket: Runner, demo: Path) -> None:
    book = demo / BOOK
    book.write_text(
        book.read_text("utf-8").replace("head 2 block 1 head 3 block 3, d", "head 2 block 1 head 4 block 3, d")
    )
    outcome = becket("pattern", BOOK, "main:4")
    assert outcome.code == 1
    told = "NOT CONFIRMED AGAINST THE MANUAL: what RS, "
    assert told in " ".join(outcome.out.split())
    answer = becket("pattern", BOOK, "main:4", "--json").answer
    assert answer["confirmed"]["seal_matches"] is False


def test_not_on_file_shows_no_path_and_names_no_sheave(becket: Runner, demo: Path) -> None:
    outcome = becket("pattern", BOOK, "main:7")
    assert outcome.code == 1
    assert outcome.out.startswith("Hazel 70, main:7: unknown\n")
    assert "head " not in outcome.out.split("On file:")[0].replace("head sheave", "")
    assert "On file: ball:1, main:2, main:3, main:4, main:5, main:6." in outcome.out
