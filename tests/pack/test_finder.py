"""The finder gives the falls table's answer at its places, and never one that is less safe than the question's own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import replace
from random import Random

import pytest

from becket.book.crane import Book
from becket.book.tackle import State
from becket.limits.table import falls_table, row_of
from becket.pack.finder import FilledGrid, fill_grid
from becket.pack.grid import FinderGrid, GridPlace, grids_of, lift_at, round_to_worse
from becket.pack.short_answer import NEAR, NONE, RIG, UNPROVEN, ShortAnswer, short_of
from becket.verdict import Verdict
from tests.crane import CHART, invented_book, invented_settings

SETTINGS = invented_settings()
Question = tuple[tuple[float, float], float, float, float]  # radii, top, bottom, load


def question_in(grid: FinderGrid, random: Random) -> Question:
    """Return a question inside the grid: figures as a crew types them, many light and near, some on the grid."""
    radii = sorted(round(random.uniform(grid.radii[0], grid.radii[-1]) ** random.choice((1, 1, 0.9)), 1) for _ in "ab")
    radii = [min(max(radius, grid.radii[0]), grid.radii[-1]) for radius in radii]
    if random.random() < 0.5:
        radii[1] = radii[0]
    top = round(grid.tops[-1] * random.random() ** 2, 1)
    bottom = min(top, random.choice((0.0, 0.0, round(random.uniform(grid.bottoms[-1], 1.0), 1))))
    load = random.choice((grid.loads[-1] * random.random() ** 2, random.choice(grid.loads)))
    return (radii[0], radii[1]), top, bottom, round(load)


def is_as_safe(book: Book, grid: FinderGrid, question: Question, answer: ShortAnswer) -> bool:
    """Return whether what the finder says holds at the question itself too."""
    radii, top, bottom, load = question
    if answer.kind != RIG or answer.falls is None:
        return True
    state = State(block=grid.block, falls=answer.falls)
    return row_of(book, SETTINGS, state, grid.lift(radii, top, bottom, load)).verdict is Verdict.PASS


def test_a_thousand_questions(book: Book, finder: tuple[FilledGrid, ...]) -> None:
    random, kinds = Random(20261125), Counter[str]()
    for _ in range(1000):
        filled = random.choice(finder)
        question = question_in(filled.grid, random)
        place = round_to_worse(filled.grid, *question)
        assert place is not None, question
        answer = filled.at(place)
        kinds[answer.kind] += 1
        if answer.kind != NEAR:
            table = falls_table(book, SETTINGS, filled.grid.block, lift_at(filled.grid, place))
            assert answer == short_of(table), (filled.grid, question)
        assert is_as_safe(book, filled.grid, question, answer), (filled.grid, question)
    assert kinds[RIG] > 200, kinds
    assert kinds[NONE] > 200, kinds
    assert kinds[NEAR] < 5, kinds


def test_the_steps_of_a_column_one_by_one(book: Book, finder: tuple[FilledGrid, ...]) -> None:
    """Every load of columns chosen at random: stretches found by their ends are what the table says in between."""
    random = Random(4)
    for _ in range(25):
        filled = random.choice([one for one in finder if one.grid.block == "main"])
        least, greatest, top, bottom = random.choice(list(filled.columns))
        for load in range(len(filled.grid.loads)):
            place = GridPlace(least_radius=least, greatest_radius=greatest, top=top, bottom=bottom, load=load)
            answer = filled.at(place)
            if answer.kind != NEAR:
                assert answer == short_of(falls_table(book, SETTINGS, "main", lift_at(filled.grid, place)))


def only(book: Book, block: str, chart: str, boom: float) -> FinderGrid:
    """Return one grid of a crane."""
    return next(one for one in grids_of(book) if (one.block, one.chart, one.boom) == (block, chart, boom))


def milder_question(grid: FinderGrid, place: GridPlace, random: Random) -> Question:
    """Return a question that is read at this place: each figure between the last milder one of the grid and its own."""
    top = random.uniform(grid.tops[place.top - 1] if place.top else 0.0, grid.tops[place.top])
    bottom = random.uniform(grid.bottoms[place.bottom], grid.bottoms[place.bottom - 1] if place.bottom else top)
    load = random.uniform(grid.loads[place.load - 1], grid.loads[place.load])
    least = random.uniform(
        grid.radii[place.least_radius], grid.radii[min(place.least_radius + 1, place.greatest_radius)]
    )
    greatest = random.uniform(max(least, grid.radii[place.greatest_radius - 1]), grid.radii[place.greatest_radius])
    return (least, max(least, greatest)), top, min(bottom, top), load


def test_a_heavy_rope_that_a_chart_counts_beyond_need(book: Book) -> None:
    """A rope six times as heavy: a lighter lift may need a fall fewer, count more rope and fail. Not answered there.

    No pattern on three falls: four are rigged where three are needed, or two. The chart ends where that changes.
    """
    row = replace(
        book.charts[0].rows[0], rated={5.0: 10_540.0, 6.0: 10_535.0, 7.0: 10_530.0, 8.0: 10_525.0, 9.0: 10_520.0}
    )
    heavy = replace(
        book,
        rope=replace(book.rope, mass=8.0),
        blocks={**book.blocks, "main": replace(book.blocks["main"], mass=2000.0)},
        patterns=tuple(one for one in book.patterns if one.falls != 3),
        charts=(replace(book.charts[0], rows=(row,)),),
    )
    grid = only(heavy, "main", CHART, 17.0)
    filled, random = fill_grid(heavy, SETTINGS, grid), Random(11)
    for _ in range(200):
        radii, top, bottom, _ = question_in(grid, random)
        question = radii, top, bottom, random.uniform(7_400, 9_100)
        place = round_to_worse(grid, *question)
        assert place is not None
        answer, table = filled.at(place), falls_table(heavy, SETTINGS, "main", lift_at(grid, place))
        assert is_as_safe(heavy, grid, question, answer), question
        assert answer in (short_of(table), ShortAnswer(NEAR, None, ("chart",))), question
    near = list(places_near(filled))
    assert near, "the case does not arise: the test shows nothing"
    unsafe = 0
    for place in near:
        answer = short_of(falls_table(heavy, SETTINGS, "main", lift_at(grid, place)))
        milder = (milder_question(grid, place, random) for _ in range(6))
        unsafe += not all(is_as_safe(heavy, grid, question, answer) for question in milder)
    assert unsafe > 0, "the falls table at the place would always do: the test shows nothing"


def places_near(filled: FilledGrid) -> Iterator[GridPlace]:
    """Yield the places that are not answered because they are near a limit."""
    for (least, greatest, top, bottom), column in filled.columns.items():
        for load, answer in enumerate(column):
            if answer.kind == NEAR:
                yield GridPlace(least_radius=least, greatest_radius=greatest, top=top, bottom=bottom, load=load)


@pytest.mark.parametrize(
    "missing",
    [
        lambda book: replace(book, rope=replace(book.rope, torque_factor=None)),
        lambda book: replace(book, switch=replace(book.switch, trips=None)),
        lambda book: replace(book, charts=tuple(replace(one, counts=None) for one in book.charts)),
        lambda book: replace(book, boom=replace(book.boom, sag=None), patterns=book.patterns[:4]),
    ],
)
def test_what_is_missing_stays_unknown(missing: Callable[[Book], Book]) -> None:
    book = missing(invented_book())
    grid = only(book, "main", CHART, 24.2)
    filled, random, kinds = fill_grid(book, SETTINGS, grid), Random(12), Counter[str]()
    for _ in range(150):
        question = question_in(grid, random)
        place = round_to_worse(grid, *question)
        assert place is not None
        answer = filled.at(place)
        kinds[answer.kind] += 1
        assert answer == short_of(falls_table(book, SETTINGS, "main", lift_at(grid, place)))
        assert is_as_safe(book, grid, question, answer)
    if book.charts[0].counts is not None:
        assert kinds[UNPROVEN] > 0
        assert kinds[RIG] < 150
