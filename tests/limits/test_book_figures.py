"""Figures of a book and one block."""

from __future__ import annotations

from becket.limits.book_figures import book_figures, dead_end_add
from becket.limits.figures import Missing
from tests.crane import invented_book

BOOK = invented_book()


def test_the_closest_distance_is_trip_and_margin() -> None:
    assert book_figures(BOOK, BOOK.blocks["main"]).closest == 1.1 + 0.3


def test_a_ball_has_no_sheave_and_no_mass_centre() -> None:
    ball = book_figures(BOOK, BOOK.blocks["ball"])
    assert isinstance(ball.block_sheave, Missing)
    assert isinstance(ball.mass_centre, Missing)


def test_dead_ends_take_their_depth_and_their_height() -> None:
    main = BOOK.blocks["main"]
    assert dead_end_add(BOOK, main, "head b") == -0.15
    assert dead_end_add(BOOK, main, "block") == -0.22
    assert isinstance(dead_end_add(BOOK, main, "head z"), Missing)
