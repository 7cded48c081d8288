"""The window card."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.cards.window_card import Signed, in_words, window_card
from becket.errors import NotOnFileError
from becket.reeving.pattern import find_pattern
from becket.reeving.seal import seal_of
from tests.cards.hard_books import NAMES, long_names
from tests.cards.reading import page_sizes, page_texts, qr_text, whole_text
from tests.crane import invented_book, invented_settings

DAY = "2026-11-30"
SIGNED = Signed(
    falls=4, setting=4, wraps_left=66.9, limit_tried=1.239, rope_length=172.4, rigged_at="2026-11-30 15:31, Depot road"
)


def test_blank_it_holds_no_figure_that_somebody_has_to_sign() -> None:
    book = invented_book()
    text = whole_text(window_card(book, invented_settings(), "main", printed=DAY))
    for known in (DAY, book.fingerprint, book.crane, book.serial, book.manual_issue, "480 kg", "least 3"):
        assert known is not None
        text = text.replace(known, "")
    assert not re.search(r"becket .*\d", text) or "becket 0." in text
    assert not re.findall(r"\d", text.split("becket")[0])
    for words in ("falls now", "indicator set to", "rigger, name", "operator, name", "date, time, place"):
        assert words in text


def test_what_two_signed_stands_on_it_rounded_to_the_safe_side() -> None:
    text = whole_text(window_card(invented_book(), invented_settings(), "main", printed=DAY, signed=SIGNED))
    for words in ("4", "FOUR", "66", "least 3", "1.23 m", "172.40 m", "2026-11-30 15:31, Depot road"):
        assert words in text
    assert "67" not in text.replace(invented_book().fingerprint, "")


def test_nobody_is_named_in_print() -> None:
    book = invented_book()
    text = whole_text(window_card(book, invented_settings(), "main", printed=DAY, signed=SIGNED))
    people = {one.typed.by for one in book.patterns if one.typed} | {
        one.confirmed.by for one in book.patterns if one.confirmed
    }
    assert people
    assert not any(re.search(rf"\b{re.escape(name)}\b", text) for name in people)


def test_the_card_says_when_not_to_lift_and_when_it_comes_down() -> None:
    text = whole_text(window_card(invented_book(), invented_settings(), "main", printed=DAY))
    assert "Count, setting and block must agree with this card. If not: do not lift." in text
    assert "Take this card down when the first keeper comes out." in text
    assert "competent persons on site govern. This card is not a load indicator." in text


def test_it_is_one_a5_page_lying_whatever_the_names() -> None:
    for name in NAMES:
        pdf = window_card(long_names(name), invented_settings(), "main", printed=DAY, signed=SIGNED, system="us")
        assert page_sizes(pdf) == [(210, 148)]
        assert name.replace(" ", "") in page_texts(pdf)[0].replace(" ", "")


def test_a_block_that_is_not_in_the_book_is_refused() -> None:
    with pytest.raises(NotOnFileError, match="block: auxiliary is not in the book"):
        window_card(invented_book(), invented_settings(), "auxiliary", printed=DAY)


def test_numbers_are_said_a_second_time_in_words() -> None:
    assert [in_words(n) for n in (1, 12, 20, 30)] == ["ONE", "TWELVE", "TWENTY", "THREE ZERO"]


@pytest.mark.browser
def test_the_code_leads_to_the_record_that_was_signed(tmp_path: Path) -> None:
    book = invented_book()
    blank = window_card(book, invented_settings(), "main", printed=DAY)
    assert qr_text(blank, tmp_path) == f"BECKET/1/WINDOW/{book.fingerprint.upper()}"
    pattern = find_pattern(book, State(block="main", falls=4))
    assert pattern is not None
    signed = window_card(book, invented_settings(), "main", printed=DAY, signed=SIGNED)
    assert qr_text(signed, tmp_path) == f"BECKET/1/WINDOW/4/{seal_of(book, pattern).upper()}/{book.fingerprint.upper()}"
