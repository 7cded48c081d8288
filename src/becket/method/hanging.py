"""What hangs under the head in one state, as far as the way down and up needs it.

In:    a crane book and a state.
Out:   the block's heights and the rope on its sheaves, or the names of the figures that are missing.
Never: patterns, angles, a figure in place of a missing one.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import State
from becket.errors import NotOnFileError
from becket.mechanics.reach import sheave_arcs


@dataclass(frozen=True, kw_only=True)
class Hanging:
    """One state's block and rope."""

    state: State
    falls: int
    arcs: float  # rope on the sheaves, A(n) [m]
    touches: float  # shaft above the ground, block upright, just touching [m]
    stands: float  # shaft above the ground, block set down, steadied [m]
    clear: float  # least shaft to shaft distance, head over the standing block [m]
    mass: float  # of the block [kg]


def missing_figures(book: Book, state: State) -> tuple[str, ...]:
    """Return the fields of a state's block that are not on file and that a change needs [-].

    Args:
        book: the crane book
        state: block and falls

    Raises:
        NotOnFileError: the block is not in the book.

    Source: docs/theory/method.md, "What is needed".
    """
    if state.block not in book.blocks:
        known = ", ".join(sorted(book.blocks))
        raise NotOnFileError(f"block {state.block}: not in the book of {book.crane}; blocks on file: {known}")
    block = book.blocks[state.block]
    needed = {"touches": block.touches, "stands": block.stands, "clear": block.clear, "mass": block.mass}
    if state.falls >= 2:
        needed["sheave_diameter"] = block.sheave_diameter
    return tuple(f"blocks.{state.block}.{name}" for name, value in needed.items() if value is None)


def hanging_of(book: Book, state: State) -> Hanging:
    """Return what hangs in a state [SI].

    Args:
        book: the crane book
        state: block and falls

    Raises:
        NotOnFileError: the block or one of its figures is not in the book.

    Source: docs/theory/method.md, eq. 1.
    """
    missing = missing_figures(book, state)
    block = book.blocks[state.block]
    if missing or block.touches is None or block.stands is None or block.clear is None or block.mass is None:
        raise NotOnFileError(f"{', '.join(missing)}: not on file; see the manual's pages on hook blocks, or measure")
    return Hanging(
        state=state,
        falls=state.falls,
        arcs=sheave_arcs(state.falls, block.sheave_diameter or 0.0, book.head.sheave_diameter),
        touches=block.touches,
        stands=block.stands,
        clear=block.clear,
        mass=block.mass,
    )
