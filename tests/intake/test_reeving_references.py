"""Keepers and patterns: what they name is on the crane, and the second person is another one."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.intake.reading import book_messages, book_of
from tests.intake.texts import BOOK, altered

TYPED = "    typed: {by: AB, date: 2025-01-05}\n"
SECOND = "another person confirms, from the page of the manual"


def confirmed(by: str, typed: str = "AB") -> str:
    """Return the invented book with its second pattern typed and confirmed."""
    lines = f"    typed: {{by: {typed}, date: 2025-01-05}}\n    confirmed: {{by: {by}, date: 2025-01-06}}\n"
    return altered(BOOK, (TYPED, lines))


def test_a_second_person(tmp_path: Path) -> None:
    pattern = book_of(tmp_path, confirmed("CD")).book.patterns[1]
    assert pattern.confirmed is not None
    assert pattern.confirmed.by == "CD"


@pytest.mark.parametrize(
    ("typed", "by"), [("J. Marsh", "j. marsh"), ("J. Marsh", "J.  MARSH"), ("J. Marsh", "J.Marsh")]
)
def test_capitals_and_spaces_do_not_make_two_persons_of_one(typed: str, by: str, tmp_path: Path) -> None:
    assert book_messages(tmp_path, confirmed(by, typed)) == [
        f"89:16: patterns[1].confirmed: {by} typed this pattern too; {SECOND}"
    ]


@pytest.mark.parametrize(
    ("typed", "by", "fault"),
    [
        ("[AB]", "AB", "88:17: patterns[1].typed.by: a list stands there; a line of text"),
        ("AB", "[AB]", "89:21: patterns[1].confirmed.by: a list stands there; a line of text"),
        ("''", "AB", '88:17: patterns[1].typed.by: ""; a line of text that can be printed'),
    ],
)
def test_a_name_that_cannot_be_read_is_the_one_fault(typed: str, by: str, fault: str, tmp_path: Path) -> None:
    assert book_messages(tmp_path, confirmed(by, typed)) == [fault]


def test_a_typist_without_a_name(tmp_path: Path) -> None:
    text = altered(confirmed("AB"), ("typed: {by: AB, date: 2025-01-05}\n", "typed: {date: 2025-01-05}\n"))
    assert book_messages(tmp_path, text) == ["88:12: patterns[1].typed.by: is missing; a line of text"]


@pytest.mark.parametrize(
    "change",
    [
        ("sheaves: {1: -0.1 m", "sheaves: {1: -0.1"),  # the block's sheaves
        ("sheaves: {1: -0.2 m", "sheaves: {1: -0.2"),  # the head's
        ("right: {side: 0.1 m", "right: {side: 0.1"),  # an anchor
        ("    rated: 25 t", "    rated: 25"),  # another figure of the block
    ],
)
def test_what_a_slip_keeps_from_being_known_is_not_missed(change: tuple[str, str], tmp_path: Path) -> None:
    assert len(book_messages(tmp_path, altered(BOOK, change))) == 1


def test_without_blocks_no_block_is_missed(tmp_path: Path) -> None:
    messages = book_messages(tmp_path, altered(BOOK, ("blocks:\n", "blocs:\n")))
    assert messages == ['54:1: blocs: "blocs" is not a key here; did you mean "blocks"?']


def test_every_sheave_and_pass_that_is_not_there_is_named(tmp_path: Path) -> None:
    path = ("path: head 1, block 1, head 2", "path: head 9, block 8, head 2")
    text = altered(BOOK, ("holds: [1, 2, 3]", "holds: [7, 2, 8]"), path)
    assert [line.split("; ")[0].split(": ", 1)[1] for line in book_messages(tmp_path, text)] == [
        "keepers[0].holds[0]: there is no sheave 7 at the head",
        "keepers[0].holds[2]: there is no sheave 8 at the head",
        "patterns[1].path: there is no sheave 8 at the block hook",
        "patterns[1].path: there is no sheave 9 at the head",
    ]


def test_a_keeper_that_is_no_keeper_does_not_shift_the_others(tmp_path: Path) -> None:
    text = altered(BOOK, ("keepers:\n", "keepers:\n  - pin\n"), ("at: block hook", "at: block hok"))
    assert [line.split(": ")[1] for line in book_messages(tmp_path, text)] == ["keepers[0]", "keepers[2].at"]


def test_a_pattern_whose_falls_cannot_be_read_is_not_called_a_second_one(tmp_path: Path) -> None:
    text = altered(BOOK, ("{block: hook, falls: 2,", "{block: hook, falls: two,"), ("falls: 3\n", "falls: three\n"))
    assert [line.split(": ")[1] for line in book_messages(tmp_path, text)] == ["patterns[0].falls", "patterns[1].falls"]


def test_a_dead_end_at_the_block_names_no_anchor(tmp_path: Path) -> None:
    text = altered(BOOK, ("dead_end: head right", "dead_end: block"))
    assert book_of(tmp_path, text).book.patterns[0].dead_end == "block"
