"""The pattern card: everything on it is what the core says, read back out of the PDF."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from becket.cards.foot import release
from becket.cards.pattern_card import pattern_card, pattern_sheet
from becket.figures import shown
from becket.reeving.pattern import check_pattern
from becket.reeving.seal import is_confirmed, seal_of
from becket.units import show_quantity
from becket.verdict import Verdict
from tests.cards.hard_books import NAMES, bare_book, long_names, sixteen_falls
from tests.cards.reading import page_sizes, page_texts, qr_text, whole_text
from tests.crane import invented_book, invented_settings

DAY = "2026-11-30"
BAND = "NOT CONFIRMED AGAINST THE MANUAL"


@pytest.mark.parametrize("number", range(len(invented_book().patterns)))
def test_the_path_stands_on_the_card_as_the_book_has_it(number: int) -> None:
    book = invented_book()
    pattern = book.patterns[number]
    confirmed = is_confirmed(book, pattern)
    text = whole_text(pattern_card(book, invented_settings(), pattern, printed=DAY))
    rows = [f"{one} fall {fall}" for fall, one in enumerate(pattern.path, 1)]
    places = [text.index(row) for row in rows]
    assert places == sorted(places)
    assert f"dead end: {pattern.dead_end}" in text
    assert (f"set the indicator to {pattern.falls}" in text) is confirmed
    assert text.removeprefix(f"{BAND} ").startswith(f"{pattern.falls} ")
    assert pattern.page is not None
    for word in (book.crane, book.manual_title, f"issue {book.manual_issue}", f"page {pattern.page}", book.fingerprint):
        assert word in text
    assert f"Printed {DAY}" in text
    assert f"becket {release()}" in text
    assert (BAND in text) is not confirmed


def test_every_figure_is_that_of_the_core() -> None:
    book, settings = invented_book(), invented_settings()
    pattern = max(book.patterns, key=lambda one: one.falls)
    check = check_pattern(book, settings, pattern, None, None)
    assert book.falls_table is not None
    assert book.rope.breaking_force is not None
    assert book.rope.design_factor is not None
    for system in ("metric", "us"):
        text = whole_text(pattern_card(book, settings, pattern, printed=DAY, system=system))
        permitted = book.rope.breaking_force / book.rope.design_factor
        for value, kind, toward in (
            (book.falls_table.loads[pattern.falls], "mass", "down"),
            (min(book.winch.pull), "force", "down"),
            (permitted, "force", "down"),
        ):
            assert show_quantity(value, kind, system=system, toward=toward) in text
        assert f"Tilt up to {shown(check.tilt, 'angle', system, 'up')}." in text
        assert f"Hangs turned by {shown(check.hangs_turned, 'angle', system, 'up')}." in text
        assert f"head to block from {shown(check.closest_distance, 'length', system, 'up')} on." in text
        assert f"Twist length {shown(check.twist_length, 'length', system, 'down')}." in text
        passed = sum(one.verdict is Verdict.PASS for one in check.findings)
        assert f"{passed} of {len(check.findings)} checks pass." in text
        assert f" {book.winch.least_wraps} at most" in text  # the notes stand in the row below the values


def test_every_keeper_over_the_rope_stands_with_its_lock_and_the_state_of_the_rope() -> None:
    book = sixteen_falls()
    text = whole_text(pattern_card(book, invented_settings(), book.patterns[0], printed=DAY))
    for keeper in book.keepers:
        assert f"{keeper.name} {keeper.lock} {keeper.draw}" in text


def test_an_unconfirmed_pattern_says_so_over_and_under_each_drawing_and_on_every_page() -> None:
    book = invented_book()
    loose = replace(book.patterns[0], confirmed=None)
    pdf = pattern_card(replace(book, patterns=(loose,)), invented_settings(), loose, printed=DAY)
    texts = page_texts(pdf)
    assert texts[0].count("NOT CONFIRMED AGAINST THE") >= 1 + 4
    assert all(BAND in text for text in texts)
    assert "set the indicator" not in " ".join(texts)
    assert "Rig nothing and set nothing from this card." in texts[0]
    assert "not confirmed by a second person" in texts[0]


def test_a_pattern_changed_since_it_was_confirmed_says_so() -> None:
    book = invented_book()
    pattern = replace(book.patterns[0], page="99-9")
    text = whole_text(pattern_card(replace(book, patterns=(pattern,)), invented_settings(), pattern, printed=DAY))
    assert "NOT AS CONFIRMED: changed since" in text
    assert BAND in text


def test_what_fails_and_what_is_unknown_stands_with_its_reason() -> None:
    book, settings = sixteen_falls(), invented_settings()
    pattern = book.patterns[0]
    text = whole_text(pattern_card(book, settings, pattern, printed=DAY))
    check = check_pattern(book, settings, pattern, None, None)
    reasons = [one.why for one in check.findings if one.verdict is not Verdict.PASS]
    assert len(reasons) >= 2
    assert all(" ".join(why.split()) in text for why in reasons)
    assert "FAIL falls that rub" in text


def test_a_bare_book_names_what_is_missing_and_invents_nothing() -> None:
    book = bare_book()
    text = whole_text(pattern_card(book, invented_settings(), book.patterns[-1], printed=DAY))
    for words in (
        "issue not on file",
        "page not on file",
        "serial not on file",
        "typist not on file",
        "the falls table is not on file",
        "the permitted line pull is not on file",
        "breaking force or design factor is not on file",
        "no keeper on file",
        "Unknown: which fall carries the switch weight.",
        "side not in the book",
    ):
        assert words in text, words


def test_long_names_in_three_scripts_are_whole() -> None:
    for name in NAMES:
        book = long_names(name, confirmed=False)
        texts = "".join(page_texts(pattern_card(book, invented_settings(), book.patterns[0], printed=DAY)))
        bare = texts.replace(" ", "")
        assert bare.count(name.replace(" ", "")) >= 6, name


def test_one_fall_and_sixteen_are_a4_and_the_title_names_them() -> None:
    book = sixteen_falls()
    sheet = pattern_sheet(book, invented_settings(), book.patterns[0], printed=DAY)
    assert sheet.title == "Tallow 40: pattern card, block main, 16 falls"
    assert set(page_sizes(pattern_card(book, invented_settings(), book.patterns[0], printed=DAY))) == {(210, 297)}
    least = min(invented_book().patterns, key=lambda one: one.falls)
    pdf = pattern_card(invented_book(), invented_settings(), least, printed=DAY)
    assert page_sizes(pdf) == [(210, 297)]


@pytest.mark.browser
def test_the_code_read_off_the_printed_page_is_the_pattern_and_the_book(tmp_path: Path) -> None:
    book = invented_book()
    pattern = book.patterns[-1]
    pdf = pattern_card(book, invented_settings(), pattern, printed=DAY)
    seal = seal_of(book, pattern).upper()
    assert qr_text(pdf, tmp_path) == f"BECKET/1/PATTERN/{pattern.falls}/{seal}/{book.fingerprint.upper()}"
