"""Strength of the rope and least wraps: the book goes before the rule set."""

from __future__ import annotations

from becket.limits.breaking import least_wraps_of, rope_strength_of
from becket.limits.figures import Missing
from tests.crane import invented_book, invented_settings
from tests.limits.asking import book_with


def test_the_book_goes_before_the_rule_set() -> None:
    settings = invented_settings(rules="Alberta OHS Code")
    assert least_wraps_of(invented_book(), settings).value == 3.0
    assert rope_strength_of(book_with(rope={"design_factor": 4.0}), settings).factor == 4.0


def test_the_rule_set_is_asked_where_the_book_is_silent() -> None:
    wraps = least_wraps_of(book_with(winch={"least_wraps": None}), invented_settings(rules="Alberta OHS Code"))
    assert (wraps.value, wraps.doubt) == (5.0, None)
    assert "Alberta OHS Code" in wraps.source


def test_neither_book_nor_rule_set_is_missing() -> None:
    assert isinstance(least_wraps_of(book_with(winch={"least_wraps": None}), invented_settings()).value, Missing)
    assert isinstance(rope_strength_of(book_with(rope={"design_factor": None}), invented_settings()).factor, Missing)


def test_the_books_breaking_force_is_never_estimated() -> None:
    strength = rope_strength_of(book_with(rope={"grade": 1960.0, "construction": "18x7-FC"}), invented_settings())
    assert (strength.breaking, strength.doubt) == (250_000.0, None)


def test_an_estimate_is_marked() -> None:
    book = book_with(rope={"breaking_force": None, "grade": 1960.0, "construction": "18x7-FC"})
    strength = rope_strength_of(book, invented_settings())
    assert strength.doubt is not None
    assert strength.breaking == 0.328 * 16**2 * 1960
