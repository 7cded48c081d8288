"""Which states can do a lift, and how long each takes.

In:    a crane book, settings, a lift.
Out:   states whose every limit is pass, with their hook speed; else the limit that stops the nearest one.
Never: unknown counted as pass; a state without a confirmed pattern.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.limits.answer import Row
from becket.limits.case import Case, case_of
from becket.limits.lift_case import lift_case
from becket.limits.line_pull import may_lift
from becket.limits.registry import LIMITS
from becket.limits.table import find_block, row_of
from becket.planning.model import grain_up
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.verdict import Verdict

# the limits that stop most states and take least are asked first; a state passes when all of them do
_FIRST = ("lead_line_pull", "chart", "overhaul", "rope_length")
_ORDER = tuple(sorted((name for name in LIMITS if name != "pattern"), key=lambda name: name not in _FIRST))


@dataclass(frozen=True, kw_only=True)
class Able:
    """The states that can do a lift; where there is none, the limit that stops the nearest."""

    speeds: Mapping[State, float]  # state -> hook speed raising, at the slower layer [m/s]
    stopped_by: str | None
    why: str | None


class Ability:
    """Asks the limits of one crane; equal lifts are asked once."""

    def __init__(self, book: Book, settings: Settings) -> None:
        self.book, self.settings = book, settings
        self.states = tuple(pattern.state for pattern in book.patterns)
        confirmed = {pattern.state for pattern in book.patterns if is_confirmed(book, pattern)}
        self._falls = {
            block: tuple(sorted(state.falls for state in confirmed if state.block == block))
            for block in dict.fromkeys(state.block for state in self.states if state in confirmed)
        }
        self._known: dict[Lift, Able] = {}
        self._patterns: dict[tuple[object, ...], Verdict] = {}

    def able(self, lift: Lift) -> Able:
        """Return the states that can do a lift [-].

        Args:
            lift: one entry of ``lifts``
        """
        key = replace(lift, name="", count=1, handling=None)
        if key not in self._known:
            self._known[key] = self._ask(lift)
        return self._known[key]

    def _ask(self, lift: Lift) -> Able:
        speeds: dict[State, float] = {}
        if lift.kind is None:
            for block, falls in self._falls.items():
                speeds.update(self._speeds(lift, block, falls))
        if speeds:
            return Able(speeds=speeds, stopped_by=None, why=None)
        return _stopped([(state, row_of(self.book, self.settings, state, lift)) for state in self.states])

    def _speeds(self, lift: Lift, block: str, wanted: tuple[int, ...]) -> dict[State, float]:
        shared = lift_case(self.book, self.settings, find_block(self.book, block), lift)
        speeds: dict[State, float] = {}
        needed: int | None = None
        for falls in range(1, wanted[-1] + 1):
            case = case_of(shared, falls, needed or falls)
            if needed is None and may_lift(case):
                needed = falls
            if falls in wanted and self._passes(case) and isinstance(case.line_speed, float):
                speeds[State(block=block, falls=falls)] = case.line_speed / falls
        return speeds

    def _passes(self, case: Case) -> bool:
        """Return whether every limit of the falls table passes; the first that does not ends it."""
        return all(LIMITS[name](case).verdict is Verdict.PASS for name in _ORDER) and (
            self._pattern(case) is Verdict.PASS
        )

    def _pattern(self, case: Case) -> Verdict:
        """Return the verdict on the pattern, which knows a lift by its fall lengths alone: kept, it takes longest."""
        geometry = case.shared.geometry
        key = (case.shared.block.name, case.falls, geometry.least_fall, geometry.greatest_fall)
        if key not in self._patterns:
            self._patterns[key] = LIMITS["pattern"](case).verdict
        return self._patterns[key]


def _stopped(rows: list[tuple[State, Row]]) -> Able:
    """Return the limit that stops the state that comes nearest: fewest fails, then fewest unknowns, then least use."""
    if not rows:
        return Able(speeds={}, stopped_by="pattern", why="No reeving pattern is on file: type them in from the manual.")
    state, row = min(rows, key=lambda entry: _distance(entry[1]))
    if row.verdict is Verdict.PASS:
        why = f"{state} can carry it, but winch.speed is not on file: how long it takes is unknown."
        return Able(speeds={}, stopped_by="lead_line_pull", why=why)
    limit = row.limit(row.governs)
    return Able(speeds={}, stopped_by=limit.name, why=f"{state}: {limit.verdict} at {limit.name}: {limit.why}")


def _distance(row: Row) -> tuple[int, int, float]:
    fails = [limit for limit in row.limits if limit.verdict is Verdict.FAIL]
    unknowns = [limit for limit in row.limits if limit.verdict is Verdict.UNKNOWN]
    return len(fails), len(unknowns), max((limit.use or 0.0 for limit in fails or unknowns), default=0.0)


def what_stops(book: Book, settings: Settings, lift: Lift, state: State) -> str:
    """Return which limit stops a state from doing a lift, in words [-].

    Args:
        book: the crane
        settings: in force
        lift: one entry of ``lifts``
        state: one that cannot do it
    """
    row = row_of(book, settings, state, lift)
    return f"{row.verdict} at {row.governs.replace('_', ' ')}"


def lifting_minutes(lift: Lift, hook_speed: float, settings: Settings) -> float | None:
    """Return how long one entry of ``lifts`` takes in a state, rounded up to the grain; None: not stated [min].

    Args:
        lift: the entry
        hook_speed: raising, at the slower layer [m/s]
        settings: the share of that speed that crews use

    Source: docs/theory/planning.md, eq. 2.
    """
    if lift.handling is None or lift.top is None or lift.bottom is None:
        return None
    hoisting = (lift.top - lift.bottom) * 2 / (hook_speed * settings.pace)
    return grain_up(lift.count * (lift.handling + hoisting) / 60)


def missing_of(lift: Lift) -> tuple[str, ...]:
    """Return the figures of a lift that its minutes need and that are not given [-].

    Args:
        lift: one entry of ``lifts``
    """
    figures = {"handling": lift.handling, "top": lift.top, "bottom": lift.bottom}
    return tuple(name for name, value in figures.items() if value is None)
