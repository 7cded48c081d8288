"""Words of a pattern on a card."""

from __future__ import annotations

from dataclasses import replace

from becket.cards.reeving_words import keepers_that_hold, way_of_fall
from tests.crane import invented_book


def test_falls_go_down_on_the_tip_side_where_the_lead_line_comes_over() -> None:
    book = invented_book()
    assert book.head.lead == "over"
    assert [way_of_fall(book, n) for n in (1, 2)] == ["down, tip side", "up, cab side"]
    under = replace(book, head=replace(book.head, lead="under"))
    assert [way_of_fall(under, n) for n in (1, 2)] == ["down, cab side", "up, tip side"]


def test_a_side_that_is_not_in_the_book_is_not_made_up() -> None:
    book = replace(invented_book(), head=replace(invented_book().head, lead=None))
    assert way_of_fall(book, 3) == "down, side not in the book"


def test_keepers_stand_once_and_only_those_over_the_rope() -> None:
    book = invented_book()
    pattern = max(book.patterns, key=lambda one: one.falls)
    keepers = keepers_that_hold(book, pattern)
    assert len(set(keepers)) == len(keepers)
    used = {(one.place, one.sheave) for one in pattern.path}
    for keeper in book.keepers:
        over = keeper.at == "dead end" or any(
            (keeper.at, number) in used and keeper.block in (None, pattern.block) for number in keeper.holds
        )
        assert (keeper in keepers) is over
    assert keepers_that_hold(replace(book, keepers=()), pattern) == ()
