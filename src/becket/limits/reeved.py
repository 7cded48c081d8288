"""One pattern of a book, reeved: what is the same for every lift, worked out once for each book.

In:    a book, one of its patterns.
Out:   one frozen record; what is missing is carried as missing.
Never: a lift, a setting, a verdict of a limit.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from itertools import combinations, compress
from math import inf
from weakref import ref

from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.limits.figures import Figure, Missing, on_file, worked_out
from becket.mechanics.fleet import fall_offsets
from becket.mechanics.tackle import raising_tensions, static_tensions
from becket.mechanics.tilt import pull_offset
from becket.mechanics.twist import twist_length
from becket.reeving.crossings import PlanPlaces, fall_lines, plan_places
from becket.reeving.finding import Finding, PatternCase
from becket.reeving.pattern import PATTERN_CHECKS, find_pattern
from becket.reeving.places import FallPlaces, fall_places, sides_missing
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True, slots=True)
class Reeved:
    """A pattern with the places of its falls and what follows from them alone. It holds no book, so none is kept."""

    pattern: Pattern
    places: FallPlaces | None  # None: a sideways place is not on file
    lacking: tuple[str, ...]  # what keeps the places from being known
    findings: tuple[Finding, ...]  # of the checks that no lift enters: words, counts, places, confirmation
    gap_in_plan: float | None  # at which boxes around any two falls, seen from above, stay apart; None: not known [m]
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
    checked = PatternCase(
        book=book,
        settings=settings,
        pattern=pattern,
        block=book.blocks.get(pattern.block),
        places=fall_places(book, pattern),
        lacking=sides_missing(book, pattern),
        least_fall=None,
        greatest_fall=None,
        hook_load=None,
    )
    places = Missing(checked.lacking) if checked.places is None else checked.places
    plan = worked_out(_plan, places)
    rope = book.rope
    return Reeved(
        pattern=pattern,
        places=checked.places,
        lacking=checked.lacking,
        findings=tuple(check(checked) for name, check in PATTERN_CHECKS.items() if name not in _OF_A_LIFT),
        gap_in_plan=gap_in_plan(plan) if isinstance(plan, PlanPlaces) else None,
        twist_length=worked_out(
            lambda ends, factor: twist_length(ends.tops, ends.lows, factor, rope.diameter),
            plan,
            on_file(rope.torque_factor, "rope.torque_factor"),
        ),
        pull_offset=worked_out(_pull_offset, places, on_file(book.sheave_efficiency, "sheave_efficiency")),
        fleet_offset=worked_out(_fleet_offset, places),
        first_side=worked_out(lambda falls: abs(falls.tops[0][0]), places),
    )


def gap_in_plan(plan: PlanPlaces) -> float:
    """Return the distance that any two falls keep, seen from above, as far as boxes around them tell [m].

    In space two lines are never nearer than their shadows on the ground, and shadows never nearer than the boxes
    around them; neither changes with the fall length. A small gap proves nothing.

    Args:
        plan: ends of the falls

    Source: docs/theory/limits.md, "Pattern".
    """
    boxes = [_box(top[0], top[1], low[0], low[1]) for top, low in fall_lines(plan, 1.0)]
    return min(
        (max(a[0] - b[1], b[0] - a[1], a[2] - b[3], b[2] - a[3]) for a, b in combinations(boxes, 2)), default=inf
    )


def _box(x: float, y: float, other_x: float, other_y: float) -> tuple[float, float, float, float]:
    """Least and greatest sideways, least and greatest along."""
    across = (x, other_x) if x < other_x else (other_x, x)
    return (*across, y, other_y) if y < other_y else (*across, other_y, y)


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
