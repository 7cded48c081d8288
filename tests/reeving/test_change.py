"""The change of path: total for any two patterns, and walked back pass by pass."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from hypothesis import given, settings

from becket.book.crane import Book
from becket.book.hoist import DeadEnd
from becket.book.tackle import Pattern, State
from becket.reeving.change import DEAD_END, keepers_of, path_change
from becket.reeving.pattern import find_pattern
from becket.reeving.words import path_words
from tests.crane import invented_book
from tests.reeving.patterns import books_with_pattern


def pattern_of(book: Book, state: str) -> Pattern:
    block, _, falls = state.partition(":")
    found = find_pattern(book, State(block=block, falls=int(falls)))
    assert found is not None
    return found


def test_two_to_four_falls_by_hand() -> None:
    """head 3 is not shared with head 2: everything comes out, from the dead end back."""
    book = invented_book()
    change = path_change(book, pattern_of(book, "main:2"), pattern_of(book, "main:4"))
    assert path_words(change.keep) == ""
    assert path_words(change.draw_out) == "block 3, head 3"
    assert path_words(change.thread) == "head 2, block 2, head 4, block 4"
    assert not change.block_changes
    assert change.dead_end_moves
    assert [keeper.name for keeper in change.keepers] == ["dead-end pin", "block pin", "head bar"]
    assert (change.switch_weight_before, change.switch_weight_after) == ("dead-end fall", "dead-end fall")
    assert change.fitting_comes_off is True
    acts = [f"{touch.act} {touch.place}" for touch in change.touches]
    assert acts == [
        "open dead end", "draw out block 3", "draw out head 3",
        "thread head 2", "thread block 2", "thread head 4", "thread block 4", "make dead end",
    ]  # fmt: skip


def test_two_to_three_falls_keeps_the_shared_start() -> None:
    book = invented_book()
    change = path_change(book, pattern_of(book, "main:2"), pattern_of(book, "main:3"))
    assert path_words(change.keep) == "head 3, block 3"
    assert change.draw_out == ()
    assert path_words(change.thread) == "head 4"
    assert [keeper.name for keeper in change.keepers] == ["dead-end pin", "head bar"]
    assert change.switch_weight_after == "last fall"


def test_another_block_keeps_at_most_the_first_head_sheave() -> None:
    book = invented_book()
    change = path_change(book, pattern_of(book, "light:2"), pattern_of(book, "main:2"))
    assert change.block_changes
    assert path_words(change.keep) == "head 3"
    assert path_words(change.draw_out) == "block 1"
    assert path_words(change.thread) == "block 3"
    assert [keeper.name for keeper in change.keepers] == ["dead-end pin", "light block pin", "block pin"]


def test_block_with_the_same_numbers_is_still_another_block() -> None:
    book = invented_book()
    main = pattern_of(book, "main:4")
    change = path_change(book, main, replace(main, block="light"))
    assert path_words(change.keep) == "head 2"
    assert path_words(change.thread) == "block 2, head 4, block 4"


def test_the_same_pattern_needs_nothing() -> None:
    book = invented_book()
    main = pattern_of(book, "main:4")
    change = path_change(book, main, main)
    assert change.keep == main.path
    assert (change.draw_out, change.thread, change.keepers, change.touches) == ((), (), (), ())
    assert change.fitting_comes_off is False


def test_a_dead_end_that_only_moves_is_opened_and_made() -> None:
    book = invented_book()
    main = pattern_of(book, "main:4")
    change = path_change(book, main, replace(main, dead_end="head a"))
    assert change.keep == main.path
    assert [touch.act for touch in change.touches] == ["open", "make"]
    assert [keeper.name for keeper in change.keepers] == ["dead-end pin"]


def test_whether_the_fitting_passes_is_not_guessed() -> None:
    book = invented_book()
    book = replace(book, dead_end=DeadEnd(**{**book.dead_end.__dict__, "goes_through_sheaves": None}))
    assert path_change(book, pattern_of(book, "main:2"), pattern_of(book, "main:4")).fitting_comes_off is None


def test_keepers_of_a_pass_are_those_of_that_block() -> None:
    book = invented_book()
    one = pattern_of(book, "light:2").path[1]  # block 1: both blocks have one
    assert [keeper.name for keeper in keepers_of(book, one, "light")] == ["light block pin"]
    assert [keeper.name for keeper in keepers_of(book, one, "main")] == ["block pin"]
    assert [keeper.name for keeper in keepers_of(book, DEAD_END, "main")] == ["dead-end pin"]


def _walks_to_the_new_path(book: Book, before: Pattern, after: Pattern) -> None:
    change = path_change(book, before, after)
    path = list(before.path)
    for one in change.draw_out:
        assert path.pop() == one
    assert tuple(path) == change.keep
    path.extend(change.thread)
    assert tuple(path) == after.path
    if change.block_changes:
        assert all(one.place == "head" for one in change.keep)
        assert len(change.keep) <= 1
    elif len(change.keep) < min(len(before.path), len(after.path)):
        assert before.path[len(change.keep)] != after.path[len(change.keep)]  # the longest shared start


def test_total_for_every_two_patterns_of_a_book() -> None:
    book = invented_book()
    for before, after in product(book.patterns, repeat=2):
        _walks_to_the_new_path(book, before, after)


@given(books_with_pattern(), books_with_pattern())
@settings(derandomize=True, deadline=None, max_examples=60)
def test_total_for_random_patterns(one: tuple[Book, Pattern], other: tuple[Book, Pattern]) -> None:
    _walks_to_the_new_path(one[0], one[1], other[1])
