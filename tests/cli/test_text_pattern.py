"""A pattern as text."""

from __future__ import annotations

from dataclasses import replace

from becket.book.tackle import State
from becket.cli.text_pattern import NOT_CONFIRMED, pattern_text
from becket.reeving.pattern import check_state
from tests.cli.conftest import fits
from tests.crane import invented_book, invented_settings

SETTINGS = invented_settings()


def test_every_pattern_of_a_book_fits_and_shows_its_own_path() -> None:
    book = invented_book()
    for pattern in book.patterns:
        text = pattern_text(book, check_state(book, SETTINGS, pattern.state), "metric")
        fits(text)
        shown = [line.split(maxsplit=1)[1] for line in text.splitlines() if line[:4].strip().isdigit()]
        assert shown == [str(one) for one in pattern.path]
        assert (NOT_CONFIRMED in text) is (pattern.confirmed is None)


def test_a_figure_that_is_not_known_is_a_question_mark() -> None:
    book = invented_book()
    book = replace(book, rope=replace(book.rope, torque_factor=None))
    text = pattern_text(book, check_state(book, SETTINGS, State(block="main", falls=4)), "metric")
    assert [line.split() for line in text.splitlines() if line.startswith("  twist length")] == [
        ["twist", "length", "?"]
    ]
    assert "torque_factor" in text


def test_no_pattern_no_path() -> None:
    book = invented_book()
    text = pattern_text(book, check_state(book, SETTINGS, State(block="main", falls=9)), "metric")
    assert text.startswith("Tallow 40, main:9: unknown")
    assert "Rope from the drum outward" not in text
    fits(text)
