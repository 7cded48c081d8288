"""All cards of a crane in one document."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

from pypdf import PdfReader

from becket.book.tackle import State
from becket.cards.crane_cards import book_of_cards, crane_sheets
from becket.method.change import work_out_change
from becket.method.site import Site
from tests.cards.reading import page_texts
from tests.crane import invented_book, invented_settings

DAY = "2026-11-30"


def test_every_pattern_block_and_change_is_in_it_and_the_contents_name_the_right_pages() -> None:
    book, settings = invented_book(), invented_settings()
    book = replace(book, charts=(replace(book.charts[0], rows=book.charts[0].rows[:1]),))
    site = Site(counterweight=book.rereeve[0].counterweight, outriggers=book.rereeve[0].outriggers)
    two, four = State(block="main", falls=2), State(block="main", falls=4)
    change = work_out_change(book, settings, two, four, site)
    sheets = crane_sheets(book, settings, printed=DAY, changes=(change,))
    titles = [sheet.title for sheet in sheets]
    assert len(set(titles)) == len(titles)
    assert sum(sheet.template == "pattern" for sheet in sheets) == len(book.patterns)
    blocks = {pattern.block for pattern in book.patterns}
    assert sum(sheet.template == "falls" for sheet in sheets) == len(blocks)
    assert sum(sheet.template == "window" for sheet in sheets) == len(blocks)

    pdf = book_of_cards(book, settings, printed=DAY, changes=(change,))
    texts = page_texts(pdf)
    marks = [mark for mark in PdfReader(BytesIO(pdf)).outline if not isinstance(mark, list)]
    reader = PdfReader(BytesIO(pdf))
    pages = {mark.title: (reader.get_destination_page_number(mark) or 0) + 1 for mark in reader.outline}  # type: ignore[union-attr, arg-type]
    assert len(marks) == len(titles) + 1
    for title in titles:
        assert f"{title} {pages[title]}" in texts[0]
    for pattern in book.patterns:
        noun = "fall" if pattern.falls == 1 else "falls"
        page = pages[f"{book.crane}: pattern card, block {pattern.block}, {pattern.falls} {noun}"]
        assert f"{pattern.falls} {noun} block {pattern.block}" in texts[page - 1]
    assert texts[-1].startswith("RIGGER alone")


def test_no_chart_no_falls_card_and_the_rest_is_there() -> None:
    sheets = crane_sheets(replace(invented_book(), charts=()), invented_settings(), printed=DAY)
    assert {sheet.template for sheet in sheets} == {"pattern", "window", "count"}


def test_the_contents_name_the_changes_that_have_no_sheet() -> None:
    bare = replace(invented_book(), charts=())
    says = "No sheet is here for these changes: at no set-up of the book do they pass. becket change says why."
    pdf = book_of_cards(bare, invented_settings(), printed=DAY, left_out=["main:2 to main:6", "ball:1 to main:2"])
    assert page_texts(pdf)[0].endswith(f"{says} main:2 to main:6 ball:1 to main:2")
    pdf = book_of_cards(bare, invented_settings(), printed=DAY)
    assert not any("No sheet is here" in text for text in page_texts(pdf))
