"""Widths of letters are enough for a wide font; lines lose no letter."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.drawing.lettering import broken, text_width
from tests.drawing.tackles import LONG_NAME

# Advance widths at 100 px of DejaVu Sans, regular and bold, as a browser measured them: the widest common fallback.
MEASURED = {"i": (28, 35), "m": (98, 105), "W": (99, 111), "4": (64, 70), "Ш": (107, 124), "Ω": (77, 86), "−": (84, 84)}


def test_no_letter_is_wider_than_counted() -> None:
    for letter, (regular, bold) in MEASURED.items():
        assert text_width(letter, 100) >= regular
        assert text_width(letter, 100, True) >= bold


def test_a_mark_over_a_letter_takes_no_room() -> None:
    assert text_width("e\u0301", 10) == text_width("e", 10)


@given(st.text(alphabet="abcXYZ жΩ 0", max_size=80), st.floats(30, 300), st.booleans())
@settings(derandomize=True, deadline=None, max_examples=200)
def test_lines_fit_and_lose_nothing(text: str, width: float, is_bold: bool) -> None:
    """Every letter is there in its order, and each line fits or is a single letter."""
    lines = broken(text, 18, width, is_bold)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(text_width(line, 18, is_bold) <= width or len(line) == 1 for line in lines)


def test_words_stay_whole_where_they_can() -> None:
    assert broken("one two three", 10, 60) == ("one two", "three")
    assert " ".join(broken(LONG_NAME, 18, 320)) == LONG_NAME


def test_a_place_and_its_number_stay_together() -> None:
    """A space that does not break is kept."""
    assert broken("over head\u00a03", 10, 45) == ("over", "head\u00a03")
