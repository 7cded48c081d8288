"""A reeving pattern of the book and every check of it.

In:    a crane book, a state or one of its patterns, the fall lengths of a lift.
Out:   the pattern that the book has; findings, each with a verdict and a reason.
Never: a pattern that is not in the book.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from math import isfinite
from types import MappingProxyType

from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.reeving import hanging_checks as hanging
from becket.reeving import path_checks as words
from becket.reeving.crossings import Crossing
from becket.reeving.finding import Finding, PatternCase, pattern_case
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.verdict import Verdict, worst

# What is checked, in the order in which it is shown: the list in the documents is this list.
PATTERN_CHECKS: Mapping[str, Callable[[PatternCase], Finding]] = MappingProxyType(
    {
        "starts_at_head": words.starts_at_head,
        "alternates": words.alternates,
        "each_sheave_once": words.each_sheave_once,
        "counts_agree": words.counts_agree,
        "dead_end_agrees": words.dead_end_agrees,
        "sheaves_on_file": words.sheaves_on_file,
        "anchor_on_file": words.anchor_on_file,
        "block_sheaves_enough": words.block_sheaves_enough,
        "falls_that_rub": hanging.falls_that_rub,
        "falls_that_cross": hanging.falls_that_cross,
        "tilt": hanging.block_tilts,
        "fleet_angle": hanging.fleet,
        "hangs_turned": hanging.block_hangs_turned,
        "twist_length": hanging.block_turns_over,
        "confirmed": words.confirmed,
    }
)

# For a lift these are limits of their own, judged at its loads and lengths.
_JUDGED_BY_A_LIFT = frozenset({"tilt", "fleet_angle", "hangs_turned", "twist_length"})


@dataclass(frozen=True, kw_only=True)
class ConfirmedBy:
    """Who confirmed a pattern, and whether the seal is still that of the pattern."""

    by: str
    date: str
    seal_matches: bool


@dataclass(frozen=True, kw_only=True)
class PatternCheck:
    """A pattern and its checks. A number is None where it cannot be worked out or means nothing."""

    state: State
    verdict: Verdict
    head_sheaves: tuple[int, ...]  # in the order of the path
    block_sheaves: tuple[int, ...]
    dead_end: str | None
    tilt: float | None  # greatest [rad]
    hangs_turned: float | None  # psi0 [rad]
    crossings: tuple[Crossing, ...]
    closest_distance: float | None  # head shaft to block shaft at the fleet angle limit [m]
    twist_length: float | None  # None also where the rope has no torque at all [m]
    confirmed: ConfirmedBy | None
    findings: tuple[Finding, ...]


def find_pattern(book: Book, state: State) -> Pattern | None:
    """Return the pattern that the book has for a state; None: not on file [-].

    Args:
        book: the crane
        state: block and falls

    Source: docs/theory/reeving.md, "On file or not".
    """
    return next((pattern for pattern in book.patterns if pattern.state == state), None)


def check_state(book: Book, settings: Settings, state: State) -> PatternCheck:
    """Return the checks of the pattern of a state, alone; not on file: unknown, and which page to look for [-].

    Args:
        book: the crane
        settings: in force
        state: block and falls

    Source: docs/theory/reeving.md, "On file or not".
    """
    pattern = find_pattern(book, state)
    if pattern is not None:
        return check_pattern(book, settings, pattern, None, None)
    finding = Finding(name="on_file", verdict=Verdict.UNKNOWN, why=page_to_look_for(book, state))
    return PatternCheck(
        state=state,
        verdict=Verdict.UNKNOWN,
        head_sheaves=(),
        block_sheaves=(),
        dead_end=None,
        tilt=None,
        hangs_turned=None,
        crossings=(),
        closest_distance=None,
        twist_length=None,
        confirmed=None,
        findings=(finding,),
    )


def check_pattern(
    book: Book,
    settings: Settings,
    pattern: Pattern,
    least_fall: float | None,
    greatest_fall: float | None,
    *,
    hook_load: float | None = None,
) -> PatternCheck:
    """Return every check of a pattern, at the fall lengths of a lift or alone [-].

    Alone, both fall lengths None, it is looked at in the trip distance of the hoist limit switch. With the fall
    lengths of a lift, tilt, fleet angle and twist are left to the limits of the lift, which judge them.

    Args:
        book: the crane
        settings: in force
        pattern: of the book
        least_fall: shortest head shaft to block shaft of the lift [m]
        greatest_fall: longest [m]
        hook_load: at which the loaded block is looked at; None: the rated load of the block [kg]

    Source: docs/theory/reeving.md, "Checks".
    """
    alone = least_fall is None and greatest_fall is None
    least, greatest = (book.switch.trips, book.switch.trips) if alone else (least_fall, greatest_fall)
    case = replace(pattern_case(book, settings, pattern), least_fall=least, greatest_fall=greatest, hook_load=hook_load)
    names = [name for name in PATTERN_CHECKS if alone or name not in _JUDGED_BY_A_LIFT]
    findings = tuple(PATTERN_CHECKS[name](case) for name in names)
    return PatternCheck(
        state=pattern.state,
        verdict=worst(finding.verdict for finding in findings),
        head_sheaves=_sheaves(pattern, "head"),
        block_sheaves=_sheaves(pattern, "block"),
        dead_end=pattern.dead_end,
        tilt=hanging.greatest_tilt(case),
        hangs_turned=hanging.turned_by(case),
        crossings=hanging.crossings_of(case),
        closest_distance=hanging.nearest_by_fleet(case),
        twist_length=_finite(hanging.longest_before_turning(case)),
        confirmed=_confirmed_by(book, pattern),
        findings=findings,
    )


def page_to_look_for(book: Book, state: State) -> str:
    """Return the sentence for a pattern that is not on file: which page of the manual to look for [-].

    Args:
        book: the crane
        state: block and falls

    Source: docs/theory/reeving.md, "On file or not".
    """
    issue = f", issue {book.manual_issue}" if book.manual_issue else ""
    falls = "1 fall" if state.falls == 1 else f"{state.falls} falls"
    pages = [f"{p.state} on page {p.page}" for p in book.patterns if p.page]
    others = f" Patterns on file: {', '.join(pages)}." if pages else ""
    return (
        f"The reeving pattern {state} is not on file. Look in {book.manual_title}{issue} for the page that shows the "
        f"block {state.block} on {falls}; becket does not make one up.{others}"
    )


def _sheaves(pattern: Pattern, place: str) -> tuple[int, ...]:
    return tuple(one.sheave for one in pattern.path if one.place == place)


def _confirmed_by(book: Book, pattern: Pattern) -> ConfirmedBy | None:
    seal = pattern.confirmed
    if seal is None:
        return None
    return ConfirmedBy(by=seal.by, date=seal.date, seal_matches=is_confirmed(book, pattern))


def _finite(length: float | None) -> float | None:
    return length if length is not None and isfinite(length) else None
