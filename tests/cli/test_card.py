"""``becket card``: one printed card."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.cli.conftest import Runner, fits, held_by_schema

BOOK = "hazel-70.crane.yaml"


@pytest.mark.parametrize(
    ("words", "code", "pages"),
    [
        (("main:4",), 0, 1),
        (("main:4", "--kind", "window"), 0, 1),
        (("main:4", "--kind", "count"), 0, 1),
        (("main:4", "--kind", "pattern", "--units", "us"), 0, 1),
        (("main:5",), 1, 2),
    ],
)
def test_a_card_is_written_and_said(becket: Runner, demo: Path, words: tuple[str, ...], code: int, pages: int) -> None:
    outcome = becket("card", BOOK, *words, "-o", "card.pdf")
    assert (outcome.code, outcome.err) == (code, "")
    assert f"Written: card.pdf, {pages} page{'s' if pages > 1 else ''}." in outcome.out
    assert ("NOT CONFIRMED AGAINST THE MANUAL." in outcome.out) is (words == ("main:5",))
    fits(outcome.out)
    assert len(PdfReader("card.pdf").pages) == pages
    again = becket("card", BOOK, *words, "-o", "card.pdf", "--json")
    assert again.answer == {"file": "card.pdf", "pages": pages}
    held_by_schema("card", again.answer)


def test_the_falls_card_of_the_small_crane(becket: Runner, demo: Path) -> None:
    outcome = becket("card", "rowan-30.crane.yaml", "hook:4", "--kind", "falls", "-o", "falls.pdf", "--units", "us")
    assert (outcome.code, outcome.err) == (0, "")
    assert "falls card, block hook" in outcome.out
    assert " lb" in PdfReader("falls.pdf").pages[0].extract_text()


def test_an_svg_of_one_page(becket: Runner, demo: Path) -> None:
    assert becket("card", BOOK, "main:4", "-o", "card.svg").code == 0
    assert (demo / "card.svg").read_text("utf-8").startswith("<svg")


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("main:4", "-o", "card.txt"), 'card.txt: ends in ".txt"; .pdf or .svg is wanted'),
        (("main:4", "-o", "no/card.pdf"), "no/card.pdf: there is no folder no; make it first, or name another"),
        (("main:4", "-o", "/dev/full"), "/dev/full: has no suffix; .pdf or .svg is wanted"),
        (("mian:4", "-o", "card.pdf"), 'block: "mian" is not in the book; nearest: "main"'),
        (("main:9", "-o", "card.pdf"), "The reeving pattern main:9 is not on file."),
        (("main:4",), "becket card: Missing option '-o'"),
        (("main:4", "--kind", "poster", "-o", "card.pdf"), "becket card: Invalid value for '--kind': 'poster' is not"),
    ],
)
def test_slips_are_one_line_and_leave_no_file(becket: Runner, demo: Path, words: tuple[str, ...], said: str) -> None:
    outcome = becket("card", BOOK, *words)
    assert (outcome.code, outcome.out) == (2, "")
    assert outcome.err.startswith(said)
    assert outcome.err.count("\n") == 1
    assert not list(demo.glob("card.*"))


def test_the_sheet_of_a_change_is_written_beside_its_answer(becket: Runner, demo: Path) -> None:
    site = ("--counterweight", "12 t", "--outriggers", "full", "--free-radius", "40 m")
    outcome = becket("change", BOOK, "main:2", "main:4", *site, "-o", "sheet.pdf")
    pages = len(PdfReader("sheet.pdf").pages)
    assert f"Written: sheet.pdf, {pages} pages." in outcome.out
    assert "Steps" in outcome.out
    bare = becket("change", BOOK, "main:2", "main:4", *site)
    assert outcome.code == bare.code
    held_by_schema("change", becket("change", BOOK, "main:2", "main:4", *site, "-o", "sheet.pdf", "--json").answer)
