"""Setting type: same bytes, tags, one font of our own."""

from __future__ import annotations

import hashlib
import subprocess
import sys
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from becket.cards.count_slip import count_sheet
from becket.cards.pattern_card import pattern_card
from becket.cards.typesetting import typeset, typeset_svg
from becket.errors import UnreadableTextError
from tests.cards.hard_books import sixteen_falls
from tests.crane import invented_book, invented_settings

AGAIN = """
import hashlib
from becket.cards.pattern_card import pattern_card
from tests.crane import invented_book, invented_settings
book = invented_book()
print(hashlib.sha256(pattern_card(book, invented_settings(), book.patterns[0], printed="2026-11-30")).hexdigest())
"""


def test_the_same_card_is_the_same_bytes_in_another_process() -> None:
    book = invented_book()
    here = hashlib.sha256(pattern_card(book, invented_settings(), book.patterns[0], printed="2026-11-30")).hexdigest()
    there = subprocess.run(
        [sys.executable, "-c", AGAIN],
        capture_output=True,
        text=True,
        check=True,
        timeout=60,
        env={"PYTHONPATH": "src:."},
    )
    assert there.stdout.strip() == here
    other_day = pattern_card(book, invented_settings(), book.patterns[0], printed="2026-12-01")
    assert hashlib.sha256(other_day).hexdigest() != here


def test_the_pdf_is_tagged_and_says_that_it_is_for_everyone() -> None:
    """PDF/UA-1 (ISO 14289-1): typst refuses what breaks it; here that the mark and the tags are in the file."""
    book = sixteen_falls()
    reader = PdfReader(BytesIO(pattern_card(book, invented_settings(), book.patterns[0], printed="2026-11-30")))
    root: Any = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert root["/Lang"] == "en"
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    metadata = root["/Metadata"].get_data().decode()
    assert "<pdfuaid:part>1</pdfuaid:part>" in metadata
    assert reader.metadata is not None
    assert reader.metadata.title == "Tallow 40: pattern card, block main, 16 falls"


def test_every_font_is_in_the_file_and_there_is_one_family() -> None:
    book = sixteen_falls()
    reader = PdfReader(BytesIO(pattern_card(book, invented_settings(), book.patterns[0], printed="2026-11-30")))
    resources: list[Any] = [page["/Resources"] for page in reader.pages]
    fonts = {font.get_object()["/BaseFont"] for one in resources for font in one["/Font"].get_object().values()}
    assert fonts
    assert {name.split("+")[1].split("-")[0] for name in fonts} == {"Roboto"}


def test_pictures_stay_lines_and_text() -> None:
    book = invented_book()
    reader = PdfReader(BytesIO(pattern_card(book, invented_settings(), book.patterns[0], printed="2026-11-30")))
    assert [list(page.images) for page in reader.pages] == [[] for _ in reader.pages]
    assert "from the drum" in reader.pages[0].extract_text()


def test_svg_has_a_text_a_page() -> None:
    pages = typeset_svg((count_sheet(), count_sheet()), title="Slips", printed="2026-11-30")
    assert len(pages) == 2
    assert pages[0].startswith(b"<svg")
    assert pages == typeset_svg((count_sheet(), count_sheet()), title="Slips", printed="2026-11-30")


@pytest.mark.parametrize("printed", ["30.11.2026", "2026-13-01", "", "today"])
def test_a_date_that_is_none_is_refused(printed: str) -> None:
    with pytest.raises(UnreadableTextError) as error:
        typeset((count_sheet(),), title="Slip", printed=printed)
    assert str(error.value) == f"date {printed}; a day as 2026-11-30 is wanted"
    with pytest.raises(UnreadableTextError):
        typeset_svg((count_sheet(),), title="Slip", printed=printed)
