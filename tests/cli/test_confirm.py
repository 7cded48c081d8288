"""``becket confirm``: blind, and nothing written unless both readings agree."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Runner, fits, held_by_schema

BOOK = "hazel-70.crane.yaml"
RIGHT = "head 2, block 1, head 3, block 3, head 4\nblock\n"
WRONG = "head 2, block 1, head 4, block 3, head 3\nblock\n"


def test_both_agree_and_only_the_confirmation_is_written(becket: Runner, demo: Path) -> None:
    before = (demo / BOOK).read_text("utf-8")
    outcome = becket("confirm", BOOK, "main:5", "--by", "RS", typed=RIGHT)
    assert outcome.code == 0
    assert outcome.out.startswith("Same as typed. main:5 is confirmed, seal ")
    after = (demo / BOOK).read_text("utf-8")
    changed = [(old, new) for old, new in zip(before.splitlines(), after.splitlines(), strict=True) if old != new]
    assert len(changed) == 1
    assert changed[0][1].startswith(changed[0][0].rstrip("}") + "}, confirmed: {by: RS, date: ")
    assert becket("pattern", BOOK, "main:5", "--json").answer["confirmed"]["seal_matches"] is True


@pytest.mark.parametrize("as_json", [(), ("--json",)])
def test_a_difference_shows_both_and_writes_nothing(becket: Runner, demo: Path, as_json: tuple[str, ...]) -> None:
    before = (demo / BOOK).read_bytes()
    outcome = becket("confirm", BOOK, "main:5", "--by", "RS", *as_json, typed=WRONG)
    assert outcome.code == 1
    assert (demo / BOOK).read_bytes() == before
    if as_json:
        held_by_schema("confirm", outcome.answer)
        assert outcome.answer["sealed"] is False
    else:
        typed, read = outcome.out.splitlines()[1:3]
        assert typed == "typed first: head 2, block 1, head 3, block 3, head 4, dead end block"
        assert read == "read now:    head 2, block 1, head 4, block 3, head 3, dead end block"
        fits(outcome.out)


def test_nothing_of_what_was_typed_is_shown_before_the_second_reading_is_whole(becket: Runner, demo: Path) -> None:
    for typed in ("", "head 2, block 1\n"):
        outcome = becket("confirm", BOOK, "main:5", "--by", "RS", typed=typed)
        assert (outcome.code, outcome.out) == (2, "")
        assert "head 3" not in outcome.err
        assert outcome.err.splitlines()[-1] == "standard input: ended; two lines: path, dead end"


@pytest.mark.parametrize(
    ("words", "typed", "line"),
    [
        (
            ("main:5", "--by", "AK"),
            RIGHT,
            "AK typed pattern main:5; another person reads the page and confirms",
        ),
        (
            ("main:5", "--by", " "),
            RIGHT,
            "no name that can be printed; the name of the person who reads the page now",
        ),
        (
            ("main:7", "--by", "RS"),
            RIGHT,
            "pattern main:7 is not on file; patterns on file: ball:1, main:2, main:3, main:4, main:5, main:6. "
            "Type it from the manual first",
        ),
        (
            ("main:5", "--by", "RS"),
            "head two\nblock\n",
            'path "head two": cannot read "head two"; a path such as "head 3, block 3, head 5, block 5" is wanted, '
            "rope from the drum outward",
        ),
        (
            ("main:5", "--by", "RS"),
            "head 2\nblokc\n",
            'dead end "blokc"; "block", or "head" with the name of its anchor such as "head b", is wanted',
        ),
    ],
)
def test_refusals_are_one_line_and_write_nothing(
    becket: Runner, demo: Path, words: tuple[str, ...], typed: str, line: str
) -> None:
    before = (demo / BOOK).read_bytes()
    outcome = becket("confirm", BOOK, *words, typed=typed)
    assert (outcome.code, outcome.out) == (2, "")
    assert outcome.err.splitlines()[-1] == line
    assert (demo / BOOK).read_bytes() == before


def test_the_typist_is_refused_before_anything_is_asked(becket: Runner, demo: Path) -> None:
    outcome = becket("confirm", BOOK, "main:5", "--by", "AK", typed="")
    assert outcome.code == 2
    assert outcome.out == ""
    assert outcome.err == "AK typed pattern main:5; another person reads the page and confirms\n"
