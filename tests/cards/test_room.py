"""Room on paper: no word outside the page, no word over another, nothing cut off.

Measured on the printed page by Debian's poppler-utils, which knows nothing of how the card was made.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.cards.change_sheet import change_sheet
from becket.cards.count_slip import count_slip
from becket.cards.falls_card import falls_card
from becket.cards.pattern_card import pattern_card
from becket.cards.window_card import Signed, window_card
from becket.method.change import work_out_change
from becket.method.site import Site
from tests.cards.hard_books import NAMES, bare_book, long_names, sixteen_falls
from tests.cards.reading import Word, words_with_boxes
from tests.crane import invented_book, invented_settings

DAY = "2026-11-30"
pytestmark = pytest.mark.browser

EDGE = 7 / 25.4 * 72  # least margin of a card [pt]
FULL = Signed(falls=16, setting=16, wraps_left=123.0, limit_tried=1.2, rope_length=1234.5, rigged_at=NAMES[0])


def _cards() -> dict[str, bytes]:
    settings, book = invented_settings(), invented_book()
    cards = {f"pattern {one.state}": pattern_card(book, settings, one, printed=DAY) for one in book.patterns}
    hard = sixteen_falls()
    cards["sixteen falls"] = pattern_card(hard, settings, hard.patterns[0], printed=DAY)
    cards["bare"] = pattern_card(bare_book(), settings, bare_book().patterns[-1], printed=DAY)
    cards["count"] = count_slip(printed=DAY)
    cards["window"] = window_card(book, settings, "main", printed=DAY)
    cards["falls"] = falls_card(bare_book(), settings, "main", printed=DAY, system="us")
    two, four = State(block="main", falls=2), State(block="main", falls=4)
    for number, name in enumerate(NAMES):
        long = long_names(name, confirmed=number % 2 == 0)
        cards[f"pattern, {name}"] = pattern_card(long, settings, long.patterns[-1], printed=DAY, system="us")
        cards[f"window, {name}"] = window_card(long, settings, "main", printed=DAY, system="us", signed=FULL)
    site = Site(counterweight=book.rereeve[0].counterweight, outriggers=book.rereeve[0].outriggers)
    long = long_names(NAMES[3], confirmed=False)
    cards["change"] = change_sheet(long, work_out_change(long, settings, two, four, site), printed=DAY, system="us")
    return cards


@pytest.fixture(scope="module")
def read(tmp_path_factory: pytest.TempPathFactory) -> dict[str, tuple[list[Word], list[tuple[float, float]]]]:
    """Return words and page sizes of every card."""
    folder: Path = tmp_path_factory.mktemp("room")
    return {name: words_with_boxes(pdf, folder) for name, pdf in _cards().items()}


def test_every_word_is_inside_the_margin(read: dict[str, tuple[list[Word], list[tuple[float, float]]]]) -> None:
    outside = []
    for name, (words, sizes) in read.items():
        for word in words:
            width, height = sizes[word.page - 1]
            edge = EDGE - 1
            top, bottom = _letters(word)
            inside = (
                edge <= word.left and word.right <= width - edge and top >= EDGE - 3 and bottom <= height - EDGE + 1
            )
            if not inside:
                outside.append((name, word.page, word.text, word.left, word.right, top, bottom))
    assert not outside, outside[:6]


def test_no_word_stands_over_another(read: dict[str, tuple[list[Word], list[tuple[float, float]]]]) -> None:
    over = []
    for name, (words, _) in read.items():
        waiting: list[Word] = []
        for word in sorted(words, key=lambda one: (one.page, one.top)):
            waiting = [one for one in waiting if one.page == word.page and one.bottom > word.top]
            over += [(name, one.text, word.text) for one in waiting if _shared(one, word) > 0.12]
            waiting.append(word)
    assert over == []


def _shared(a: Word, b: Word) -> float:
    """The part of the smaller word's letters that lies in the other's. Boxes hold room over and under letters."""
    (at, ab), (bt, bb) = _letters(a), _letters(b)
    width = min(a.right, b.right) - max(a.left, b.left)
    height = min(ab, bb) - max(at, bt)
    if width <= 0 or height <= 0:
        return 0.0
    return width * height / min((a.right - a.left) * (ab - at), (b.right - b.left) * (bb - bt))


def _letters(word: Word) -> tuple[float, float]:
    height = word.bottom - word.top
    return word.top + 0.2 * height, word.bottom - 0.2 * height
