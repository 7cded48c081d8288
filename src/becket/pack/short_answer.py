"""The falls table of a lift in one line: how many falls, or why none.

In:    a book, settings, a block, a lift.
Out:   the number that the falls table recommends, or what it lacks; what stops one fall fewer.
Never: another answer than the falls table gives.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.limits.answer import FallsAnswer
from becket.limits.case import Case
from becket.limits.lift_case import lift_case
from becket.limits.registry import LIMITS
from becket.limits.table import cases_of, find_block, most_falls
from becket.settings.values import Settings
from becket.verdict import Verdict

RIG, UNPROVEN, NONE, NEAR = "rig", "unproven", "none", "near"
Verdicts = Mapping[str, Verdict]  # limit -> verdict
_Row = Callable[[str], Verdict]  # the verdict of a limit of one number of falls

# how the limits are asked one after the other: those first that decide most often
_ORDER = tuple(sorted(LIMITS, key=lambda name: name not in ("lead_line_pull", "chart", "head_clearance", "wraps")))


@dataclass(frozen=True, slots=True)
class ShortAnswer:
    """One answer. ``kind``: "rig" so many falls; "unproven"; "none" will do; "near" a limit, not answered here."""

    kind: str
    falls: int | None
    fails: tuple[str, ...] = ()  # rig: what fails with one fall fewer; none: what fails with every number of falls
    unknown: tuple[str, ...] = ()  # rig: what is unknown with one fall fewer; unproven: what is unknown


def short_answer(book: Book, settings: Settings, block: str, lift: Lift) -> ShortAnswer:
    """Return what the falls table answers, worked out as far as the answer needs [-].

    Args:
        book: the crane
        settings: in force
        block: name of the block that hangs
        lift: what is asked

    Raises:
        NotOnFileError: the book has no such block.

    Source: docs/theory/limits.md, "The table".
    """
    shared = lift_case(book, settings, find_block(book, block), lift)
    rows: list[_Row] = []
    for case in cases_of(shared, most_falls(book, shared.block)):
        rows.append(_row(case))
        if all(rows[-1](name) is Verdict.PASS for name in _ORDER):
            return _recommended(rows)
    return _without_recommended(rows)


def short_of(answer: FallsAnswer) -> ShortAnswer:
    """Return a whole falls table in one line [-].

    Args:
        answer: the falls table
    """
    rows: list[_Row] = [{limit.name: limit.verdict for limit in row.limits}.__getitem__ for row in answer.rows]
    if answer.recommended is not None:
        return _recommended(rows[: answer.recommended])
    return _without_recommended(rows)


def _row(case: Case) -> _Row:
    known: dict[str, Verdict] = {}

    def verdict(name: str) -> Verdict:
        if name not in known:
            known[name] = LIMITS[name](case).verdict
        return known[name]

    return verdict


def _recommended(rows: Sequence[_Row]) -> ShortAnswer:
    fails, unknown = _not_passing(rows[-2]) if len(rows) > 1 else ((), ())
    return ShortAnswer(RIG, len(rows), fails, unknown)


def _without_recommended(rows: Sequence[_Row]) -> ShortAnswer:
    for falls, row in enumerate(rows, 1):
        if not any(row(name) is Verdict.FAIL for name in _ORDER):
            return ShortAnswer(UNPROVEN, falls, unknown=_not_passing(row)[1])
    always = _not_passing(rows[-1])[0]
    for row in rows[:-1]:
        always = tuple(name for name in always if row(name) is Verdict.FAIL)
    return ShortAnswer(NONE, None, always)


def _not_passing(row: _Row) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The limits that fail and those that are unknown, in the order of the list."""
    every = {name: row(name) for name in LIMITS}
    fails, unknown = (
        tuple(name for name, verdict in every.items() if verdict is wanted)
        for wanted in (Verdict.FAIL, Verdict.UNKNOWN)
    )
    return fails, unknown
