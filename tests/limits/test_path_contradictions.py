"""Patterns, sheaves and keepers: one slip each, found with its fields and said in full."""

# ruff: noqa: E501 (messages stand here as they are)

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.crane import Book
from becket.book.tackle import Confirmed
from becket.reeving.words import read_path
from tests.crane import invented_book
from tests.limits.slips import Case, Slip, block, found, new_keeper, pattern


def _head_moved(book: Book) -> Book:
    """A sheave's figure changes under a seal."""
    return replace(book, head=replace(book.head, sheaves={**book.head.sheaves, 1: -0.274}))


def _head_bar_short(book: Book) -> Book:
    return replace(book, keepers=(replace(book.keepers[0], holds=(2, 3, 4, 5, 6)), *book.keepers[1:]))


def _pattern_again(book: Book) -> Book:
    return replace(book, patterns=(*book.patterns, book.patterns[3]))


EARLIER = Confirmed(by="CD", date="2025-01-04", seal=None)
OUT_OF_TURN = read_path("head 2 head 4 block 2 block 4")

CASES: list[Case] = [
    (
        "numbered_against_places",
        lambda book: replace(book, head=replace(book.head, numbered="from the right, seen from the cab")),
        ("head.numbered", "head.sheaves"),
        'the head is numbered "from the right, seen from the cab", and its first sheave stands to the left of its last; '
        "sideways, plus is to the right, seen from the cab",
    ),
    (
        "sheave_used_twice",
        pattern(4, path=read_path("head 2 block 2 head 2 block 4")),
        ("patterns[4].path",),
        "main:4 passes head 2 more than once; a groove takes one rope: look at the page again",
    ),
    (
        "path_against_falls",
        pattern(4, falls=6),
        ("patterns[4].path", "patterns[4].falls"),
        "main:6: 6 falls go over 3 head and 3 block sheaves; the path has 4 passes: look at the page again",
    ),
    (
        "path_against_falls",
        pattern(4, path=OUT_OF_TURN),
        ("patterns[4].path", "patterns[4].falls"),
        'main:4: "head 2, head 4, block 2, block 4" does not go from head to block and back in turn, beginning at the head: look at the page again',
    ),
    (
        "dead_end_against_falls",
        pattern(4, dead_end="block"),
        ("patterns[4].dead_end", "patterns[4].falls"),
        'main:4: the dead end is "block"; of 4 falls it is at the head: look at the page again',
    ),
    (
        "more_falls_than_sheaves",
        pattern(1, falls=4),
        ("patterns[1].falls", "blocks.light.sheaves"),
        "light:4 needs 2 sheaves; the block light has 1: look at the page again",
    ),
    (
        "two_patterns_for_one_state",
        _pattern_again,
        ("patterns[3]", "patterns[7]"),
        "two patterns for main:3; one of them is to be taken out, as the page of the manual says",
    ),
    (
        "seal_no_longer_matches",
        _head_moved,
        ("patterns[6].confirmed", "patterns[6].path"),
        "main:6: the seal 6ff964c1845219c4 is not that of the pattern as it stands; NOT CONFIRMED AGAINST THE MANUAL until a second person reads the page again: becket confirm BOOK main:6",
    ),
    (
        "confirmed_before_typed",
        pattern(4, confirmed=EARLIER),
        ("patterns[4].confirmed.date", "patterns[4].typed.date"),
        "main:4 was confirmed on 2025-01-04, before it was typed on 2025-02-03",
    ),
    (
        "sheaves_in_one_place",
        block("main", sheaves={1: -0.22, 2: -0.11, 3: 0.0, 4: 0.11, 5: 0.125}),
        ("blocks.main.sheaves.4", "blocks.main.sheaves.5"),
        "sheaves 4 and 5 are 15 mm apart; the rope alone is 16 mm thick",
    ),
    (
        "keeper_holds_nothing",
        new_keeper(holds=()),
        ("keepers[4].holds", "keepers[4].at"),
        "new pin is at the head and holds no sheave; its sheave numbers are wanted",
    ),
    (
        "keeper_of_no_pattern",
        new_keeper(holds=(6,)),
        ("keepers[4].holds", "patterns"),
        "new pin holds sheaves of the head over which no pattern goes: look at its sheave numbers again",
    ),
    (
        "keeper_of_no_pattern",
        new_keeper(at="block", block="ball", holds=(1,)),
        ("keepers[4].holds", "patterns"),
        "new pin holds sheaves of the block ball over which no pattern goes: look at its sheave numbers again",
    ),
    (
        "pass_without_keeper",
        _head_bar_short,
        ("patterns[6].path", "keepers"),
        "main:6: no keeper holds the rope at head 1; look at the page again",
    ),
]


@pytest.mark.parametrize(("name", "slip", "fields", "why"), CASES)
def test_one_slip_is_found_with_its_fields(name: str, slip: Slip, fields: tuple[str, ...], why: str) -> None:
    assert found(name, slip) == [(fields, why)]


def test_a_confirmation_without_a_seal_is_not_confirmed() -> None:
    def slip(book: Book) -> Book:
        bare = replace(book.patterns[4], confirmed=replace(EARLIER, date="2025-03-01"))
        return replace(book, patterns=(*book.patterns[:4], bare, *book.patterns[5:]))

    ((_, why),) = found("seal_no_longer_matches", slip)
    assert why.startswith("main:4: there is no seal; NOT CONFIRMED AGAINST THE MANUAL")


def test_a_seal_by_the_typist_is_a_fault_of_the_file_and_not_said_twice() -> None:
    """The intake refuses it by name; here it would only hide that."""

    def slip(book: Book) -> Book:
        typed = book.patterns[4].typed
        assert typed is not None
        own = replace(book.patterns[4], confirmed=Confirmed(by=typed.by, date="2025-03-01", seal="0" * 16))
        return replace(book, patterns=(*book.patterns[:4], own, *book.patterns[5:]))

    assert found("seal_no_longer_matches", slip) == []


def test_a_path_out_of_turn_is_not_blamed_for_its_length_too() -> None:
    assert len(found("path_against_falls", pattern(4, path=(*OUT_OF_TURN, *OUT_OF_TURN[:1])))) == 1


def test_a_book_without_keepers_says_nothing_of_its_passes() -> None:
    assert found("pass_without_keeper", lambda book: replace(book, keepers=())) == []
    assert found("keeper_of_no_pattern", lambda book: replace(book, patterns=())) == []


def test_a_keeper_of_the_dead_end_holds_no_sheave_and_need_not() -> None:
    assert found("keeper_holds_nothing", new_keeper(at="dead end", holds=())) == []


def test_sheaves_one_rope_apart_are_two_places() -> None:
    sheaves = {1: -0.22, 2: -0.11, 3: 0.0, 4: 0.11, 5: 0.126}
    assert invented_book().rope.diameter == 0.016
    assert found("sheaves_in_one_place", block("main", sheaves=sheaves)) == []


@pytest.mark.parametrize(
    "numbered",
    [None, "as on the plate", "from the left, seen from the tip", "from the left or the right, seen from the cab"],
)
def test_a_numbering_that_names_no_side_of_the_cab_contradicts_nothing(numbered: str | None) -> None:
    assert (
        found("numbered_against_places", lambda book: replace(book, head=replace(book.head, numbered=numbered))) == []
    )


def test_a_head_numbered_from_the_right_and_typed_so_is_good() -> None:
    def turned(book: Book) -> Book:
        sheaves = {number: -side for number, side in book.head.sheaves.items()}
        return replace(book, head=replace(book.head, numbered="from the right, seen from the cab", sheaves=sheaves))

    assert found("numbered_against_places", turned) == []
