"""The grid of the falls finder: the figures at which the core is asked beforehand.

In:    a crane book.
Out:   one grid for each block, chart and boom length: radii as printed, heights and loads in even steps.
Never: an answer; a figure between two of the grid.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from becket.book.boom import BoomLength
from becket.book.charts import Chart
from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import Block
from becket.limits.chart import rows_for

BOTTOMS = (0.0, -2.0, -5.0, -10.0, -20.0)  # lowest hook above the ground at the crane [m]
TOP_STEPS = (1.0, 2.0, 3.0, 4.0, 5.0, 10.0, 20.0)  # between two highest hooks [m]
MOST_TOPS = 14
# up to the first figure loads are read in steps of the second [kg]
LOAD_STEPS = ((10_000.0, 500.0), (30_000.0, 1_000.0), (60_000.0, 2_000.0), (200_000.0, 5_000.0), (1e6, 20_000.0))


@dataclass(frozen=True, kw_only=True)
class FinderGrid:
    """What is asked beforehand of one block with one chart and one boom length; every list runs to the worse."""

    block: str
    chart: str
    boom: float  # [m]
    code: str
    sector: str | None  # that the chart is printed for; None: all round
    radii: tuple[float, ...]  # as the chart prints them, shortest first [m]
    tops: tuple[float, ...]  # highest hook, lowest first [m]
    bottoms: tuple[float, ...]  # lowest hook, highest first [m]
    loads: tuple[float, ...]  # all that hangs on the hook, lightest first [kg]

    def lift(self, radii: tuple[float, float], top: float, bottom: float, load: float) -> Lift:
        """Return the lift that the core is asked about [-].

        Args:
            radii: least and greatest [m]
            top: highest hook [m]
            bottom: lowest hook [m]
            load: with everything that it is slung with, weighed or from the drawing [kg]
        """
        return Lift(
            name="finder",
            load=load,
            load_basis="weighed",
            rigging=0.0,
            chart=self.chart,
            boom=self.boom,
            code=self.code,
            radius=radii,
            top=top,
            bottom=bottom,
            handling=None,
            sector=self.sector,
        )


@dataclass(frozen=True, kw_only=True)
class GridPlace:
    """One place of a grid, by the index in each of its lists."""

    least_radius: int
    greatest_radius: int
    top: int
    bottom: int
    load: int


def grids_of(book: Book) -> tuple[FinderGrid, ...]:
    """Return every grid of a crane: each block, each chart, each boom length that the chart is printed for [-].

    Args:
        book: the crane

    Source: docs/pack.md, "The grid".
    """
    return tuple(
        grid
        for block in sorted(book.blocks.values(), key=lambda block: block.name)
        for chart in book.charts
        for length in book.boom.lengths
        for grid in _grid(book, block, chart, length)
    )


def round_to_worse(
    grid: FinderGrid, radii: tuple[float, float], top: float, bottom: float, load: float
) -> GridPlace | None:
    """Return the place at which a question is answered: each figure at the next worse of the grid; None: outside.

    Args:
        grid: of the block, chart and boom length asked about
        radii: least and greatest [m]
        top: highest hook [m]
        bottom: lowest hook [m]
        load: on the hook [kg]

    Source: docs/pack.md, "Rounding".
    """
    place = GridPlace(
        least_radius=bisect_right(grid.radii, radii[0]) - 1,
        greatest_radius=bisect_left(grid.radii, radii[1]),
        top=bisect_left(grid.tops, top),
        bottom=bisect_left([-depth for depth in grid.bottoms], -bottom),
        load=bisect_left(grid.loads, load),
    )
    is_inside = (
        place.least_radius >= 0
        and place.greatest_radius < len(grid.radii)
        and place.top < len(grid.tops)
        and place.bottom < len(grid.bottoms)
        and place.load < len(grid.loads)
        and load >= 0
        and bottom <= top
    )
    return place if is_inside else None


def lift_at(grid: FinderGrid, place: GridPlace) -> Lift:
    """Return the lift at a place of the grid [-].

    Args:
        grid: of one block, chart and boom length
        place: in it
    """
    radii = grid.radii[place.least_radius], grid.radii[place.greatest_radius]
    return grid.lift(radii, grid.tops[place.top], grid.bottoms[place.bottom], grid.loads[place.load])


def _grid(book: Book, block: Block, chart: Chart, length: BoomLength) -> list[FinderGrid]:
    rows = rows_for(chart, length.length, length.sections)
    longest = max(rows, key=lambda row: row.length, default=None)  # between two rows: those of the longer boom
    radii = sorted(longest.rated) if longest else []
    loads = _loads(block, [mass for row in rows for mass in row.rated.values()])
    if not radii or not loads:
        return []
    return [
        FinderGrid(
            block=block.name,
            chart=chart.name,
            boom=length.length,
            code=length.code,
            sector=None if chart.sector == "all round" else chart.sector,
            radii=tuple(radii),
            tops=_tops(length.length + max(book.boom.foot_z, 0.0)),
            bottoms=BOTTOMS,
            loads=loads,
        )
    ]


def _tops(reach: float) -> tuple[float, ...]:
    """Heights in even steps up to the first that no hook of this boom can reach."""
    step = next((step for step in TOP_STEPS if reach <= step * MOST_TOPS), TOP_STEPS[-1])
    return tuple(step * count for count in range(1, ceil(reach / step) + 1))


def _loads(block: Block, printed: Sequence[float]) -> tuple[float, ...]:
    """Loads in steps up to what the block or the chart can carry at most; neither carries more."""
    most = min([*([block.rated] if block.rated is not None else []), max(printed, default=0.0)])
    loads, load = [], 0.0
    for end, step in LOAD_STEPS:
        while load < min(end, most):
            load += step
            loads.append(min(load, most))
    return tuple(loads)
