"""Where the sheaves of head and block stand in a front view.

In:    a crane book, one of its patterns, from where it is seen.
Out:   places in pixels: sideways to scale, heights not.
Never: ropes, shapes, a sheave or an anchor that is not on file.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from becket.book.crane import Book
from becket.book.tackle import Block, Pattern
from becket.reeving.words import dead_end_anchor

VIEWS = ("cab", "rigger")
ROPE = 8.0  # width of a rope [px]
CASING = 3.5  # paper beside a rope that is over another [px]
BOX_HEIGHT = 56.0  # of a sheave
LINK = 14.0  # of a dead end
WEDGE = 26.0
KEEPER_ROW = 12.0
LEAST_GAP = 150.0  # between head row and block row
_MARGIN = 20.0
_LEAST_WIDTH = 360.0
_LEAST_PITCH = 66.0
_MOST_PITCH = 84.0
_NAME_ROOM = 64.0  # beside the sheaves, for the words of a dead end that has no room between the ropes


@dataclass(frozen=True, kw_only=True)
class Layout:
    """Places of one front view [px]. Heights count from the top of the head's sheaves."""

    book: Book
    pattern: Pattern
    block: Block
    view: str
    width: float
    head_at: Mapping[int, float]  # sheave -> middle
    block_at: Mapping[int, float]
    becket_at: float  # middle of the block, or of its becket where it has no sheaves
    anchor_at: float  # of the dead end
    column: float  # from the middle of a sheave to its ropes
    gap: float  # between the rows
    is_to_scale: bool
    straight: float  # where the falls run upright beside one another, at the row without the dead end
    room: str  # "", "left", "right": where the words of the dead end have room of their own

    @property
    def ends_on_head(self) -> bool:
        """Whether the dead end is on the head [-]."""
        return dead_end_anchor(self.pattern.dead_end) is not None

    @property
    def box_width(self) -> float:
        """Width of a sheave [px]."""
        return 2 * (self.column + 10)

    @property
    def block_top(self) -> float:
        """Top of the block's sheaves [px]."""
        return BOX_HEIGHT + self.gap

    @property
    def stubs(self) -> tuple[float, float]:
        """Heights between which falls run aslant [px]."""
        free = LINK + WEDGE + 8
        return (
            BOX_HEIGHT + (free if self.ends_on_head else self.straight),
            self.block_top - (self.straight if self.ends_on_head else free),
        )


def lay_out(book: Book, pattern: Pattern, view: str) -> Layout:
    """Return the places of the sheaves, rows as near as they may be [px].

    Args:
        book: the crane
        pattern: of the book, with every sheave and its dead end on file
        view: "cab": seen from the cab; "rigger": facing the cab, the mirror of it

    Source: docs/drawing.md.
    """
    block = book.blocks[pattern.block]
    numbers = (*book.head.sheaves, *block.sheaves)
    column = 18.0 if max(numbers, default=1) < 10 else 21.0
    sign = 1.0 if view == "cab" else -1.0
    items = [(sign * side, "head", number) for number, side in book.head.sheaves.items()]
    items += [(sign * side, "block", number) for number, side in block.sheaves.items()]
    name = dead_end_anchor(pattern.dead_end)
    anchor = block.becket if name is None else book.head.anchors[name]
    items.append((sign * (anchor.side if anchor else 0.0), "anchor", 0))
    if not block.sheaves:
        items.append((sign * (block.becket.side if block.becket else 0.0), "block", 0))
    places, is_to_scale = _spread(sorted(items), _LEAST_PITCH + 2 * (column - 18))
    half = column + 10
    left, right = min(places.values()) - half, max(places.values()) + half
    width = max(_LEAST_WIDTH, right - left + 2 * _MARGIN)
    shift = (width - right - left) / 2
    at = {key: place + shift for key, place in places.items()}
    block_at = {number: at["block", number] for number in block.sheaves}
    return Layout(
        book=book,
        pattern=pattern,
        block=block,
        view=view,
        width=width,
        head_at={number: at["head", number] for number in book.head.sheaves},
        block_at=block_at,
        becket_at=(min(block_at.values()) + max(block_at.values())) / 2 if block_at else at["block", 0],
        anchor_at=at["anchor", 0],
        column=column,
        gap=LEAST_GAP,
        is_to_scale=is_to_scale,
        straight=8.0,
        room="",
    )


def with_room(layout: Layout) -> Layout:
    """Return the layout with room at its outer side for the words of the dead end [px].

    Args:
        layout: without that room
    """
    is_left = layout.anchor_at < layout.width / 2
    by = _NAME_ROOM if is_left else 0.0
    return replace(
        layout,
        width=layout.width + _NAME_ROOM,
        head_at={number: x + by for number, x in layout.head_at.items()},
        block_at={number: x + by for number, x in layout.block_at.items()},
        becket_at=layout.becket_at + by,
        anchor_at=layout.anchor_at + by,
        room="left" if is_left else "right",
    )


def _spread(items: list[tuple[float, str, int]], least: float) -> tuple[dict[tuple[str, int], float], bool]:
    """Places in order, to scale where no two sheaves of a row then come too near to one another."""
    rows: dict[str, list[float]] = {}
    for offset, row, _ in items:
        rows.setdefault(row, []).append(offset)
    near = [b - a for row in ("head", "block") for a, b in zip(rows.get(row, []), rows.get(row, [])[1:], strict=False)]
    narrowest = min((d for d in near if d > 0), default=None)
    span = items[-1][0] - items[0][0]
    pitches = max(len(near), 1)
    scale = least / narrowest if narrowest else (least / span if span else 0.0)
    fills = (_LEAST_WIDTH - 2 * _MARGIN - least + 10) / span if span else 0.0
    scale = max(scale, min(fills, scale * _MOST_PITCH / least))
    is_to_scale = span * scale <= 1.5 * least * pitches + least
    if not is_to_scale:
        scale = 1.5 * least * pitches / span
    places: dict[tuple[str, int], float] = {}
    last_in_row: dict[str, float] = {}
    before, at = items[0][0], 0.0
    for offset, row, number in items:
        at += scale * (offset - before)
        before = offset
        floor = last_in_row[row] + least if row in last_in_row and row != "anchor" else at
        if floor > at + 1e-6:
            at, is_to_scale = floor, False
        places[row, number] = at
        last_in_row[row] = at
    return places, is_to_scale
