"""The falls finder: the core's answer at every place of a grid, worked out beforehand.

In:    a book, settings, a grid.
Out:   an answer at every place; equal stretches are found by their two ends.
Never: an answer between two places; one that holds at a place but not at a milder question that is read there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.limits.case import case_of
from becket.limits.chart_limit import chart
from becket.limits.lift_case import LiftCase, lift_case
from becket.limits.table import cases_of, find_block
from becket.pack.grid import FinderGrid, GridPlace
from becket.pack.short_answer import NEAR, RIG, ShortAnswer, short_answer
from becket.settings.values import Settings
from becket.verdict import Verdict

BEYOND_NEED = "falls beyond need"  # what a chart counts of the rope
Steps = tuple[int, int, int, int]  # further in load, top, bottom, least radius: each step is to the worse
Stretch = tuple[Steps, Steps]  # mildest and worst corner


@dataclass(frozen=True, kw_only=True)
class FilledGrid:
    """A grid with its answers: ``columns[least radius, greatest radius, top, bottom]`` has one for each load."""

    grid: FinderGrid
    columns: Mapping[tuple[int, int, int, int], tuple[ShortAnswer, ...]]

    def at(self, place: GridPlace) -> ShortAnswer:
        """Return the answer at a place [-].

        Args:
            place: in the grid
        """
        key = place.least_radius, place.greatest_radius, place.top, place.bottom
        return self.columns[key][place.load]


def fill_grid(book: Book, settings: Settings, grid: FinderGrid) -> FilledGrid:
    """Return the answer of the core at every place of a grid [-].

    What is worse for one limit is worse for all: with more load, a higher or lower hook or a wider range of radii no
    limit gets better. So where the mildest and the worst corner of a stretch have the same answer, all of it has.
    The one exception is a chart that counts the rope of the falls beyond need: it is seen to apart.

    Args:
        book: the crane
        settings: in force
        grid: of one block, chart and boom length

    Source: docs/pack.md, "Worked out beforehand".
    """
    columns: dict[tuple[int, int, int, int], list[ShortAnswer]] = {}
    for greatest in range(len(grid.radii)):
        asked = _Asked(book, settings, grid, greatest)
        worst = (len(grid.loads) - 1, len(grid.tops) - 1, len(grid.bottoms) - 1, greatest)
        for (low, high), answer in asked.stretches(((0, 0, 0, 0), worst)):
            count = high[0] - low[0] + 1
            for top in range(low[1], high[1] + 1):
                for bottom in range(low[2], high[2] + 1):
                    for further in range(low[3], high[3] + 1):
                        key = greatest - further, greatest, top, bottom
                        column = columns.setdefault(key, [answer] * len(grid.loads))
                        column[low[0] : high[0] + 1] = [answer] * count
    return FilledGrid(grid=grid, columns={key: tuple(column) for key, column in columns.items()})


class _Asked:
    """The answers for one greatest radius, each worked out once."""

    def __init__(self, book: Book, settings: Settings, grid: FinderGrid, greatest: int) -> None:
        self.book, self.settings, self.grid, self.greatest = book, settings, grid, greatest
        self.known: dict[Steps, ShortAnswer] = {}
        self.block = find_block(book, grid.block)
        self.counts_beyond_need = _counts_beyond_need(book, grid.chart)

    def stretches(self, box: Stretch) -> Iterator[tuple[Stretch, ShortAnswer]]:
        """Yield boxes that together fill the box, with the one answer of each."""
        low, high = box
        answer = self.at(low)
        if low == high or answer == self.at(high):
            if self._holds_between(box):
                yield box, answer
                return
            if low == high:
                yield box, ShortAnswer(NEAR, None, ("chart",))
                return
        axis = self._axis(box)
        middle = (low[axis] + high[axis]) // 2
        yield from self.stretches((low, _moved(high, axis, middle)))
        yield from self.stretches((_moved(low, axis, middle + 1), high))

    def at(self, steps: Steps) -> ShortAnswer:
        """Return the answer of the core so many steps further to the worse."""
        if steps not in self.known:
            self.known[steps] = short_answer(self.book, self.settings, self.grid.block, self._lift(steps))
        return self.known[steps]

    def _lift(self, steps: Steps) -> Lift:
        grid, (load, top, bottom, further) = self.grid, steps
        radii = grid.radii[self.greatest - further], grid.radii[self.greatest]
        return grid.lift(radii, grid.tops[top], grid.bottoms[bottom], grid.loads[load])

    def _axis(self, box: Stretch) -> int:
        """Along which the answer changes when only it is worse; else the longest."""
        low, high = box
        long = [axis for axis in range(4) if low[axis] < high[axis]]
        for axis in long:
            if self.at(_moved(low, axis, high[axis])) != self.at(low):
                return axis
        return max(long, key=lambda axis: high[axis] - low[axis])

    def _holds_between(self, box: Stretch) -> bool:
        """Whether a number of falls holds for milder questions too that are read in this box.

        A milder question may need fewer falls by the lead line; then a chart that counts the rope of the falls
        beyond need counts more of it. It holds where the chart still permits it with as few falls needed as at
        the mildest question that is read here.
        """
        low, high = box
        answer = self.at(high)
        if not self.counts_beyond_need or answer.kind != RIG or answer.falls is None:
            return True
        shared, falls = self._shared(self._lift(high)), answer.falls
        if chart(case_of(shared, falls, 1)).verdict is Verdict.PASS:
            return True
        needed = min(self._needed(lift, falls) for lift in self._mildest(low, high))
        return chart(case_of(shared, falls, needed)).verdict is Verdict.PASS

    def _shared(self, lift: Lift) -> LiftCase:
        return lift_case(self.book, self.settings, self.block, lift)

    def _needed(self, lift: Lift, falls: int) -> int:
        *_, last = cases_of(self._shared(lift), falls)
        return last.needed_falls

    def _mildest(self, low: Steps, high: Steps) -> list[Lift]:
        """The mildest questions that are read in a box: at one radius, with the figures one step back."""
        grid = self.grid
        load = grid.loads[low[0] - 1] if low[0] else 0.0
        top = grid.tops[low[1] - 1] if low[1] else 0.0
        bottom = grid.bottoms[low[2] - 1] if low[2] else top
        radii = grid.radii[self.greatest - high[3] : self.greatest + 1]
        return [grid.lift((radius, radius), top, min(bottom, top), load) for radius in radii]


def _moved(steps: Steps, axis: int, to: int) -> Steps:
    load, top, bottom, further = (to if axis == one else step for one, step in enumerate(steps))
    return load, top, bottom, further


def _counts_beyond_need(book: Book, name: str) -> bool:
    return any(one.name == name and one.counts is not None and one.counts.rope == BEYOND_NEED for one in book.charts)
