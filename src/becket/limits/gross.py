"""What hangs on one number of falls, part by part.

In:    a book, settings, a state, a lift.
Out:   the gross load and each of its parts; None where a figure is not on file.
Never: a verdict; a part that the gross load does not count.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.limits.figures import Figure
from becket.limits.lift_case import lift_case
from becket.limits.table import cases_of, find_block
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True)
class GrossLoad:
    """Gross load = load, rigging, block, rope in the falls at the lowest hook. None: not known."""

    load: float | None  # with the allowance of an estimate [kg]
    rigging: float | None  # [kg]
    block: float | None  # [kg]
    rope: float | None  # [kg]
    gross: float | None  # [kg]


def gross_load(book: Book, settings: Settings, state: State, lift: Lift) -> GrossLoad:
    """Return what hangs on one number of falls, part by part [kg].

    Args:
        book: the crane
        settings: in force
        state: block and falls
        lift: what is asked

    Raises:
        NotOnFileError: the book has no such block.

    Source: docs/theory/limits.md, "What hangs".
    """
    shared = lift_case(book, settings, find_block(book, state.block), lift)
    *_, case = cases_of(shared, state.falls)
    return GrossLoad(
        load=_number(shared.load),
        rigging=_number(shared.rigging),
        block=_number(shared.figures.block_mass),
        rope=_number(case.rope_mass),
        gross=_number(case.gross),
    )


def _number(figure: Figure) -> float | None:
    return float(figure) if isinstance(figure, float | int) else None
