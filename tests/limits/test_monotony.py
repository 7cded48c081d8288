"""A worse input never turns fail into pass or unknown, nor unknown into pass; a missing figure never gives pass."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.book.charts import ChartCounts, ChartRow
from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.limits.table import row_of
from becket.verdict import Verdict
from tests.crane import invented_book, invented_lift, invented_settings, sealed

GOODNESS = {Verdict.FAIL: 0, Verdict.UNKNOWN: 1, Verdict.PASS: 2}
SETTINGS = invented_settings()

Worse = Callable[[Book, Lift, float], tuple[Book, Lift]]


def _part(name: str, field: str, factor: Callable[[float, float], float]) -> Worse:
    def worse(book: Book, lift: Lift, share: float) -> tuple[Book, Lift]:
        part = getattr(book, name)
        changes: dict[str, Any] = {field: factor(getattr(part, field), share)}
        return replace(book, **{name: replace(part, **changes)}), lift

    return worse


def _block(field: str, factor: Callable[[float, float], float]) -> Worse:
    def worse(book: Book, lift: Lift, share: float) -> tuple[Book, Lift]:
        blocks = {}
        for name, block in book.blocks.items():
            changes: dict[str, Any] = {field: factor(getattr(block, field) or 0.0, share)}
            blocks[name] = replace(block, **changes)
        return replace(book, blocks=blocks), lift

    return worse


def _lift(change: Callable[[Lift, float], Lift]) -> Worse:
    return lambda book, lift, share: (book, change(lift, share))


def _less(value: float, share: float) -> float:
    return value * (1 - share)


def _more(value: float, share: float) -> float:
    return value * (1 + share)


def _wider(lift: Lift, share: float) -> Lift:
    assert lift.radius is not None
    return replace(lift, radius=(lift.radius[0] * (1 - share / 3), lift.radius[1] * (1 + share)))


def _pulls(book: Book, lift: Lift, share: float) -> tuple[Book, Lift]:
    return replace(book, winch=replace(book.winch, pull=tuple(p * (1 - share) for p in book.winch.pull))), lift


def _charts(book: Book, lift: Lift, share: float) -> tuple[Book, Lift]:
    def lower(row: ChartRow) -> ChartRow:
        return replace(row, rated={radius: mass * (1 - share) for radius, mass in row.rated.items()})

    return replace(book, charts=tuple(replace(c, rows=tuple(map(lower, c.rows))) for c in book.charts)), lift


def _less_table(book: Book, lift: Lift, share: float) -> tuple[Book, Lift]:
    assert book.falls_table is not None
    loads = {n: m * (1 - share) for n, m in book.falls_table.loads.items()}
    return replace(book, falls_table=replace(book.falls_table, loads=loads)), lift


WORSE: dict[str, Worse] = {
    "more load": _lift(lambda lift, share: replace(lift, load=(lift.load or 0) * (1 + share))),
    "more rigging": _lift(lambda lift, share: replace(lift, rigging=(lift.rigging or 0) * (1 + 5 * share))),
    "wider radii": _lift(_wider),
    "lower hook": _lift(lambda lift, share: replace(lift, bottom=(lift.bottom or 0) - 60 * share)),
    "higher hook": _lift(lambda lift, share: replace(lift, top=(lift.top or 0) + 20 * share)),
    "an estimate": _lift(lambda lift, _: replace(lift, load_basis="estimate")),
    "no basis": _lift(lambda lift, _: replace(lift, load_basis=None)),
    "lower pull": _pulls,
    "lower chart": _charts,
    "lower table": _less_table,
    "shorter rope": _part("rope", "length", _less),
    "weaker rope": _part("rope", "breaking_force", _less),
    "heavier rope": _part("rope", "mass", _more),
    "greater design factor": _part("rope", "design_factor", _more),
    "greater torque factor": _part("rope", "torque_factor", lambda value, share: value * (1 + 20 * share)),
    "weaker fitting": _part("dead_end", "efficiency", _less),
    "more drag": _part("winch", "drag", lambda value, share: value * (1 + 20 * share)),
    "more least wraps": _part("winch", "least_wraps", lambda value, share: value + int(20 * share)),
    "more guide sheaves": _part("winch", "guide_sheaves", lambda value, share: value + int(4 * share)),
    "wider trip distance": _part("switch", "trips", lambda value, share: value * (1 + 10 * share)),
    "narrower fleet limit": _part("fleet", "sheave", _less),
    "narrower drum limit": _part("fleet", "drum", _less),
    "lower rating": _block("rated", _less),
    "rougher sheaves": lambda book, lift, share: (replace(book, sheave_efficiency=0.98 * (1 - share / 4)), lift),
    "second line": lambda book, lift, share: (
        replace(book, second_line=replace(book.second_line, mass=3000 * share)) if book.second_line else book, lift,
    ),
}  # fmt: skip

# what else these change for the better, limit by limit
EXCEPT: dict[str, set[str]] = {
    "heavier rope": {"overhaul"},  # falls of one fall weigh the rope down
    "shorter rope": {"lead_line_pull"},  # fewer layers, more pull
    "rougher sheaves": set(),
    "more guide sheaves": set(),
    "wider trip distance": {"overhaul"},  # the hook's highest place is lower
    "wider radii": set(),
}

lifts = st.builds(
    lambda load, near, far, top, bottom: invented_lift(
        load=load, radius=(near, near + far), top=top, bottom=-bottom
    ),
    st.floats(100, 14_000),
    st.floats(3.2, 6.0),
    st.floats(0, 6.0),
    st.floats(0, 12.0),
    st.floats(0, 30.0),
)  # fmt: skip


def _without_need(book: Book) -> Book:
    """Charts that count all rope: with falls beyond need they count less rope where more falls are needed."""
    counts = ChartCounts(rigging=True, block=True, rope="yes", stowed=True)
    return replace(book, charts=tuple(replace(chart, counts=counts) for chart in book.charts))


BOOK = _without_need(invented_book())


@pytest.mark.parametrize("name", list(WORSE))
@settings(derandomize=True, deadline=None, max_examples=25)
@given(lift=lifts, falls=st.integers(1, 6), share=st.floats(0.0, 0.6))
def test_a_worse_input_never_makes_a_limit_better(name: str, lift: Lift, falls: int, share: float) -> None:
    state = State(block="main", falls=falls)
    before = row_of(BOOK, SETTINGS, state, lift)
    book, worse = WORSE[name](BOOK, lift, share)
    after = row_of(book if book is BOOK else sealed(book), SETTINGS, state, worse)
    for one, other in zip(before.limits, after.limits, strict=True):
        if one.name not in EXCEPT.get(name, set()):
            assert GOODNESS[other.verdict] <= GOODNESS[one.verdict], (one, other)


MISSING_PARTS = [
    *(("rope", field) for field in ("length", "mass", "breaking_force", "design_factor", "torque_factor")),
    *(("winch", field) for field in ("at_x", "least_wraps", "guide_sheaves", "drag")),
    *(("switch", field) for field in ("trips", "margin")),
    *(("fleet", field) for field in ("sheave", "drum")),
    *(("dead_end", field) for field in ("rope_diameter", "efficiency", "tail")),
    *(("head", field) for field in ("rope_diameter", "lead")),
    ("boom", "sag"),
    *(("book", field) for field in ("second_line", "stowed", "falls_table", "sheave_efficiency")),
    *(("block", field) for field in ("rated", "mass", "rope_diameter", "sheave_diameter", "becket", "hook")),
    *(("block", field) for field in ("mass_centre", "swivel")),
    *(("lift", field) for field in ("load", "rigging", "chart", "boom", "radius", "top", "bottom")),
]


def _taken(book: Book, lift: Lift, part: str, field: str) -> tuple[Book, Lift]:
    gone: dict[str, Any] = {field: None}
    if part == "lift":
        return book, replace(lift, **gone)
    if part == "book":
        return replace(book, **gone), lift
    if part == "block":
        return replace(book, blocks={name: replace(block, **gone) for name, block in book.blocks.items()}), lift
    whole: dict[str, Any] = {part: replace(getattr(book, part), **gone)}
    return replace(book, **whole), lift


@pytest.mark.parametrize(("part", "field"), MISSING_PARTS)
@settings(derandomize=True, deadline=None, max_examples=12)
@given(lift=lifts, falls=st.integers(1, 7))
def test_a_missing_figure_never_makes_a_limit_pass(part: str, field: str, lift: Lift, falls: int) -> None:
    state = State(block="main", falls=falls)
    before = row_of(BOOK, SETTINGS, state, lift)
    book, asked = _taken(BOOK, lift, part, field)
    after = row_of(sealed(book), SETTINGS, state, asked)
    for one, other in zip(before.limits, after.limits, strict=True):
        if other.verdict is Verdict.PASS:
            assert one.verdict is Verdict.PASS, (one, other)
