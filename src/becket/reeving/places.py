"""Where each fall hangs: its place on the head and on the block.

In:    a crane book and one of its patterns.
Out:   places in plan, (sideways, along) from the shaft; the names of the figures that are not on file.
Never: a place that the book does not give; angles, distances.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Block, Pass, Pattern
from becket.reeving.counts import dead_end_side
from becket.reeving.words import dead_end_anchor

FallEnd = tuple[float, float | None]  # sideways, along [m]

_PAGE = "in the manual's reeving drawings"
_HEAD_PAGE = "in the manual's drawing of the boom head"
_BLOCK_PAGE = "on the block's plate or the page of the manual on hook blocks"


@dataclass(frozen=True, kw_only=True)
class FallPlaces:
    """Upper and lower end of each fall, fall 1 (next to the drum) first. Along: forward of the shaft is +."""

    tops: tuple[FallEnd, ...]
    lows: tuple[FallEnd, ...]
    top_on_sheave: tuple[bool, ...]
    low_on_sheave: tuple[bool, ...]
    faces: tuple[str | None, ...]  # of the block: "front", "back", "middle"; None: not on file
    missing: tuple[str, ...]  # figures that are not on file, each with its field path and where manuals print it


def fall_places(book: Book, pattern: Pattern) -> FallPlaces | None:
    """Return the places of the falls; None: a sideways place is not on file, see `sides_missing` [m].

    A fall leaves its sheave half a pitch diameter fore or aft of the shaft: with the lead line over its head sheave
    fall 1 hangs in front, fall 2 behind, and so on in turn. A dead end is where the book says.

    Args:
        book: the crane
        pattern: of the book

    Source: docs/theory/reeving.md, eq. 4 and "Places of the falls".
    """
    if sides_missing(book, pattern):
        return None
    ends = _Ends(book, book.blocks[pattern.block], pattern)
    falls = range(1, len(pattern.path) + 1)
    tops = tuple(ends.top(fall) for fall in falls)
    lows = tuple(ends.low(fall) for fall in falls)
    return FallPlaces(
        tops=tops,
        lows=lows,
        top_on_sheave=tuple(ends.top_is_pass(fall) for fall in falls),
        low_on_sheave=tuple(ends.low_is_pass(fall) for fall in falls),
        faces=tuple(ends.face(fall, low) for fall, low in zip(falls, lows, strict=True)),
        missing=ends.missing(),
    )


def sides_missing(book: Book, pattern: Pattern) -> tuple[str, ...]:
    """Return the sideways places that a pattern needs and the book does not have, in words [-].

    A path that does not go head, block, head, block, or does not make the falls of its pattern, or ends on the
    wrong side, has no falls to place: the path itself is named.

    Args:
        book: the crane
        pattern: of the book

    Source: docs/theory/reeving.md, "Places of the falls".
    """
    if not _makes_its_falls(pattern):
        return (f"a path that makes {pattern.falls} falls (pattern {pattern.state}), {_PAGE}",)
    block = book.blocks.get(pattern.block)
    if block is None:
        return (f"hook block {pattern.block} (blocks.{pattern.block}), {_BLOCK_PAGE}",)
    names = []
    for one in pattern.path:
        at_head = one.place == "head"
        field = "head" if at_head else f"blocks.{pattern.block}"
        if one.sheave not in (book.head.sheaves if at_head else block.sheaves):
            names.append(f"sheave {one.sheave} ({field}.sheaves), {_HEAD_PAGE if at_head else _BLOCK_PAGE}")
    if _dead_end(book, block, pattern) is None:
        names.append(f"place of the dead end ({_dead_end_field(pattern)}), {_PAGE}")
    return tuple(dict.fromkeys(names))


def is_alternating(path: tuple[Pass, ...]) -> bool:
    """Return whether a path starts at the head and goes head, block, head, block in turn [-].

    Args:
        path: passes, rope from the drum outward

    >>> is_alternating((Pass(place="head", sheave=1), Pass(place="head", sheave=2)))
    False
    """
    return bool(path) and all(one.place == ("block" if i % 2 else "head") for i, one in enumerate(path))


def _makes_its_falls(pattern: Pattern) -> bool:
    side = "block" if dead_end_anchor(pattern.dead_end) is None else "head"
    return is_alternating(pattern.path) and len(pattern.path) == pattern.falls and side == dead_end_side(pattern.falls)


@dataclass(frozen=True)
class _Ends:
    """The ends of the falls along a path: pass i ends fall i, counted from 1, and begins the next."""

    book: Book
    block: Block
    pattern: Pattern

    def top(self, fall: int) -> FallEnd:
        return self._end(fall, self.top_is_pass(fall), fall - 1 + (fall % 2 == 0))

    def low(self, fall: int) -> FallEnd:
        return self._end(fall, self.low_is_pass(fall), fall - 1 + (fall % 2 == 1))

    def top_is_pass(self, fall: int) -> bool:
        return fall % 2 == 1 or fall < len(self.pattern.path)

    def low_is_pass(self, fall: int) -> bool:
        return fall % 2 == 0 or fall < len(self.pattern.path)

    def face(self, fall: int, low: FallEnd) -> str | None:
        if self.low_is_pass(fall):
            sign: float | None = self._sign(fall)
        else:
            sign = low[1]
        if sign is None:
            return None
        return "front" if sign > 0 else "back" if sign < 0 else "middle"

    def missing(self) -> tuple[str, ...]:
        names = []
        if self.book.head.lead is None:
            names.append(f"side on which the lead line meets its head sheave (head.lead), {_PAGE}")
        if len(self.pattern.path) > 1 and self.block.sheave_diameter is None:
            field = f"blocks.{self.block.name}.sheave_diameter"
            names.append(f"sheave diameter of the block {self.block.name} ({field}), {_BLOCK_PAGE}")
        anchor = _dead_end(self.book, self.block, self.pattern)
        if anchor is not None and anchor.along is None:
            field = f"{_dead_end_field(self.pattern)}.along"
            names.append(f"place of the dead end along the boom ({field}), {_HEAD_PAGE}")
        return tuple(names)

    def _end(self, fall: int, is_pass: bool, index: int) -> FallEnd:
        if not is_pass:
            anchor = _dead_end(self.book, self.block, self.pattern)
            if anchor is None:  # fall_places has asked before
                raise KeyError(_dead_end_field(self.pattern))
            return anchor.side, anchor.along
        one = self.pattern.path[index]
        at_head = one.place == "head"
        side = (self.book.head if at_head else self.block).sheaves[one.sheave]
        diameter = self.book.head.sheave_diameter if at_head else self.block.sheave_diameter
        sign = self._sign(fall)
        return side, None if sign is None or diameter is None else sign * diameter / 2

    def _sign(self, fall: int) -> float | None:
        if self.book.head.lead not in ("over", "under"):
            return None
        first = 1.0 if self.book.head.lead == "over" else -1.0
        return first if fall % 2 else -first


def _dead_end(book: Book, block: Block, pattern: Pattern) -> Anchor | None:
    name = dead_end_anchor(pattern.dead_end)
    return block.becket if name is None else book.head.anchors.get(name)


def _dead_end_field(pattern: Pattern) -> str:
    name = dead_end_anchor(pattern.dead_end)
    return f"blocks.{pattern.block}.becket" if name is None else f"head.anchors.{name}"
