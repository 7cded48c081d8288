"""The seal: four that were worked out by hand, and that any single change breaks it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Confirmed, Pass, Pattern, Typed
from becket.reeving.seal import is_confirmed, is_typist, seal_of
from becket.reeving.words import read_path
from tests.crane import invented_book
from tests.reeving.patterns import books_with_pattern

SEVEN = {1: -0.36, 2: -0.24, 3: -0.12, 4: 0.0, 5: 0.12, 6: 0.24, 7: 0.36}


def golden_crane() -> Book:
    """An invented head and block of seven sheaves each, 120 mm apart, and a ball."""
    book = invented_book()
    anchors = {"a": Anchor(side=-0.18, along=-0.10, below=0.16), "b": Anchor(side=0.18, along=-0.10, below=0.16)}
    blocks = {
        "main": replace(book.blocks["main"], sheaves=SEVEN, becket=Anchor(side=0.0, along=0.0, below=-0.24)),
        "ball": book.blocks["ball"],
    }
    return replace(book, head=replace(book.head, sheaves=SEVEN, anchors=anchors), blocks=blocks)


@pytest.mark.parametrize(
    ("block", "path", "dead_end", "page", "seal"),
    [
        ("ball", "head 4", "block", "6-11", "0696011b4f1e9f78"),
        ("main", "head 4 block 4", "head b", "6-12", "5e3a099e67f91ca9"),
        ("main", "head 3 block 3 head 5 block 5", "head b", "6-14", "62831042ed7b1a73"),
        ("main", "head 2 block 2 head 4 block 4 head 6 block 6", "head b", "6-16", "45e278b9f07f01d6"),
    ],
)
def test_golden_seals(block: str, path: str, dead_end: str, page: str, seal: str) -> None:
    """Seals given with the format of the crane book: a new version that seals otherwise must migrate."""
    passes = read_path(path)
    pattern = replace(
        invented_book().patterns[0], block=block, falls=len(passes), path=passes, dead_end=dead_end, page=page
    )
    assert seal_of(golden_crane(), pattern) == seal


def test_seal_is_taken_over_this_text() -> None:
    """Typed out by hand: compact JSON, sheaves by number, whole millimetres, becket above the shaft."""
    pattern = replace(
        invented_book().patterns[0], block="main", falls=3, path=read_path("head 5 block 3 head 4"),
        dead_end="block", page="6-13 ä",
    )  # fmt: skip
    text = '["main",3,["head 5","block 3","head 4"],"block",[[4,0],[5,120]],[[3,-120]],[0,0,240],"6-13 ä"]'
    assert seal_of(golden_crane(), pattern) == hashlib.sha256(text.encode("utf-8")).hexdigest()[:16]


def test_missing_figures_are_null() -> None:
    book = golden_crane()
    book = replace(book, head=replace(book.head, anchors={"b": Anchor(side=0.18, along=None, below=None)}))
    pattern = replace(book.patterns[0], block="main", falls=2, path=read_path("head 4 block 4"), dead_end="head b",
                      page=None)  # fmt: skip
    text = '["main",2,["head 4","block 4"],"head b",[[4,0]],[[4,0]],[180,null,null],null]'
    assert seal_of(book, pattern) == hashlib.sha256(text.encode()).hexdigest()[:16]


def _head(book: Book, pattern: Pattern) -> tuple[Book, Pattern]:
    number = pattern.path[0].sheave
    moved = {**book.head.sheaves, number: book.head.sheaves[number] + 0.001}
    return replace(book, head=replace(book.head, sheaves=moved)), pattern


def _block_sheave(book: Book, pattern: Pattern) -> tuple[Book, Pattern]:
    block = book.blocks["main"]
    if pattern.falls == 1:
        return _page(book, pattern)
    number = pattern.path[1].sheave
    moved = replace(block, sheaves={**block.sheaves, number: block.sheaves[number] - 0.001})
    return replace(book, blocks={"main": moved}), pattern


def _anchor(field: str) -> Callable[[Book, Pattern], tuple[Book, Pattern]]:
    def change(book: Book, pattern: Pattern) -> tuple[Book, Pattern]:
        block = book.blocks["main"]
        if pattern.dead_end == "block":
            assert block.becket is not None
            moved = replace(block.becket, **{field: getattr(block.becket, field) + 0.001})
            return replace(book, blocks={"main": replace(block, becket=moved)}), pattern
        anchor = book.head.anchors["z"]
        moved = replace(anchor, **{field: getattr(anchor, field) + 0.001})
        return replace(book, head=replace(book.head, anchors={"z": moved})), pattern

    return change


def _page(book: Book, pattern: Pattern) -> tuple[Book, Pattern]:
    return book, replace(pattern, page="1-2")


def _path(book: Book, pattern: Pattern) -> tuple[Book, Pattern]:
    last = pattern.path[-1]
    return book, replace(pattern, path=(*pattern.path[:-1], Pass(place=last.place, sheave=last.sheave + 20)))


def _falls(book: Book, pattern: Pattern) -> tuple[Book, Pattern]:
    return book, replace(pattern, falls=pattern.falls + 2)


def _dead_end(book: Book, pattern: Pattern) -> tuple[Book, Pattern]:
    return book, replace(pattern, dead_end="head y" if pattern.dead_end != "head y" else "block")


CHANGES = [_head, _block_sheave, _anchor("side"), _anchor("along"), _anchor("below"), _page, _path, _falls, _dead_end]


@pytest.mark.parametrize("change", CHANGES)
@given(made=books_with_pattern(most_falls=6))
@settings(derandomize=True, deadline=None, max_examples=12)
def test_any_single_change_breaks_the_seal(
    change: Callable[[Book, Pattern], tuple[Book, Pattern]], made: tuple[Book, Pattern]
) -> None:
    book, pattern = made
    seal = Confirmed(by="CD", date="2025-01-02", seal=seal_of(book, pattern))
    pattern = replace(pattern, confirmed=seal)
    assert is_confirmed(book, pattern)
    assert not is_confirmed(*change(book, pattern))


def test_sheaves_beside_the_path_do_not_break_the_seal() -> None:
    book = invented_book()
    pattern = book.patterns[2]  # over head 3
    moved = replace(book, head=replace(book.head, sheaves={**book.head.sheaves, 6: 0.3}))
    assert is_confirmed(moved, pattern)


def test_the_typist_cannot_confirm_however_the_name_is_written() -> None:
    book = invented_book()
    pattern = book.patterns[2]
    assert pattern.confirmed is not None
    for name in ("AB", "ab", " A B ", "A. B.", "a.b.", "A-B", "\u0410B", "\u0391\u0392", "\uff21B"):
        assert is_typist(pattern, name)
        assert not is_confirmed(book, replace(pattern, confirmed=replace(pattern.confirmed, by=name)))
    assert not is_confirmed(book, replace(pattern, typed=None))
    assert not is_confirmed(book, replace(pattern, confirmed=None))
    assert not is_confirmed(book, replace(pattern, confirmed=replace(pattern.confirmed, seal=None)))
    assert is_confirmed(book, replace(pattern, typed=Typed(by="EF", date="2025-02-03")))
