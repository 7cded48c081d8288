"""The figures of a book and one block that limits need, each a number or missing.

In:    a book, a block.
Out:   one frozen record.
Never: a verdict, a lift.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import Block
from becket.limits.figures import Figure, missing, on_file, worked_out


@dataclass(frozen=True, kw_only=True, slots=True)
class BookFigures:
    """Figures that do not change with the lift."""

    sheave_efficiency: Figure  # [-]
    guide_sheaves: Figure  # [-]
    rope_mass: Figure  # [kg/m]
    rope_length: Figure  # [m]
    tail: Figure  # [m]
    closest: Figure  # trip distance of the switch and margin [m]
    block_mass: Figure  # [kg]
    block_sheave: Figure  # pitch diameter [m]
    hook: Figure  # sheave shaft to hook saddle [m]
    mass_centre: Figure  # of the empty block, below the shaft [m]


def book_figures(book: Book, block: Block) -> BookFigures:
    """Return the figures of a book and one block [-].

    Args:
        book: the crane
        block: that hangs
    """
    switch = book.switch
    return BookFigures(
        sheave_efficiency=on_file(book.sheave_efficiency, "sheave_efficiency"),
        guide_sheaves=on_file(book.winch.guide_sheaves, "winch.guide_sheaves"),
        rope_mass=on_file(book.rope.mass, "rope.mass"),
        rope_length=on_file(book.rope.length, "rope.length"),
        tail=on_file(book.dead_end.tail, "dead_end.tail"),
        closest=worked_out(_sum, on_file(switch.trips, "switch.trips"), on_file(switch.margin, "switch.margin")),
        block_mass=on_file(block.mass, "blocks.*.mass", block.name),
        block_sheave=on_file(block.sheave_diameter, "blocks.*.sheave_diameter", block.name),
        hook=on_file(block.hook, "blocks.*.hook", block.name),
        mass_centre=on_file(block.mass_centre, "blocks.*.mass_centre", block.name),
    )


def dead_end_add(book: Book, block: Block, dead_end: str) -> Figure:
    """Return what the place of a dead end adds to the rope, measured from the shafts [m].

    Args:
        book: the crane
        block: that hangs
        dead_end: "block", or "head NAME" with the anchor's name

    Source: docs/theory/reach.md, eq. 3.
    """
    if dead_end == "block":
        if block.becket is None:
            return missing("blocks.*.becket", block.name)
        return on_file(block.becket.below, "blocks.*.becket.above", block.name)
    name = dead_end.removeprefix("head ")
    anchor = book.head.anchors.get(name)
    below = None if anchor is None else anchor.below
    return missing("head.anchors.*.below", name) if below is None else -below


def _sum(a: float, b: float) -> float:
    return a + b
