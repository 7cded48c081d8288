"""The page of a pattern: state of confirmation, both views, path, keepers, every check."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from xml.etree import ElementTree

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.drawing.hatch import NOT_CONFIRMED
from becket.pack.pattern_section import pattern_section
from becket.reeving.pattern import check_pattern
from tests.crane import invented_book, invented_settings

SETTINGS = invented_settings()


def section(book: Book, pattern: Pattern) -> str:
    """Return the page, and see that it is whole as markup."""
    html = pattern_section(book, SETTINGS, pattern, 3, "metric")
    ElementTree.fromstring(html)
    return html


def words_of(html: str) -> str:
    """Return what is read."""
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", html)).split())


def test_every_check_and_pass_is_there() -> None:
    book = invented_book()
    for pattern in book.patterns:
        html = section(book, pattern)
        text = words_of(html)
        assert html.startswith('<section id="pattern-3">')
        assert html.count("<svg") == 2
        assert "Seen from the cab" in text
        assert "You face the cab" in text
        for finding in check_pattern(book, SETTINGS, pattern, None, None).findings:
            assert " ".join(finding.why.split()) in text
        for one in pattern.path:
            assert f"<b>{one}</b>" in html
        assert f"dead end: {pattern.dead_end}" in text
        assert f"Manual page {pattern.page}." in text


def test_the_state_of_confirmation_stands_above_the_picture_and_in_it() -> None:
    book = invented_book()
    confirmed, open_one = book.patterns[4], book.patterns[5]
    assert "NOT CONFIRMED" not in section(book, confirmed)
    assert "Confirmed by CD, 2025-02-04." in section(book, confirmed)
    html = section(book, open_one)
    assert html.index(f'<p class="hatch">{NOT_CONFIRMED}</p>') < html.index("<svg")
    assert words_of(html).count("NOT CONFIRMED") >= 5  # on the page, above and below each view
    assert "Confirmed by nobody." in html


def test_a_seal_that_does_not_match_is_no_confirmation() -> None:
    book = invented_book()
    pattern = book.patterns[4]
    assert pattern.confirmed is not None
    broken = replace(pattern, confirmed=replace(pattern.confirmed, seal="0" * 16))
    html = section(replace(book, patterns=(broken,)), broken)
    assert "What CD, 2025-02-04 confirmed is not what stands here." in html
    assert NOT_CONFIRMED in html


def test_what_is_not_on_file_is_said_and_markup_stays_text() -> None:
    book = replace(invented_book(), keepers=())
    pattern = replace(book.patterns[2], page=None, typed=None, block="<i>main", picture="7-14.jpg")
    html = pattern_section(
        replace(book, blocks={"<i>main": book.blocks["main"]}, patterns=(pattern,)), SETTINGS, pattern, 0, "us"
    )
    assert "Manual page not on file. Who typed it is not on file." in html
    assert "<i>" not in html
    assert "&lt;i&gt;main" in html
    assert "None on file." in html
    assert "Photo of the page: 7-14.jpg, not in this file." in html


def test_colours_are_those_of_the_page() -> None:
    book = invented_book()
    html = section(book, book.patterns[4])
    assert not re.search(r'(?:fill|stroke)="#', html)
    assert 'class="stroke-ink"' in html
