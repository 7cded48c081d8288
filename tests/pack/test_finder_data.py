"""The tables of the page hold the finder's answers, each found again by the page's own way of looking up."""

from __future__ import annotations

from dataclasses import replace
from random import Random
from typing import Any

import pytest

from becket.book.crane import Book
from becket.limits.registry import LIMITS
from becket.pack.finder import FilledGrid
from becket.pack.finder_data import Packed, finder_data
from becket.pack.grid import GridPlace
from tests.crane import invented_book, invented_settings


def run(runs: tuple[int, ...], place: int) -> int:
    """Return the value at a place of runs, as the page looks it up."""
    at = 0
    while place >= runs[at]:
        place -= runs[at]
        at += 2
    return runs[at + 1]


def packed(book: Book, finder: tuple[FilledGrid, ...], system: str) -> Any:
    """Return the tables."""
    made = Packed(system)
    for filled in finder:
        made.add(book, filled)
    return made.data()


def test_each_answer_is_found_again(book: Book, finder: tuple[FilledGrid, ...]) -> None:
    data, random, names = packed(book, finder, "metric"), Random(8), list(LIMITS)
    for _ in range(2000):
        number = random.randrange(len(finder))
        filled, grid = finder[number], data["grids"][number]
        key = random.choice(list(filled.columns))
        least, greatest, top, bottom = key
        load = random.randrange(len(filled.grid.loads))
        place = GridPlace(least_radius=least, greatest_radius=greatest, top=top, bottom=bottom, load=load)
        table = data["maps"][grid["maps"][greatest * (greatest + 1) // 2 + least]]
        column = data["columns"][run(table, top * len(grid["bottoms"]) + bottom)]
        kind, falls, fails, unknown = data["answers"][run(column, load)]
        answer = filled.at(place)
        assert (kind, falls or None) == (answer.kind, answer.falls)
        assert tuple(names[one] for one in fails) == answer.fails
        assert tuple(names[one] for one in unknown) == answer.unknown


def test_what_the_page_shows_of_a_grid(book: Book, finder: tuple[FilledGrid, ...]) -> None:
    data = packed(book, finder, "metric")
    grid = next(one for one in data["grids"] if one["block"] == "main")
    assert grid["boom"] == "17.00 m, code 100-0-0"
    assert grid["fitted"] == ("full outriggers, 7 t, page 7-4: counterweight 7.00 t, outriggers full, sector all round")
    assert grid["radii"] == [3, 5, 7, 9, 12]
    assert grid["loads"][:3] == [0.5, 1, 1.5]
    assert grid["bottoms"] == [0, -2, -5, -10, -20]
    assert data["units"] == {"mass": "t", "length": "m"}


@pytest.mark.parametrize("axis", ["tops", "bottoms", "loads"])
def test_in_us_units_no_figure_is_rounded_to_the_milder_side(
    book: Book, finder: tuple[FilledGrid, ...], axis: str
) -> None:
    """A question in feet or pounds that is no more than the figure shown is no more than the figure asked about."""
    data = packed(book, finder[:3], "us")
    unit = 0.45359237 if axis == "loads" else 0.3048
    for filled, grid in zip(finder, data["grids"], strict=False):
        for asked, shown in zip(getattr(filled.grid, axis), grid[axis], strict=True):
            if axis == "bottoms":
                assert asked - 1e-6 <= shown * unit <= asked + 0.001
            else:
                assert asked - 0.001 <= shown * unit <= asked + 1e-6


def test_progress_is_told_and_a_crane_without_charts_has_no_grid() -> None:
    told: list[tuple[int, int]] = []
    book = invented_book()
    bare = replace(book, charts=(book.charts[1],), blocks={"ball": book.blocks["ball"]})
    data = finder_data(bare, invented_settings(), "metric", lambda done, of: told.append((done, of)))
    assert told == [(1, 1)]
    assert data["grids"] != []
    assert finder_data(replace(book, charts=()), invented_settings(), "metric", lambda *_: None)["grids"] == []
