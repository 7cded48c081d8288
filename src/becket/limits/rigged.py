"""What the reeving that is on can do: the greatest load and the lowest hook.

In:    a book, settings, a state, boom, radius and heights.
Out:   a load and a height, each with the limit that governs it.
Never: a load from limits of which one is unknown; rounding up a load, rounding down a height.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from math import floor

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.limits.answer import RiggedAnswer, Row
from becket.limits.case import case_of
from becket.limits.lift_case import lift_case
from becket.limits.line_pull import may_lift
from becket.limits.table import find_block, row_of
from becket.settings.values import Settings
from becket.verdict import Verdict

CENTIMETRES = 100  # heights are answered in whole centimetres, loads in whole kilograms


@dataclass(frozen=True, slots=True)
class _Found:
    value: int | None  # greatest whole number that passes; None: not even the first
    governs: str  # the limit that does not pass one further on, or at the first


def rigged_limits(book: Book, settings: Settings, state: State, lift: Lift) -> RiggedAnswer:
    """Return what a state can do at one boom length and radius range [-].

    The greatest load is what may hang on the hook, rigging counted, with the hook anywhere from bottom to top:
    every limit passes at it and at every lighter load. The lowest hook is worked out with nothing on the hook.

    Args:
        book: the crane
        settings: in force
        state: block and falls that are on
        lift: boom, radius, chart, top, bottom; its load and rigging are not looked at

    Raises:
        NotOnFileError: the book has no such block.

    Source: docs/theory/limits.md, "The other way round".
    """
    find_block(book, state.block)
    rows = _Rows(book, settings, state, replace(lift, load=0.0, load_basis="weighed", rigging=0.0))
    load, hook = _greatest_load(rows), _lowest_hook(rows)
    row = rows.at_load(load.value or 0)
    return RiggedAnswer(
        state=state,
        verdict=Verdict.FAIL if load.value == 0 else row.verdict,
        greatest_load=None if load.value is None else float(load.value),
        load_governs=load.governs,
        lowest_hook=None if hook.value is None else -hook.value / CENTIMETRES,
        hook_governs=hook.governs,
        limits=row.limits,
    )


@dataclass(frozen=True, slots=True)
class _Rows:
    """Rows of one state at other loads and depths."""

    book: Book
    settings: Settings
    state: State
    lift: Lift

    def at_load(self, load: int) -> Row:
        return row_of(self.book, self.settings, self.state, replace(self.lift, load=float(load)))

    def at_depth(self, depth: int) -> Row:
        lift = replace(self.lift, bottom=-depth / CENTIMETRES)
        top = lift.bottom if lift.top is None or lift.bottom is None else max(lift.top, lift.bottom)
        return row_of(self.book, self.settings, self.state, replace(lift, top=None if self.lift.top is None else top))


def _greatest_load(rows: _Rows) -> _Found:
    """The greatest whole kilogram of which it and every lighter load passes, by halving between the loads at
    which a fall more is needed: only there does what a chart counts become less."""
    first = rows.at_load(0)
    block = rows.book.blocks[rows.state.block]
    if first.verdict is not Verdict.PASS or block.rated is None:
        return _Found(None, first.governs)
    passed = 0
    for end in (*_steps(rows, floor(block.rated)), floor(block.rated) + 1):
        if end <= passed or rows.at_load(end).verdict is Verdict.PASS:
            passed = max(passed, end)
            continue
        passed = _last_passing(rows.at_load, passed, end)
        break
    return _Found(passed, rows.at_load(passed + 1).governs)


def _steps(rows: _Rows, most: int) -> tuple[int, ...]:
    """The greatest load, at most ``most``, that each smaller number of falls lifts by its lead line pull."""
    block = find_block(rows.book, rows.state.block)

    def is_lifted(load: int, falls: int) -> bool:
        shared = lift_case(rows.book, rows.settings, block, replace(rows.lift, load=float(load)))
        return may_lift(case_of(shared, falls, falls))

    steps = []
    for falls in range(1, rows.state.falls):
        low, high = -1, most + 1
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if is_lifted(middle, falls) else (low, middle)
        steps.append(low)
    return tuple(sorted(step for step in steps if 0 < step <= most))


def _lowest_hook(rows: _Rows) -> _Found:
    """The greatest whole centimetre of depth that passes with nothing on the hook."""
    if rows.lift.bottom is None or rows.lift.top is None:
        return _Found(None, rows.at_load(0).governs)
    length = rows.book.rope.length
    first = -floor(max(rows.lift.top, rows.lift.bottom) * CENTIMETRES + 1e-6)
    start = rows.at_depth(first)
    if start.verdict is not Verdict.PASS or length is None:
        return _Found(None, start.governs)
    depth = _last_passing(rows.at_depth, first, first + floor(length * CENTIMETRES) + 1)
    return _Found(depth, rows.at_depth(depth + 1).governs)


def _last_passing(row_at: Callable[[int], Row], passing: int, failing: int) -> int:
    """The last whole number that passes, between one that does and one that does not."""
    while failing - passing > 1:
        middle = (passing + failing) // 2
        if row_at(middle).verdict is Verdict.PASS:
            passing = middle
        else:
            failing = middle
    return passing
