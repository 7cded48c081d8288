"""Words that read the same on every crane: whole, short, and without a count where a value is asked for."""

from __future__ import annotations

import re

from becket.method.step_words import CAUTIONS, WORDS

AIM = 9  # words of one instruction
MOST = 10


def instructions(text: str) -> list[str]:
    """Return the single instructions of a text [-]."""
    return [part for part in re.split(r"(?<=[.:?])\s+", text) if part]


def test_every_text_is_a_sentence() -> None:
    for kind, words in WORDS.items():
        for text in filter(None, (words.do, words.look_for)):
            assert text[0].isupper(), kind
            assert text[-1] in ".?", kind
            assert "  " not in text, kind


def test_an_instruction_is_short() -> None:
    lengths = [len(one.split()) for words in WORDS.values() for one in instructions(words.do)]
    assert max(lengths) <= MOST
    assert sum(length <= AIM for length in lengths) > 0.95 * len(lengths)


def test_what_is_entered_blind_asks_for_a_value_and_is_compared() -> None:
    for kind, words in WORDS.items():
        if words.blind:
            assert words.asks, kind
            assert words.compares, kind
            assert not re.search(r"\d", words.do), kind


def test_the_cautions_name_what_governs_and_what_to_do_when_a_change_is_broken_off() -> None:
    text = " ".join(CAUTIONS)
    for part in ("manual", "Not a load indicator", "Phones", "Wind", "stop, nobody moves", "Broken off", "state card"):
        assert part in text
    assert "hook and in the cab" in text
