"""The falls table worked out slowly: every limit of every number of falls.

In:    book, settings, name of a block, lift.
Out:   verdicts and figures to compare with.
Never: anything of the product but its records.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TypeVar

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import Block, Pattern
from becket.settings.values import Settings
from becket.verdict import Verdict
from tests.slow_evaluation import block_limits, chart_limits, rope_limits
from tests.slow_evaluation.answer import (
    LIMIT_NAMES,
    BrokenError,
    MissingError,
    SlowAnswer,
    SlowLimit,
    SlowRow,
    harshest,
)
from tests.slow_evaluation.rules import FROM_MEMORY
from tests.slow_evaluation.situation import Situation

T = TypeVar("T")
NEEDS_DEAD_END = ("lead_line_pull", "rope_length", "wraps")  # may fail wherever the dead end is

WAYS: Mapping[str, Callable[[Situation], SlowLimit]] = {
    "lead_line_pull": rope_limits.lead_line_pull,
    "rope_strength": rope_limits.rope_strength,
    "dead_end": rope_limits.dead_end,
    "makers_table": chart_limits.makers_table,
    "block_rating": block_limits.block_rating,
    "block_sheaves": block_limits.block_sheaves,
    "groove": rope_limits.groove,
    "head_sheaves": block_limits.head_sheaves,
    "pattern": block_limits.pattern,
    "rope_length": rope_limits.rope_length,
    "wraps": rope_limits.wraps,
    "overhaul": rope_limits.overhaul,
    "twist": block_limits.twist,
    "fleet_angle": rope_limits.fleet_angle,
    "tilt": block_limits.tilt,
    "head_clearance": block_limits.head_clearance,
    "chart": chart_limits.chart,
}


def most_falls(book: Book, block: Block) -> int:
    """Return the most falls that head and block can carry, counted up [-]."""
    falls = 1
    while (falls + 2) // 2 <= len(book.head.sheaves) and (falls + 1) // 2 <= len(block.sheaves):
        falls += 1
    return falls


def evaluate(book: Book, settings: Settings, block_name: str, lift: Lift) -> SlowAnswer:
    """Return the whole table of one lift with one block, and one row more than head and block can carry [-]."""
    block = book.blocks[block_name]
    rows: list[SlowRow] = []
    may_do: int | None = None
    will_do: int | None = None
    shared: dict[str, object] = {}
    for falls in range(1, most_falls(book, block) + 2):
        situation = Situation(
            book=book, settings=settings, block=block, lift=lift, falls=falls, may_do=may_do, will_do=will_do,
            found=dict(shared),
        )  # fmt: skip
        rows.append(_row(situation))
        pull = rows[-1].limits["lead_line_pull"].verdict
        if may_do is None and (pull is not Verdict.FAIL or _fails_from_memory_alone(situation)):
            may_do = falls
        if will_do is None and pull is Verdict.PASS:
            will_do = falls
        shared = _of_the_lift(situation.found)
    rows, too_many = rows[:-1], rows[-1]
    recommended = next((r.falls for r in rows if _all(r, (Verdict.PASS,))), None)
    unproven = None
    if recommended is None:
        unproven = next((r.falls for r in rows if _all(r, (Verdict.PASS, Verdict.UNKNOWN))), None)
    return SlowAnswer(recommended=recommended, unproven=unproven, rows=tuple(rows), too_many=too_many)


def _of_the_lift(found: dict[str, object]) -> dict[str, object]:
    """Return what was worked out of the lift alone, whatever the number of falls [-]."""
    return {name: known for name, known in found.items() if name == "ends"}


def limit_of(name: str, situation: Situation) -> SlowLimit:
    """Return one limit; missing figures make it unknown, a lift that cannot be makes it fail [-]."""
    if situation.lift.kind is not None:
        return SlowLimit(verdict=Verdict.UNKNOWN, why="another rule book")
    answer = harshest([lambda: WAYS[name](situation)])
    if answer.verdict is Verdict.PASS:
        return answer
    if name in NEEDS_DEAD_END and "missing: pattern" in answer.why and _fails_wherever_it_ends(WAYS[name], situation):
        return replace(answer, verdict=Verdict.FAIL, either=True)
    estimated = situation.book.rope.grade is not None and "missing: breaking force" in answer.why
    no_pattern = "missing: pattern" in answer.why
    return replace(answer, either=answer.either or estimated or no_pattern or _is_beyond_reach(situation))


def _fails_from_memory_alone(s: Situation) -> bool:
    """Return whether the line pull fails only on a design factor from memory, which proves nothing either way [-]."""
    if s.book.rope.design_factor is not None or (s.settings.rules, "design factor") not in FROM_MEMORY:
        return False
    by_layer = harshest([lambda: rope_limits.pull_by_layer(s)])
    if "missing: pattern" in by_layer.why:
        return not _fails_wherever_it_ends(rope_limits.pull_by_layer, s)
    return by_layer.verdict is not Verdict.FAIL


def _fails_wherever_it_ends(way: Callable[[Situation], SlowLimit], s: Situation) -> bool:
    """Return whether the limit fails with the dead end at every place on file that even or odd falls may end at [-]."""
    by_depth = {anchor.below: f"head {anchor_name}" for anchor_name, anchor in s.book.head.anchors.items()}
    ends = ["block"] if s.falls % 2 else list(by_depth.values())
    known = _of_the_lift(s.found)
    answers = []
    for end in ends:
        guess = Pattern(
            block=s.block.name,
            falls=s.falls,
            path=(),
            dead_end=end,
            page=None,
            typed=None,
            confirmed=None,
            picture=None,
        )
        book = replace(s.book, patterns=(guess,))
        answers.append(harshest([lambda book=book: way(replace(s, book=book, found=dict(known)))]))  # type: ignore[misc]
    return bool(answers) and all(answer.verdict is Verdict.FAIL for answer in answers)


def _is_beyond_reach(situation: Situation) -> bool:
    try:
        _ = situation.ends
    except BrokenError:
        return True
    except MissingError:
        return False
    return False


def _all(row: SlowRow, verdicts: tuple[Verdict, ...]) -> bool:
    return all(any(limit.verdict is v for v in verdicts) for limit in row.limits.values())


def _row(s: Situation) -> SlowRow:
    return SlowRow(
        falls=s.falls,
        limits={name: limit_of(name, s) for name in LIMIT_NAMES},
        lead_line_pull=_figure(s, lambda: rope_limits.raising(s)),
        dead_end_pull=_figure(s, lambda: rope_limits.at_dead_end(s)),
        layer=_figure(s, lambda: max(laid.layer for laid in s.laid())),
        rope_needed=_figure(s, s.rope_needed),
        wraps_left=_figure(s, lambda: rope_limits.wraps_left(s)),
        hook_speed=_figure(s, s.hook_speed),
    )


def _figure(s: Situation, work: Callable[[], T]) -> T | None:
    if s.lift.kind is not None:
        return None
    try:
        return work()
    except (MissingError, BrokenError):
        return None
