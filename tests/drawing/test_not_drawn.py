"""What keeps a pattern from being drawn, with the words that say so."""

from __future__ import annotations

from dataclasses import replace

from becket.drawing.not_drawn import why_not_drawn
from becket.reeving.words import read_path
from tests.drawing.tackles import tackle


def test_a_whole_pattern_is_drawn() -> None:
    assert why_not_drawn(tackle(6).book, tackle(6).pattern) is None


def test_a_sheave_twice() -> None:
    """Two ropes in one groove: drawn, one would hide the other."""
    one = tackle(4)
    twice = replace(one.pattern, path=read_path("head 1 block 1 head 1 block 2"))
    assert why_not_drawn(one.book, twice) == ("Cannot be drawn. The rope goes twice over head 1. Look at page 5-1.")
    assert str(why_not_drawn(one.book, replace(twice, page=None))).endswith("Look at the page of the manual.")


def test_two_sheaves_at_one_place() -> None:
    one = tackle(4)
    book = replace(one.book, head=replace(one.book.head, sheaves={1: 0.1, 2: 0.1}))
    assert why_not_drawn(book, one.pattern) == (
        "Cannot be drawn. Two sheaves of the head stand at the same place in the book."
    )


def test_what_is_missing_is_named() -> None:
    one = tackle(4)
    book = replace(one.book, head=replace(one.book.head, anchors={}))
    assert "place of the dead end (head.anchors.right)" in str(why_not_drawn(book, one.pattern))
    path = replace(one.pattern, path=read_path("head 1 head 2 block 1 block 2"))
    assert "a path that makes 4 falls (pattern main:4)" in str(why_not_drawn(one.book, path))
