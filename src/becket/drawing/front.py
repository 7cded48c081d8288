"""Front view of a pattern: head above, block below, the rope from the drum to the dead end.

In:    a crane book, one of its patterns, from where it is seen, whether it is confirmed.
Out:   a picture.
Never: a pattern that is not on file, a side that is not in the book, mirrored text, a band across the rope.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.drawing.circles import place_circles, place_in_turn, place_words
from becket.drawing.fittings import (
    USED,
    dead_end,
    hook,
    keeper_bars,
    keeper_rows,
    left_and_right,
    sheave_boxes,
    sheave_numbers,
)
from becket.drawing.frame import MARGIN, TEXT, framed
from becket.drawing.layout import BOX_HEIGHT, KEEPER_ROW, LINK, VIEWS, WEDGE, Layout, lay_out, with_room
from becket.drawing.legs import Leg, legs_of, wedge_points
from becket.drawing.lettering import text_width
from becket.drawing.not_drawn import why_not_drawn
from becket.drawing.picture import INK, SOFT, Picture, Point, Polyline, Shape, Text, is_apart
from becket.drawing.ropes import DONE, circle_shapes, rope_shapes
from becket.drawing.words import describe_path, legend_lines, seen_from
from becket.errors import OutOfRangeError

_WORDS = ("dead", "end")
_WORD_LINE = 20.0
_GAPS = (150.0, 174.0, 198.0, 230.0)  # between the rows, tried in turn [px]
_MOST_SEARCHED = 8  # falls; with more of them the numbers stand in two rows
_STRAIGHT = 90.0  # two rows of numbers [px]
_HOOK_ROOM = 56.0


@dataclass(frozen=True, kw_only=True)
class Front:
    """A front view laid out: every place is settled, nothing is drawn."""

    layout: Layout
    legs: tuple[Leg, ...]
    circles: Mapping[int, Point]
    top: float  # height at which the lead line comes in [px]
    bottom: float  # height of the lowest keeper [px]
    words_at: tuple[Point, str]  # upper corner of the words at the dead end, side on which they are anchored


def draw_pattern(book: Book, pattern: Pattern, *, view: str = "cab", is_confirmed: bool) -> Picture:
    """Return the front view of a pattern [px].

    Args:
        book: the crane
        pattern: of the book
        view: "cab": seen from the cab; "rigger": facing the cab, the mirror of it
        is_confirmed: the pattern was confirmed against the manual by a second person

    Raises:
        OutOfRangeError: another view.

    Source: docs/drawing.md.
    """
    why = why_not_drawn(book, pattern)
    if why:
        return framed((), 0.0, title_of(pattern, view), why, (why,), width=360.0, is_confirmed=is_confirmed)
    front = lay_out_front(book, pattern, view)
    looks = {(one.place, one.sheave): USED for one in pattern.path}
    shapes = (
        *sheave_boxes(front.layout, looks),
        *keeper_bars(front.layout),
        *dead_end_words(front),
        *rope_shapes(front.legs, lambda _: DONE),
        *dead_end(front.layout, INK),
        *sheave_numbers(front.layout, looks),
        *circle_shapes(front.circles, lambda _: INK),
        *surroundings(front),
    )
    return finished(front, shapes, is_confirmed)


def lay_out_front(book: Book, pattern: Pattern, view: str) -> Front:
    """Return a front view with every place settled: rows as near as the numbers of the falls permit [px].

    Args:
        book: the crane
        pattern: of the book, nothing keeps it from being drawn
        view: "cab" or "rigger"

    Raises:
        OutOfRangeError: another view.
    """
    if view not in VIEWS:
        raise OutOfRangeError("view", view, '"cab" or "rigger" is wanted')
    layout = lay_out(book, pattern, view)
    front, has_words = _settled(layout)
    if has_words:
        return front
    layout = with_room(front.layout)
    by = layout.anchor_at - front.layout.anchor_at
    circles = {fall: (x + by, y) for fall, (x, y) in front.circles.items()}
    front = replace(front, layout=layout, legs=legs_of(layout, front.top), circles=circles)
    is_left = layout.room == "left"
    y = min(p[1] for p in wedge_points(front.layout)) - 6
    at = (MARGIN if is_left else layout.width - MARGIN, y)
    return replace(front, words_at=(at, "start" if is_left else "end"))


def finished(
    front: Front,
    shapes: tuple[Shape, ...],
    is_confirmed: bool,
    *,
    title: tuple[str, str] | None = None,
    feet: tuple[str, ...] = (),
) -> Picture:
    """Return the picture of a front view with its title, its legend and, where not confirmed, its bands [px].

    Args:
        front: laid out
        shapes: heights as in the layout
        is_confirmed: by a second person
        title: instead of view, block and falls
        feet: further lines under the legend
    """
    layout = front.layout
    height = front.bottom - front.top + _HOOK_ROOM + 26
    return framed(
        shapes,
        height,
        title or title_of(layout.pattern, layout.view),
        describe_path(layout.book, layout.pattern, layout.view),
        (*legend_lines(layout), *feet),
        width=layout.width,
        is_confirmed=is_confirmed,
        top=front.top,
    )


def title_of(pattern: Pattern, view: str) -> tuple[str, str]:
    """Return what stands over a front view: from where it is seen, which block and how many falls [-].

    Args:
        pattern: of the book
        view: "cab" or "rigger"
    """
    falls = "1 fall" if pattern.falls == 1 else f"{pattern.falls} falls"
    return seen_from(view), f"{pattern.block}, {falls}"


def dead_end_words(front: Front) -> tuple[Shape, ...]:
    """Return the words at the dead end; far from it, with a thin line that ropes pass over [-].

    Args:
        front: laid out
    """
    (x, y), anchor = front.words_at
    facts = (("kind", "dead end words"),)
    texts = tuple(
        Text(at=(x, y + 15 + i * _WORD_LINE), text=word, anchor=anchor, facts=facts) for i, word in enumerate(_WORDS)
    )
    if not front.layout.room:
        return texts
    points = wedge_points(front.layout)
    middle = (points[0][1] + points[-1][1]) / 2
    end = x + (_words_size()[0] + 3) * (1 if anchor == "start" else -1)
    start = front.layout.anchor_at
    return (Polyline(points=((start, middle), (end, middle)), ink=SOFT, width=2, facts=(("kind", "leader"),)), *texts)


def surroundings(front: Front) -> tuple[Shape, ...]:
    """Return hook, names of the rows, the words at the lead line, left and right [-].

    Args:
        front: laid out
    """
    layout = front.layout
    at = front.legs[0].points[0][0]
    width = text_width("from the drum", TEXT)
    is_right = at + 12 + width <= layout.width - MARGIN
    drum = Text(
        at=(at + 12 if is_right else at - 12, front.top + 15),
        text="from the drum",
        anchor="start" if is_right else "end",
        facts=(("kind", "lead words"),),
    )
    head = Text(at=(MARGIN, front.top + 15), text="head", is_bold=True, facts=(("kind", "row name"),))
    if not is_apart(head.box, drum.box, 8) or at - 12 < head.box[2]:
        head = replace(head, at=(layout.width - MARGIN, front.top + 15), anchor="end")
    under = front.bottom + 8
    block = Text(at=(MARGIN, under + 22), text="block", is_bold=True, facts=(("kind", "row name"),))
    if not is_apart(block.box, (layout.becket_at - 18, under, layout.becket_at + 18, under + 44), 4):
        block = replace(block, at=(layout.width - MARGIN, under + 22), anchor="end")
    return (
        head,
        drum,
        block,
        *hook(layout.becket_at, under),
        *left_and_right(layout.width, MARGIN, under + 66, layout.view),
    )


def _settled(layout: Layout) -> tuple[Front, bool]:
    """The rows as near as the numbers permit; whether the words at the dead end have room between the ropes."""
    head_rows, block_rows = keeper_rows(layout)
    near = layout.column + 12
    top = -(near + len(head_rows) * KEEPER_ROW + 26)
    tried, legs, circles = _with_circles(layout, top)
    box = place_words(tried, legs, circles, _words_size())
    near_block = near if layout.block_at else -4.0
    bottom = tried.block_top + BOX_HEIGHT + near_block + len(block_rows) * KEEPER_ROW
    words_at = ((box[0], box[1]), "start") if box else ((0.0, 0.0), "start")
    front = Front(layout=tried, legs=legs, circles=circles, top=top, bottom=bottom, words_at=words_at)
    return front, box is not None


def _with_circles(layout: Layout, top: float) -> tuple[Layout, tuple[Leg, ...], Mapping[int, Point]]:
    for gap in _GAPS if layout.pattern.falls <= _MOST_SEARCHED else ():
        tried = replace(layout, gap=gap)
        legs = legs_of(tried, top)
        circles = place_circles(tried, legs)
        if circles is not None:
            return tried, legs, circles
    aslant = max(_GAPS[0], 0.3 * layout.width)
    tried = replace(layout, gap=aslant + _STRAIGHT + LINK + WEDGE, straight=_STRAIGHT)
    legs = legs_of(tried, top)
    return tried, legs, place_in_turn(tried, legs)


def _words_size() -> tuple[float, float]:
    return max(text_width(word, TEXT) for word in _WORDS), _WORD_LINE * len(_WORDS)
