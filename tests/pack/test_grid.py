"""The grid holds printed radii and even steps; a question is read at the next worse place, or nowhere."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.crane import Book
from becket.pack.grid import FinderGrid, GridPlace, grids_of, lift_at, round_to_worse
from tests.crane import CHART, invented_book

GRID = FinderGrid(
    block="main",
    chart="full",
    boom=17.0,
    code="100-0-0",
    sector=None,
    radii=(3.0, 5.0, 7.0, 9.0),
    tops=(2.0, 4.0, 6.0),
    bottoms=(0.0, -2.0, -5.0),
    loads=(500.0, 1000.0, 1500.0),
)


def test_each_figure_goes_to_the_next_worse() -> None:
    place = round_to_worse(GRID, (5.1, 6.9), 2.1, -0.1, 500.1)
    assert place == GridPlace(least_radius=1, greatest_radius=2, top=1, bottom=1, load=1)
    assert place is not None
    lift = lift_at(GRID, place)
    assert (lift.radius, lift.top, lift.bottom, lift.load) == ((5.0, 7.0), 4.0, -2.0, 1000.0)
    assert (lift.rigging, lift.load_basis, lift.kind) == (0.0, "weighed", None)


def test_a_figure_of_the_grid_is_read_at_itself() -> None:
    place = round_to_worse(GRID, (5.0, 5.0), 2.0, -2.0, 1000.0)
    assert place == GridPlace(least_radius=1, greatest_radius=1, top=0, bottom=1, load=1)


def test_a_hook_that_stays_above_the_ground_is_read_from_the_ground() -> None:
    assert round_to_worse(GRID, (5.0, 5.0), 3.5, 1.5, 0.0) == GridPlace(
        least_radius=1, greatest_radius=1, top=1, bottom=0, load=0
    )


@pytest.mark.parametrize(
    "question",
    [
        ((2.9, 5.0), 4.0, 0.0, 500.0),
        ((5.0, 9.1), 4.0, 0.0, 500.0),
        ((5.0, 5.0), 6.1, 0.0, 500.0),
        ((5.0, 5.0), 4.0, -5.1, 500.0),
        ((5.0, 5.0), 4.0, 0.0, 1501.0),
        ((5.0, 5.0), 4.0, 0.0, -1.0),
        ((5.0, 5.0), -3.0, -2.0, 500.0),
    ],
)
def test_outside_is_nowhere(question: tuple[tuple[float, float], float, float, float]) -> None:
    assert round_to_worse(GRID, *question) is None


def test_a_grid_for_each_block_chart_and_boom_length_that_the_chart_is_printed_for() -> None:
    grids = grids_of(invented_book())
    assert {grid.block for grid in grids} == {"ball", "light", "main"}
    # 9.8 m is printed nowhere, 30.8 m lies between two printed lengths, two charts print 17 m alone
    assert [grid.boom for grid in grids if (grid.block, grid.chart) == ("main", CHART)] == [17.0, 24.2, 30.8, 31.4]
    assert len(grids) == 3 * (4 + 1 + 1)
    assert {grid.sector for grid in grids} == {None, "rear"}


def test_radii_are_those_that_are_printed_and_loads_end_at_block_or_chart(book: Book) -> None:
    main, ball = (
        next(grid for grid in grids_of(book) if (grid.block, grid.boom) == (block, 17.0)) for block in ("main", "ball")
    )
    assert main.radii == (3.0, 5.0, 7.0, 9.0, 12.0)
    assert main.loads[-1] == 24_000.0  # of the chart
    assert ball.loads[-1] == 4_500.0  # of the ball
    assert main.loads[:2] == (500.0, 1000.0)
    assert main.loads[19:22] == (10_000.0, 11_000.0, 12_000.0)
    assert main.tops[-1] >= 17.0 + book.boom.foot_z
    assert len(main.tops) <= 14


def test_every_list_runs_to_the_worse(book: Book) -> None:
    for grid in grids_of(book):
        for rising in (grid.radii, grid.tops, [-depth for depth in grid.bottoms], grid.loads):
            assert list(rising) == sorted(set(rising))


def test_a_block_without_a_rating_goes_as_far_as_the_chart_and_an_empty_chart_has_no_grid() -> None:
    book = invented_book()
    unrated = replace(book, blocks={"main": replace(book.blocks["main"], rated=None)})
    assert grids_of(unrated)[0].loads[-1] == 24_000.0
    empty = replace(book, charts=(replace(book.charts[0], rows=()),))
    assert grids_of(empty) == ()
