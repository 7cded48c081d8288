"""Places of the falls: worked out by hand, and missing figures named."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given, settings

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.reeving.pattern import find_pattern
from becket.reeving.places import FallPlaces, fall_places, sides_missing
from tests.crane import invented_book
from tests.reeving.patterns import books_with_pattern


def places_of(book: Book, block: str, falls: int) -> FallPlaces:
    pattern = find_pattern(book, State(block=block, falls=falls))
    assert pattern is not None
    places = fall_places(book, pattern)
    assert places is not None
    return places


def test_four_falls_by_hand() -> None:
    """head 2, block 2, head 4, block 4, dead end head b; pitch diameters 0.36 m; lead over: fall 1 in front."""
    places = places_of(invented_book(), "main", 4)
    assert places.tops == ((-0.165, 0.18), (0.055, -0.18), (0.055, 0.18), (0.22, -0.09))
    assert places.lows == ((-0.11, 0.18), (-0.11, -0.18), (0.11, 0.18), (0.11, -0.18))
    assert places.top_on_sheave == (True, True, True, False)
    assert places.low_on_sheave == (True, True, True, True)
    assert places.faces == ("front", "back", "front", "back")
    assert places.missing == ()


def test_three_falls_by_hand() -> None:
    """The dead end on the block hangs from its becket, here in the middle."""
    places = places_of(invented_book(), "main", 3)
    assert places.tops == ((-0.055, 0.18), (0.055, -0.18), (0.055, 0.18))
    assert places.lows == ((0.0, 0.18), (0.0, -0.18), (0.0, 0.0))
    assert places.low_on_sheave == (True, True, False)
    assert places.faces == ("front", "back", "middle")


def test_lead_under_turns_front_and_back_round() -> None:
    book = invented_book()
    under = places_of(replace(book, head=replace(book.head, lead="under")), "main", 4)
    assert [along for _, along in under.tops] == [-0.18, 0.18, -0.18, -0.09]
    assert under.faces == ("back", "front", "back", "front")


def test_lead_not_on_file_leaves_every_sheave_end_open() -> None:
    book = invented_book()
    places = places_of(replace(book, head=replace(book.head, lead=None)), "main", 4)
    assert [along for _, along in places.tops] == [None, None, None, -0.09]
    assert [along for _, along in places.lows] == [None] * 4
    assert places.faces == (None,) * 4
    assert len(places.missing) == 1
    assert "head.lead" in places.missing[0]


def test_sheave_diameter_of_the_block_not_on_file() -> None:
    book = invented_book()
    block = replace(book.blocks["main"], sheave_diameter=None)
    places = places_of(replace(book, blocks={**book.blocks, "main": block}), "main", 4)
    assert [along for _, along in places.lows] == [None] * 4
    assert "blocks.main.sheave_diameter" in places.missing[0]


def test_place_of_the_dead_end_along_not_on_file() -> None:
    book = invented_book()
    anchors = {**book.head.anchors, "b": Anchor(side=0.22, along=None, below=0.15)}
    places = places_of(replace(book, head=replace(book.head, anchors=anchors)), "main", 4)
    assert places.tops[-1] == (0.22, None)
    assert "head.anchors.b.along" in places.missing[0]


def test_no_becket_on_file_gives_no_places_and_names_it() -> None:
    book = invented_book()
    block = replace(book.blocks["main"], becket=None)
    book = replace(book, blocks={**book.blocks, "main": block})
    pattern = find_pattern(book, State(block="main", falls=3))
    assert pattern is not None
    assert fall_places(book, pattern) is None
    assert "blocks.main.becket" in sides_missing(book, pattern)[0]
    assert places_of(book, "main", 4).missing == ()  # even falls end at the head


def test_a_path_that_does_not_make_its_falls_has_no_places() -> None:
    book = invented_book()
    pattern = book.patterns[4]
    for wrong in (
        replace(pattern, falls=6),
        replace(pattern, dead_end="block"),
        replace(pattern, path=pattern.path[1:]),
        replace(pattern, path=()),
        replace(pattern, block="none"),
    ):
        assert fall_places(book, wrong) is None
        assert sides_missing(book, wrong)


@given(books_with_pattern())
@settings(derandomize=True, deadline=None, max_examples=60)
def test_two_falls_meet_at_each_sheave_on_opposite_faces(made: tuple[Book, Pattern]) -> None:
    """The rope leaves a sheave on the other side of its shaft, in the same plane; all falls run from head to block."""
    book, pattern = made
    places = fall_places(book, pattern)
    assert places is not None
    assert len(places.tops) == len(places.lows) == pattern.falls
    for fall in range(1, pattern.falls):  # fall and the next share a block sheave after odd falls, a head sheave else
        ends = places.lows if fall % 2 else places.tops
        (side, along), (next_side, next_along) = ends[fall - 1], ends[fall]
        assert side == next_side
        assert along is not None
        assert next_along == -along
    ends_on_anchors = places.top_on_sheave.count(False) + places.low_on_sheave.count(False)
    assert ends_on_anchors == 1
