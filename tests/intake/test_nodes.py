"""Nodes: what stands where, nothing yet understood."""

from __future__ import annotations

from becket.intake.nodes import Pairs, Sequence, Word


def word(text: str, line: int = 1) -> Word:
    """Return a word at the beginning of a line."""
    return Word(line=line, column=1, text=text)


def test_a_key_gives_its_value_the_first_one_where_it_stands_twice() -> None:
    pairs = Pairs(line=1, column=1, pairs=[(word("mass"), word("2 t")), (word("mass", 2), word("3 t", 2))])
    found = pairs.get("mass")
    assert isinstance(found, Word)
    assert (found.text, found.line) == ("2 t", 1)


def test_a_key_that_does_not_stand_there_gives_none_and_an_empty_one_its_empty_word() -> None:
    pairs = Pairs(
        line=1, column=1, pairs=[(word("mass"), word("")), (word("list"), Sequence(line=1, column=1, items=[]))]
    )
    assert pairs.get("Mass") is None
    assert pairs.get("") is None
    assert pairs.get("mass") == word("")
    assert isinstance(pairs.get("list"), Sequence)


def test_an_empty_text_in_quotes_is_not_nothing() -> None:
    assert Word(line=1, column=1, text="", quoted=True) != word("")
