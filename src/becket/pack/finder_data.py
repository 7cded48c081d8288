"""The falls finder as the page reads it: tables to look up, nothing to work out.

In:    a book, settings, units.
Out:   plain lists and texts for JSON; equal columns once, equal stretches as count and number.
Never: an answer of its own.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor

from becket.book.crane import Book
from becket.cards.falls_grid import Progress
from becket.figures import shown
from becket.limits.registry import LIMITS
from becket.pack.finder import FilledGrid, fill_grid
from becket.pack.grid import FinderGrid, grids_of
from becket.pack.short_answer import ShortAnswer
from becket.pack.strings import Numbered, run_lengths
from becket.settings.values import Settings
from becket.units import read_quantity

PAGE_UNITS = {"metric": {"mass": "t", "length": "m"}, "us": {"mass": "lb", "length": "ft"}}


def finder_data(book: Book, settings: Settings, system: str, progress: Progress) -> dict[str, object]:
    """Return every grid of a crane with its answers [-].

    Args:
        book: the crane
        settings: in force
        system: "metric" or "us": in which units the page asks
        progress: is told after each grid
    """
    grids = grids_of(book)
    packed = Packed(system)
    for number, grid in enumerate(grids, 1):
        packed.add(book, fill_grid(book, settings, grid))
        progress(number, len(grids))
    return packed.data()


class Packed:
    """Grids packed into tables that they share."""

    def __init__(self, system: str) -> None:
        self.system = system
        self.answers, self.columns, self.maps = Numbered(), Numbered(), Numbered()
        self.grids: list[dict[str, object]] = []

    def add(self, book: Book, filled: FilledGrid) -> None:
        """Add one grid [-]."""
        grid = filled.grid
        pairs = [(least, greatest) for greatest in range(len(grid.radii)) for least in range(greatest + 1)]
        self.grids.append(self._face(book, grid) | {"maps": [self._map(filled, pair) for pair in pairs]})

    def data(self) -> dict[str, object]:
        """Return the tables and the grids [-]."""
        return {
            "units": PAGE_UNITS[self.system],
            "limits": [name.replace("_", " ") for name in LIMITS],
            "answers": [_answer(one) for one in self.answers.every if isinstance(one, ShortAnswer)],
            "columns": self.columns.every,
            "maps": self.maps.every,
            "grids": self.grids,
        }

    def _map(self, filled: FilledGrid, pair: tuple[int, int]) -> int:
        grid = filled.grid
        numbers = []
        for top in range(len(grid.tops)):
            for bottom in range(len(grid.bottoms)):
                column = filled.columns[(*pair, top, bottom)]
                runs = run_lengths(self.answers.number_of(answer) for answer in column)
                numbers.append(self.columns.number_of(runs))
        return self.maps.number_of(run_lengths(numbers))

    def _face(self, book: Book, grid: FinderGrid) -> dict[str, object]:
        chart = next(one for one in book.charts if one.name == grid.chart)
        page = f", page {chart.page}" if chart.page else ", page not on file"
        counterweight = shown(chart.counterweight, "mass", self.system)
        return {
            "block": grid.block,
            "chart": grid.chart,
            "boom": f"{shown(grid.boom, 'length', self.system)}, code {grid.code}",
            "fitted": f"{grid.chart}{page}: counterweight {counterweight}, outriggers {chart.outriggers or '?'}, "
            f"sector {chart.sector or '?'}",
            "radii": self._axis(grid.radii, "length", up=None),
            "tops": self._axis(grid.tops, "length", up=False),
            "bottoms": self._axis(grid.bottoms, "length", up=True),
            "loads": self._axis(grid.loads, "mass", up=False),
        }

    def _axis(self, values: Sequence[float], kind: str, *, up: bool | None) -> list[float]:
        """The figures in the unit of the page, rounded so that no question passes for a milder one.

        A radius is a bound on both sides and keeps all its digits.
        """
        unit = read_quantity(f"1 {PAGE_UNITS[self.system][kind]}", kind)
        if up is None:
            return [value / unit for value in values]
        toward = ceil if up else floor
        return [toward(value / unit * 1000 + (-1e-6 if up else 1e-6)) / 1000 for value in values]


def _answer(answer: ShortAnswer) -> list[object]:
    names = list(LIMITS)
    fails, unknown = ([names.index(name) for name in part] for part in (answer.fails, answer.unknown))
    return [answer.kind, answer.falls or 0, fails, unknown]
