"""The greatest load of every reeving on file, over the boom lengths and radii that the charts print.

In:    a crane book, settings, a block.
Out:   for each chart, rows of answers of the limits, with the conditions that they hold for.
Never: a load that the limits do not give; a radius or a boom length between two that are printed.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import floor

from becket.book.charts import Chart, ChartRow
from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.limits.answer import RiggedAnswer
from becket.limits.rigged import rigged_limits
from becket.settings.values import Settings

TOP_SHARE = 3.0  # the hook goes from the ground up to the boom's length over this, down to a whole metre
ALL_ROUND = "all round"

Progress = Callable[[int, int], None]  # how many of how many are done


@dataclass(frozen=True, kw_only=True)
class GridRow:
    """One boom length and radius of a chart. ``answers`` in the order of the states."""

    boom: float  # [m]
    code: str
    radius: float  # [m]
    top: float  # highest hook saddle [m]
    answers: tuple[RiggedAnswer, ...]


@dataclass(frozen=True, kw_only=True)
class Grid:
    """The rows of one chart."""

    chart: Chart
    states: tuple[State, ...]
    rows: tuple[GridRow, ...]


def states_with_patterns(book: Book, block: str) -> tuple[State, ...]:
    """Return the states of a block of which a pattern is on file, fewest falls first [-].

    Args:
        book: the crane
        block: its name
    """
    return tuple(sorted(pattern.state for pattern in book.patterns if pattern.block == block))


def falls_grids(book: Book, settings: Settings, block: str, progress: Progress | None = None) -> tuple[Grid, ...]:
    """Return the answers for every chart, boom length and radius that the book prints [-].

    Args:
        book: the crane
        settings: in force
        block: its name
        progress: told after every row
    """
    states = states_with_patterns(book, block)
    places = [(chart, row, radius) for chart in book.charts for row in chart.rows for radius in sorted(row.rated)]
    found: dict[str, list[GridRow]] = {chart.name: [] for chart in book.charts}
    for done, (chart, row, radius) in enumerate(places, 1):
        found[chart.name].append(_row(book, settings, states, chart, row, radius))
        if progress is not None:
            progress(done, len(places))
    return tuple(Grid(chart=chart, states=states, rows=tuple(found[chart.name])) for chart in book.charts)


def grid_lift(chart: Chart, row: ChartRow, radius: float) -> Lift:
    """Return the lift that a row of the grid is worked out for: hook from the ground to its top [SI].

    Args:
        chart: whose conditions hold
        row: boom length
        radius: printed [m]
    """
    return Lift(
        name="card",
        load=None,
        load_basis=None,
        rigging=None,
        chart=chart.name,
        boom=row.length,
        radius=(radius, radius),
        top=float(floor(row.length / TOP_SHARE)),
        bottom=0.0,
        handling=None,
        sector=None if chart.sector == ALL_ROUND else chart.sector,
        code=row.code,
        counterweight=chart.counterweight,
        outriggers=chart.outriggers,
    )


def _row(
    book: Book, settings: Settings, states: tuple[State, ...], chart: Chart, row: ChartRow, radius: float
) -> GridRow:
    lift = grid_lift(chart, row, radius)
    answers = tuple(rigged_limits(book, settings, state, lift) for state in states)
    return GridRow(boom=row.length, code=row.code, radius=radius, top=lift.top or 0.0, answers=answers)
