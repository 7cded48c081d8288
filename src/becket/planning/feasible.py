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
from becket.limits.table import falls_table, row_of
from becket.planning.model import grain_up
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.verdict import Verdict


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
        rows = falls_table(self.book, self.settings, block, lift).rows
        return {
            State(block=block, falls=row.falls): row.hook_speed
            for row in rows
            if row.falls in wanted and row.verdict is Verdict.PASS and row.hook_speed is not None
        }


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
