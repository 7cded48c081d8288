"""The foot of a card."""

from __future__ import annotations

from dataclasses import replace

from becket.cards.foot import GOVERNS, VOID, foot_of, manual_of, release
from becket.method.step_words import CAUTIONS
from tests.crane import invented_book


def test_the_foot_names_date_book_and_release_and_what_governs() -> None:
    book = invented_book()
    foot = foot_of(book, "BECKET/1/COUNT", printed="2026-11-30", cautions=("Look.",))
    assert foot["state"] == f"Printed 2026-11-30, book {book.fingerprint}, becket {release()}. {VOID}"
    assert foot["cautions"] == ["Look."]
    assert foot["governs"] == GOVERNS
    assert foot["qr_says"] == "QR code: BECKET/1/COUNT"


def test_what_governs_is_the_long_line() -> None:
    """The visual language asks for the long form on paper."""
    assert GOVERNS.split(". ")[0] == CAUTIONS[0].split(". ")[0]
    assert GOVERNS.endswith("This card is not a load indicator.")


def test_what_is_not_on_file_is_said() -> None:
    book = invented_book()
    assert manual_of(book, "5-3")["manual"] == f"{book.manual_title}, issue {book.manual_issue}"
    assert manual_of(book, "5-3")["page"] == "page 5-3"
    bare = manual_of(replace(book, serial=None, manual_issue=None), None)
    assert bare["serial"] == "serial not on file"
    assert bare["manual"] == f"{book.manual_title}, issue not on file"
    assert bare["page"] == "page not on file"
