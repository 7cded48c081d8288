"""Lines fit 80 columns; tables stand straight."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.cli.lines import WIDTH, listed, plain_name, table, wrapped


@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.lists(st.text(alphabet="abcdefgh %-.", min_size=1, max_size=30), max_size=40))
def test_wrapped_lines_fit_and_lose_no_word(words: list[str]) -> None:
    text = " ".join(words)
    lines = wrapped(text, "pattern: ").splitlines()
    assert all(len(line) <= WIDTH for line in lines)
    assert " ".join(lines).split() == ["pattern:", *text.split()]


def test_a_word_longer_than_the_line_is_broken_not_lost() -> None:
    lines = wrapped("x" * 200, "  ").splitlines()
    assert all(len(line) <= WIDTH for line in lines)
    assert "".join(line.strip() for line in lines) == "x" * 200


def test_words_stand_left_and_numbers_right() -> None:
    assert table(("name", "falls"), [("main", "4"), ("ball", "12")]) == "name  falls\nmain      4\nball     12"


def test_a_list_of_nothing_says_so() -> None:
    assert listed([]) == "nothing"
    assert listed([1, 2], "none") == "1, 2"


def test_names_are_written_in_words() -> None:
    assert plain_name("makers_table") == "makers table"
