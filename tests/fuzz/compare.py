"""The product's falls table beside the slow one: every verdict and figure that differs.

In:    one random case.
Out:   disagreements, each with what either side says.
Never: deciding who is right.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from becket.book.tackle import State
from becket.limits.answer import FallsAnswer, Limit, Row
from becket.limits.table import falls_table, row_of
from becket.verdict import Verdict, worst
from tests.fuzz.cases import FuzzCase
from tests.slow_evaluation.answer import SlowAnswer, SlowLimit, SlowRow
from tests.slow_evaluation.evaluation import evaluate

NEAR = 1e-6  # relative distance to a threshold within which two ways of rounding may differ
FIGURES = ("lead_line_pull", "dead_end_pull", "layer", "rope_needed", "wraps_left", "hook_speed")
COMPARED_USES = (
    "lead_line_pull",
    "rope_strength",
    "dead_end",
    "makers_table",
    "block_rating",
    "rope_length",
    "wraps",
    "head_clearance",
    "chart",
)


@dataclass(frozen=True, kw_only=True)
class Disagreement:
    """One difference. ``kind``: wrong pass, lost pass, shade (fail for unknown or the reverse), figure."""

    kind: str
    falls: int
    name: str
    product: str
    slow: str

    def __str__(self) -> str:
        return f"{self.kind}: {self.name} of {self.falls} falls: product {self.product}; slow {self.slow}"


@dataclass(frozen=True, kw_only=True)
class Compared:
    """One case with the slow answer and every difference from it."""

    slow: SlowAnswer
    disagreements: tuple[Disagreement, ...]


def compare(case: FuzzCase) -> Compared:
    """Return every difference between the product's falls table and the slow one [-]."""
    fast = falls_table(case.book, case.settings, case.block, case.lift)
    slow = evaluate(case.book, case.settings, case.block, case.lift)
    too_many = State(block=case.block, falls=slow.too_many.falls)
    beyond = row_of(case.book, case.settings, too_many, case.lift)
    found = [*_of_rows(fast, slow), *_of_row(beyond, slow.too_many), *_of_summary(fast, slow)]
    return Compared(slow=slow, disagreements=tuple(found))


def _of_summary(fast: FallsAnswer, slow: SlowAnswer) -> Iterator[Disagreement]:
    """Yield where what is recommended differs, or does not follow from the product's own verdicts."""
    passes = [row.falls for row in fast.rows if all(limit.verdict is Verdict.PASS for limit in row.limits)]
    stands = [row.falls for row in fast.rows if all(limit.verdict is not Verdict.FAIL for limit in row.limits)]
    recommended = passes[0] if passes else None
    unproven = stands[0] if stands and not passes else None
    limits = [limit for row in slow.rows for limit in row.limits.values()]
    if not any(limit.nearness <= NEAR for limit in limits) and recommended != slow.recommended:
        yield _difference("figure", 0, "recommended", recommended, slow.recommended)
    if not any(limit.nearness <= NEAR or limit.either for limit in limits) and unproven != slow.unproven:
        yield _difference("figure", 0, "unproven", unproven, slow.unproven)
    for name, follows in (("recommended", recommended), ("unproven", unproven)):
        if getattr(fast, name) != follows:
            yield _difference("figure", 0, f"{name} of its own rows", getattr(fast, name), follows)
    for row in fast.rows:
        if row.verdict is not worst(limit.verdict for limit in row.limits):
            yield _difference("figure", row.falls, "verdict of its own limits", row.verdict, row.limits)


def _of_rows(fast: FallsAnswer, slow: SlowAnswer) -> Iterator[Disagreement]:
    if [row.falls for row in fast.rows] != [row.falls for row in slow.rows]:
        yield _difference("figure", 0, "rows", len(fast.rows), len(slow.rows))
        return
    for row, other in zip(fast.rows, slow.rows, strict=True):
        yield from _of_row(row, other)


def _of_row(row: Row, other: SlowRow) -> Iterator[Disagreement]:
    if sorted(limit.name for limit in row.limits) != sorted(other.limits):
        yield _difference("figure", row.falls, "limits", len(row.limits), len(other.limits))
    for limit in row.limits:
        yield from _of_limit(row.falls, limit, other.limits[limit.name])
    for name in FIGURES:
        one, two = getattr(row, name), getattr(other, name)
        if name == "wraps_left" and one is not None:
            one = max(one, 0.0)  # a negative number says how many turns are missing; the slow drum stops at empty
        if two is not None and not _same(one, two):
            yield _difference("figure", row.falls, name, one, two)


def _of_limit(falls: int, limit: Limit, slow: SlowLimit) -> Iterator[Disagreement]:
    said = f"{limit.verdict} ({limit.use}) {limit.why}"
    mine = f"{slow.verdict} ({slow.use}) {slow.why}"
    if limit.verdict is not slow.verdict:
        if slow.nearness <= NEAR or (slow.either and limit.verdict is not Verdict.PASS):
            return
        kind = "shade"
        if limit.verdict is Verdict.PASS:
            kind = "wrong pass"
        elif slow.verdict is Verdict.PASS:
            kind = "lost pass"
        yield Disagreement(kind=kind, falls=falls, name=limit.name, product=said, slow=mine)
    elif limit.name in COMPARED_USES and limit.use is not None and slow.use is not None and not slow.either:
        if slow.why.startswith("missing") or _same(limit.use, slow.use):
            return
        yield Disagreement(kind="figure", falls=falls, name=f"use of {limit.name}", product=said, slow=mine)


def _same(one: float | None, two: float | None) -> bool:
    if one is None or two is None:
        return one is two
    return abs(one - two) <= NEAR * max(1.0, abs(one), abs(two))


def _difference(kind: str, falls: int, name: str, product: object, slow: object) -> Disagreement:
    return Disagreement(kind=kind, falls=falls, name=name, product=str(product), slow=str(slow))
