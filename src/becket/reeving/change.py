"""What changes in the path from one pattern of the book to another.

In:    a crane book, the pattern that is on and the one that is wanted.
Out:   passes that stay, are drawn out, are threaded, in the order of the work; keepers that each of them touches.
Never: a pattern that is not in the book; metres, minutes, steps.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import Keeper, Pass, Pattern

DEAD_END = "dead end"  # the place that is neither a head nor a block sheave


@dataclass(frozen=True, kw_only=True)
class Touch:
    """One act of the change, and the keepers that must be out for it."""

    act: str  # "draw out", "thread"; of the dead end "open", "make"
    place: Pass | str  # a pass, or ``DEAD_END``
    block: str  # that hangs on the path when it is done
    keepers: tuple[Keeper, ...]


@dataclass(frozen=True, kw_only=True)
class PathChange:
    """From one pattern to another. ``draw_out`` from the dead end back, ``thread`` toward the new dead end."""

    before: Pattern
    after: Pattern
    keep: tuple[Pass, ...]  # stay rigged, from the drum
    draw_out: tuple[Pass, ...]
    thread: tuple[Pass, ...]
    block_changes: bool
    dead_end_moves: bool  # to another place, be it the becket of another block
    touches: tuple[Touch, ...]  # every act in the order of the work
    keepers: tuple[Keeper, ...]  # that must come out, each once, in the order in which they are met
    fitting_comes_off: bool | None  # to draw the rope's end through a sheave; None: not on file
    switch_weight_before: str | None  # line that the switch weight hangs on; None: not on file
    switch_weight_after: str | None


def path_change(book: Book, before: Pattern, after: Pattern) -> PathChange:
    """Return what changes in the path from one pattern to another [-].

    The longest shared start from the drum stays. On another block at most the first head sheave does: the old block
    is emptied and taken away, the new one is empty.

    Args:
        book: the crane, with its keepers
        before: that is on
        after: that is wanted

    Source: docs/theory/reeving.md, "Change".
    """
    block_changes = before.block != after.block
    shared = _shared_start(before.path, after.path)
    if block_changes:
        shared = min(shared, _passes_before_block(before.path), _passes_before_block(after.path))
    draw_out = tuple(reversed(before.path[shared:]))
    thread = after.path[shared:]
    dead_end_moves = block_changes or before.dead_end != after.dead_end
    is_opened = bool(draw_out or thread) or dead_end_moves
    touches = _touches(book, before, after, draw_out, thread) if is_opened else ()
    return PathChange(
        before=before,
        after=after,
        keep=before.path[:shared],
        draw_out=draw_out,
        thread=thread,
        block_changes=block_changes,
        dead_end_moves=dead_end_moves,
        touches=touches,
        keepers=tuple({keeper.name: keeper for touch in touches for keeper in touch.keepers}.values()),
        fitting_comes_off=_fitting_comes_off(book, bool(draw_out or thread)),
        switch_weight_before=switch_weight_line(book, before.falls),
        switch_weight_after=switch_weight_line(book, after.falls),
    )


def keepers_of(book: Book, place: Pass | str, block: str) -> tuple[Keeper, ...]:
    """Return the keepers that hold the rope at a pass, or that hold the dead end [-].

    Args:
        book: the crane
        place: a pass, or ``DEAD_END``
        block: on which a block pass is

    Source: docs/theory/reeving.md, "Change".
    """
    if not isinstance(place, Pass):
        return tuple(keeper for keeper in book.keepers if keeper.at == DEAD_END)
    return tuple(
        keeper
        for keeper in book.keepers
        if keeper.at == place.place
        and place.sheave in keeper.holds
        and (place.place == "head" or keeper.block == block)
    )


def switch_weight_line(book: Book, falls: int) -> str | None:
    """Return the line that the weight of the hoist limit switch hangs on; None: not on file [-].

    Args:
        book: the crane
        falls: ropes that carry the block [-]

    Source: the crane book; docs/theory/reeving.md, "Change".
    """
    return book.switch.weight_on_odd if falls % 2 else book.switch.weight_on_even


def _touches(
    book: Book, before: Pattern, after: Pattern, draw_out: tuple[Pass, ...], thread: tuple[Pass, ...]
) -> tuple[Touch, ...]:
    acts: list[tuple[str, Pass | str, str]] = [
        ("open", DEAD_END, before.block),
        *(("draw out", one, before.block) for one in draw_out),
        *(("thread", one, after.block) for one in thread),
        ("make", DEAD_END, after.block),
    ]
    return tuple(
        Touch(act=act, place=place, block=block, keepers=keepers_of(book, place, block)) for act, place, block in acts
    )


def _shared_start(a: tuple[Pass, ...], b: tuple[Pass, ...]) -> int:
    return next((i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), min(len(a), len(b)))


def _passes_before_block(path: tuple[Pass, ...]) -> int:
    return next((i for i, one in enumerate(path) if one.place == "block"), len(path))


def _fitting_comes_off(book: Book, is_drawn: bool) -> bool | None:
    through = book.dead_end.goes_through_sheaves
    if not is_drawn:
        return False
    return None if through is None else not through
