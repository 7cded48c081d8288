"""The falls table of a lift: for each number of falls, every limit.

In:    a book, settings, a block, a lift.
Out:   rows, the number of falls that is recommended, what each further fall costs.
Never: unknown counted as pass; a number of falls without a row.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import Block, State
from becket.errors import NotOnFileError
from becket.limits.answer import FallsAnswer, FurtherFall, Limit, Row
from becket.limits.case import Case, case_of
from becket.limits.lift_case import LiftCase, lift_case
from becket.limits.line_pull import may_lift
from becket.limits.registry import work_out_limits, work_out_same
from becket.limits.winding import Layers
from becket.reeving.counts import block_sheave_count, head_sheave_count
from becket.settings.values import Settings
from becket.verdict import Verdict, worst


def falls_table(book: Book, settings: Settings, block: str, lift: Lift) -> FallsAnswer:
    """Return the falls table of a lift with one block [-].

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
    cases = tuple(cases_of(shared, most_falls(book, shared.block)))
    same = work_out_same(cases[0])
    rows = tuple(_row(case, same) for case in cases)
    passing = (row.falls for row in rows if row.verdict is Verdict.PASS)
    recommended = next(passing, None)
    standing = (row.falls for row in rows if row.verdict is not Verdict.FAIL)
    return FallsAnswer(
        recommended=recommended,
        unproven=next(standing, None) if recommended is None else None,
        rows=rows,
        further=tuple(_further(before, after) for before, after in pairwise(rows)),
    )


def row_of(book: Book, settings: Settings, state: State, lift: Lift) -> Row:
    """Return the row of one state, whether or not head and block can carry its falls [-].

    Args:
        book: the crane
        settings: in force
        state: block and falls
        lift: what is asked

    Raises:
        NotOnFileError: the book has no such block.

    Source: docs/theory/limits.md, "The table".
    """
    shared = lift_case(book, settings, find_block(book, state.block), lift)
    *_, last = cases_of(shared, state.falls)
    return _row(last, work_out_same(last))


def find_block(book: Book, name: str) -> Block:
    """Return the block of that name [-].

    Args:
        book: the crane
        name: of the block

    Raises:
        NotOnFileError: the book has no such block; says which it has.
    """
    if name not in book.blocks:
        there = ", ".join(sorted(book.blocks)) or "none"
        raise NotOnFileError(f"block: {name} is not in the book of {book.crane}; blocks on file: {there}")
    return book.blocks[name]


def most_falls(book: Book, block: Block) -> int:
    """Return the most falls that the sheaves of head and block can carry, 1 at least [-].

    Source: the counting identity of a tackle; docs/theory/limits.md, "Counts".
    """
    falls = 1
    while head_sheave_count(falls + 1) <= len(book.head.sheaves) and block_sheave_count(falls + 1) <= len(
        block.sheaves
    ):
        falls += 1
    return falls


def cases_of(shared: LiftCase, most: int) -> Iterator[Case]:
    """Yield each number of falls from 1 to the most, with the fewest of which the lead line pull does not fail [-].

    Args:
        shared: the lift
        most: falls of the last [-]

    Source: docs/theory/limits.md, "What hangs".
    """
    needed: int | None = None
    for falls in range(1, most + 1):
        case = case_of(shared, falls, needed or falls)
        if needed is None and may_lift(case):
            needed = falls
        yield case


def governing(limits: Sequence[Limit]) -> Limit:
    """Return the limit that decides: the worst verdict first, then the greatest use, then the order of the list [-].

    Args:
        limits: of one number of falls, in the order of the registry

    Source: docs/theory/limits.md, "The table".
    """
    decides = worst(limit.verdict for limit in limits)
    return max((limit for limit in limits if limit.verdict is decides), key=_use_or_less)


def _use_or_less(limit: Limit) -> float:
    return -1.0 if limit.use is None else limit.use


def _row(case: Case, same: Mapping[str, Limit]) -> Row:
    limits = work_out_limits(case, same)
    deciding = governing(limits)
    if case.shared.lift.kind is not None:  # another rule book: no main-boom figure at all
        return _row_without_figures(case.falls, deciding, limits)
    layers = case.layers if isinstance(case.layers, Layers) else None
    speed = _number(case.line_speed)
    return Row(
        falls=case.falls,
        verdict=deciding.verdict,
        governs=deciding.name,
        hook_speed=None if speed is None else speed / case.falls,
        lead_line_pull=_number(case.pull),
        dead_end_pull=_number(case.dead_end_pull),
        layer=None if layers is None else layers.highest,
        rope_needed=_number(case.rope_needed),
        wraps_left=_number(case.turns_left),
        limits=limits,
    )


def _row_without_figures(falls: int, deciding: Limit, limits: tuple[Limit, ...]) -> Row:
    return Row(
        falls=falls,
        verdict=deciding.verdict,
        governs=deciding.name,
        hook_speed=None,
        lead_line_pull=None,
        dead_end_pull=None,
        layer=None,
        rope_needed=None,
        wraps_left=None,
        limits=limits,
    )


def _further(before: Row, after: Row) -> FurtherFall:
    slower = None if before.hook_speed is None or after.hook_speed is None else before.hook_speed - after.hook_speed
    longer = None if before.rope_needed is None or after.rope_needed is None else after.rope_needed - before.rope_needed
    speed = "an unknown loss of hook speed" if slower is None else f"{60 * slower:.1f} m/min of hook speed"
    rope = "an unknown length of rope" if longer is None else f"{longer:.1f} m more rope"
    return FurtherFall(
        falls=after.falls,
        hook_speed_less=slower,
        rope_more=longer,
        text=f"From {before.falls} to {after.falls} falls costs {speed} and {rope}.",
    )


def _number(figure: object) -> float | None:
    return figure if isinstance(figure, float) else None
