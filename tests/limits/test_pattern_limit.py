"""Limit of the reeving pattern."""

from __future__ import annotations

from dataclasses import replace

from becket.book.crane import Book
from becket.book.tackle import Pass, Pattern
from becket.verdict import Verdict
from tests.crane import invented_book, sealed
from tests.limits.asking import book_with, limit, pattern_of


def _with(pattern: Pattern, seal: bool = True) -> Book:
    book = invented_book()
    book = replace(book, patterns=tuple(pattern if p.state == pattern.state else p for p in book.patterns))
    return sealed(book) if seal else book


def test_confirmed_and_sound_passes() -> None:
    found = limit("pattern")
    assert (found.verdict, found.why) == (Verdict.PASS, "The pattern main:4 is confirmed and its checks pass.")


def test_not_confirmed_is_unknown() -> None:
    found = limit("pattern", 5)
    assert found.verdict is Verdict.UNKNOWN
    assert "NOT CONFIRMED AGAINST THE MANUAL" in found.why


def test_one_letter_changed_is_not_confirmed() -> None:
    changed = replace(pattern_of(invented_book(), 4), page="5-99")
    assert limit("pattern", book=_with(changed, seal=False)).verdict is Verdict.UNKNOWN


def test_a_sheave_that_moved_is_not_confirmed() -> None:
    book = invented_book()
    moved = replace(book, head=replace(book.head, sheaves={**book.head.sheaves, 2: -0.15}))
    assert limit("pattern", book=moved).verdict is Verdict.UNKNOWN


def test_a_sheave_passed_twice_fails() -> None:
    twice = replace(
        pattern_of(invented_book(), 4),
        path=tuple(Pass(place=p, sheave=s) for p, s in (("head", 2), ("block", 2), ("head", 2), ("block", 4))),
    )
    found = limit("pattern", book=_with(twice))
    assert found.verdict is Verdict.FAIL
    assert "head 2" in found.why


def test_falls_that_rub_fail() -> None:
    book = invented_book()
    near = {**book.head.sheaves, 4: -0.150}  # 15 mm beside sheave 2
    low = replace(book.blocks["main"], sheaves={**book.blocks["main"].sheaves, 4: -0.095})
    rubbing = sealed(replace(book, head=replace(book.head, sheaves=near), blocks={**book.blocks, "main": low}))
    found = limit("pattern", book=rubbing)
    assert found.verdict is Verdict.FAIL
    assert "they rub" in found.why


def test_without_the_lead_side_rubbing_cannot_be_judged() -> None:
    assert limit("pattern", book=book_with(head={"lead": None})).verdict is Verdict.UNKNOWN


def test_a_path_that_does_not_make_its_falls_fails() -> None:
    short = replace(pattern_of(invented_book(), 4), path=pattern_of(invented_book(), 4).path[:3])
    assert limit("pattern", book=_with(short)).verdict is Verdict.FAIL
