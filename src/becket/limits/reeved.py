"""One pattern of a book, reeved: what is the same for every lift, worked out once for each book.

In:    a book, one of its patterns.
Out:   one frozen record; what is missing is carried as missing.
Never: a lift, a setting, a verdict of a limit.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from itertools import combinations, compress
from math import hypot, inf
from weakref import ref

from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.limits.figures import Figure, Missing, on_file, worked_out
from becket.mechanics.fleet import fall_offsets
from becket.mechanics.tackle import raising_tensions, static_tensions
from becket.mechanics.tilt import pull_offset
from becket.mechanics.twist import Place, twist_length
from becket.reeving.crossings import PlanPlaces, fall_lines, plan_places
from becket.reeving.finding import Finding, pattern_case
from becket.reeving.pattern import PATTERN_CHECKS, find_pattern
from becket.reeving.places import FallPlaces
from becket.settings.values import Settings
from becket.verdict import Verdict, worst


@dataclass(frozen=True, slots=True)
class Nearness:
    """How near falls come, whatever their length."""

    level: float  # least distance of two falls at one height [m]
    run: float  # greatest sideways run of a fall [m]

    def at_least(self, fall_length: float) -> float:
        """Return what two falls keep in space at this fall length or any longer one, or less than they keep [m].

        Points at heights apart by z are v + (run/h) z apart sideways, v their distance at one height: no nearer
        than v cos(slant).

        Args:
            fall_length: head shaft to block shaft, more than 0 [m]

        Source: docs/theory/limits.md, "Pattern".
        """
        return self.level * fall_length / hypot(fall_length, self.run)


@dataclass(frozen=True, kw_only=True, slots=True)
class Reeved:
    """A pattern with the places of its falls and what follows from them alone. It holds no book, so none is kept."""

    pattern: Pattern
    places: FallPlaces | None  # None: a sideways place is not on file
    lacking: tuple[str, ...]  # what keeps the places from being known
    findings: tuple[Finding, ...]  # of the checks that no lift enters: words, counts, places, confirmation
    verdict: Verdict  # of these findings
    nearness: Nearness | None  # None: a place along is not on file
    twist_length: Figure  # fall length at which the rope turns the block over [m]
    pull_offset: Figure  # of the falls from the block's middle plane, greatest of the ways of moving [m]
    fleet_offset: Figure  # greatest sideways run of a fall to its sheave, block free or held [m]
    first_side: Figure  # first head sheave from the boom's middle [m]


# tilt, fleet angle and twist are limits of their own; falls that cross are named with the pattern
_OF_A_LIFT = frozenset({"tilt", "fleet_angle", "hangs_turned", "twist_length", "falls_that_cross", "falls_that_rub"})

_KNOWN: dict[int, tuple[ref[Book], dict[State, Reeved | None]]] = {}


def reeved_of(book: Book, settings: Settings, state: State) -> Reeved | None:
    """Return the pattern of a state with what follows from it, None: not on file [-].

    A book never changes, so the answer is kept as long as the very same record is in use.

    Args:
        book: the crane
        settings: in force; no finding kept here depends on them
        state: block and falls
    """
    key = id(book)
    kept = _KNOWN.get(key)
    if kept is None or kept[0]() is not book:
        kept = _KNOWN[key] = (ref(book, partial(_forget, _KNOWN, key)), {})
    if state not in kept[1]:
        pattern = find_pattern(book, state)
        kept[1][state] = None if pattern is None else work_out_reeved(book, settings, pattern)
    return kept[1][state]


def _forget(known: dict[int, tuple[ref[Book], dict[State, Reeved | None]]], key: int, _: object) -> None:
    """Drop what was kept of a book that is gone; it holds the dictionary itself, for the interpreter's last moments."""
    known.pop(key, None)


def work_out_reeved(book: Book, settings: Settings, pattern: Pattern) -> Reeved:
    """Return a pattern with what follows from it [-].

    Args:
        book: the crane
        settings: in force; no finding kept here depends on them
        pattern: of the book

    Source: docs/theory/twist.md, tilt.md, fleet.md.
    """
    checked = pattern_case(book, settings, pattern)
    places = Missing(checked.lacking) if checked.places is None else checked.places
    findings = tuple(check(checked) for name, check in PATTERN_CHECKS.items() if name not in _OF_A_LIFT)
    plan = worked_out(_plan, places)
    rope = book.rope
    return Reeved(
        pattern=pattern,
        places=checked.places,
        lacking=checked.lacking,
        findings=findings,
        verdict=worst(finding.verdict for finding in findings),
        nearness=nearness_of(plan) if isinstance(plan, PlanPlaces) else None,
        twist_length=worked_out(
            lambda ends, factor: twist_length(ends.tops, ends.lows, factor, rope.diameter),
            plan,
            on_file(rope.torque_factor, "rope.torque_factor"),
        ),
        pull_offset=worked_out(_pull_offset, places, on_file(book.sheave_efficiency, "sheave_efficiency")),
        fleet_offset=worked_out(_fleet_offset, places),
        first_side=worked_out(lambda falls: abs(falls.tops[0][0]), places),
    )


def nearness_of(plan: PlanPlaces) -> Nearness:
    """Return how near falls come at one height, and how far they run sideways [m].

    Args:
        plan: ends of the falls

    Source: docs/theory/limits.md, "Pattern".
    """
    lines = [(top, (low[0], low[1])) for top, low in fall_lines(plan, 1.0)]
    apart = (
        _least((a[0][0] - b[0][0], a[0][1] - b[0][1]), (a[1][0] - b[1][0], a[1][1] - b[1][1]))
        for a, b in combinations(lines, 2)
    )
    run = max(hypot(low[0] - top[0], low[1] - top[1]) for top, low in lines)
    return Nearness(min(apart, default=inf), run)


def _least(top: Place, low: Place) -> float:
    """Least length of a vector that changes evenly from one to the other."""
    x, y = low[0] - top[0], low[1] - top[1]
    square = x * x + y * y
    share = min(1.0, max(0.0, -(top[0] * x + top[1] * y) / square)) if square > 0 else 0.0
    return hypot(top[0] + share * x, top[1] + share * y)


def _plan(places: FallPlaces) -> PlanPlaces | Missing:
    plan = plan_places(places)
    return Missing(places.missing) if plan is None else plan


def _pull_offset(places: FallPlaces, eta: float) -> float:
    lows = [side for side, _ in places.lows]
    raising = raising_tensions(1.0, len(lows), eta)
    ways = (raising, raising[::-1], static_tensions(1.0, len(lows)))
    return max(abs(pull_offset(tensions, lows)) for tensions in ways)


def _fleet_offset(places: FallPlaces) -> float:
    tops, lows = [side for side, _ in places.tops], [side for side, _ in places.lows]
    on_sheave = [top or low for top, low in zip(places.top_on_sheave, places.low_on_sheave, strict=True)]
    ways = fall_offsets(tops, lows, held=True), fall_offsets(tops, lows, held=False)
    return max((abs(x) for offsets in ways for x in compress(offsets, on_sheave)), default=0.0)
