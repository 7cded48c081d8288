"""Places of the sheaves: to scale where there is room, in order always."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.drawing.layout import lay_out, with_room
from tests.drawing.tackles import Tackle, tackle


def uneven(*sides: float) -> Tackle:
    one = tackle(2 * len(sides))
    head = dict(enumerate(sides, start=1))
    return Tackle(book=replace(one.book, head=replace(one.book.head, sheaves=head)), pattern=one.pattern)


def test_sideways_is_to_scale() -> None:
    """Twice the distance in the book is twice the distance in the picture, head over block."""
    layout = lay_out(*book_of(uneven(-0.2, -0.1, 0.1)), "cab")
    x = layout.head_at
    assert (x[3] - x[2]) / (x[2] - x[1]) == pytest.approx(2)
    scale = (x[2] - x[1]) / 0.1
    assert layout.block_at[2] - x[1] == pytest.approx(scale * 0.2)
    assert layout.is_to_scale


def test_a_row_too_uneven_is_not_to_scale_and_says_so() -> None:
    layout = lay_out(*book_of(uneven(-0.5, -0.49, 0.5)), "cab")
    assert not layout.is_to_scale
    assert layout.head_at[2] - layout.head_at[1] >= 66 - 1e-6


@given(st.lists(st.integers(-60, 60), min_size=1, max_size=8, unique=True), st.sampled_from(("cab", "rigger")))
@settings(derandomize=True, deadline=None, max_examples=100)
def test_order_room_and_canvas(sides: list[int], view: str) -> None:
    """In the order of the book (mirrored for the rigger), never nearer than the numbers need, inside the canvas."""
    one = uneven(*(side / 100 for side in sorted(sides)))
    layout = lay_out(*book_of(one), view)
    for row in (layout.head_at, layout.block_at):
        places = [row[number] for number in sorted(row)]
        places = places if view == "cab" else places[::-1]
        assert all(b - a >= 66 - 1e-6 for a, b in pairwise(places))
        assert min(places) >= 28
        assert max(places) <= layout.width - 28


def test_room_at_the_outer_side() -> None:
    """The words get room on the dead end's side; places move together."""
    layout = lay_out(*book_of(tackle(4)), "cab")
    wide = with_room(layout)
    assert (wide.room, wide.head_at) == ("right", layout.head_at)
    left = with_room(lay_out(*book_of(tackle(4)), "rigger"))
    assert left.room == "left"
    assert left.anchor_at - left.head_at[1] == pytest.approx(-(layout.anchor_at - layout.head_at[1]))


def book_of(one: Tackle) -> tuple[Book, Pattern]:
    return one.book, one.pattern
