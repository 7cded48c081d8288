"""One step of drawing out: what stays on, the pass that comes out now, every sheave.

In:    a crane book, the change of the path, the number of the step.
Out:   a picture.
Never: two passes in one picture, a pattern that is not on file.
"""

from __future__ import annotations

from dataclasses import replace

from becket.book.crane import Book
from becket.drawing.fittings import NOW as NOW_BOX
from becket.drawing.fittings import USED, dead_end, keeper_bars, sheave_boxes, sheave_numbers
from becket.drawing.frame import framed
from becket.drawing.front import Front, dead_end_words, finished, lay_out_front, surroundings
from becket.drawing.legs import FALL, LEAD, Leg
from becket.drawing.not_drawn import why_not_drawn
from becket.drawing.picture import INK, MARK, Picture, Shape
from becket.drawing.ropes import DONE, NOW, Look, arrow_heads, circle_shapes, rope_shapes
from becket.drawing.threading import phase_of
from becket.drawing.words import describe_path, seen_from
from becket.errors import OutOfRangeError
from becket.reeving.change import PathChange
from becket.reeving.seal import is_confirmed


def draw_out_count(change: PathChange) -> int:
    """Return how many pictures the drawing out of a change has: one a pass [-].

    Args:
        change: of the path
    """
    return len(change.draw_out)


def draw_drawing_out(book: Book, change: PathChange, step: int, *, view: str = "rigger") -> Picture:
    """Return the picture of one step of drawing out, the rope's end free already [px].

    Args:
        book: the crane
        change: of the path
        step: from 1: the last pass of the rope, which comes out first
        view: "cab" or "rigger"

    Raises:
        OutOfRangeError: no such step, or another view.

    Source: docs/drawing.md.
    """
    if not 1 <= step <= draw_out_count(change):
        raise OutOfRangeError("step", step, f"1 to {draw_out_count(change)} is wanted")
    before = change.before
    confirmed = is_confirmed(book, before)
    why = why_not_drawn(book, before)
    now = len(before.path) - step + 1
    title = f"{before.block}: draw out of {_place(change, now)}"
    if why:
        return framed((), 0.0, (seen_from(view), title), why, (why,), width=360.0, is_confirmed=confirmed)
    front = lay_out_front(book, before, view)
    shapes = _shapes(front, change, now)
    picture = finished(front, shapes, confirmed, title=(seen_from(view), title), feet=_feet(change))
    return replace(picture, description=_describe(book, change, now, view))


def _shapes(front: Front, change: PathChange, now: int) -> tuple[Shape, ...]:
    pattern = change.before
    looks = {
        (one.place, one.sheave): NOW_BOX if number == now else USED
        for number, one in enumerate(pattern.path, start=1)
        if number <= now
    }

    def look_of(leg: Leg) -> Look | None:
        phase = phase_of(leg)
        return DONE if phase < now else NOW if phase == now else None

    legs_now = [leg for leg in front.legs if phase_of(leg) == now and leg.kind in (LEAD, FALL)]
    circles = {fall: place for fall, place in front.circles.items() if fall < now}
    back = [replace(leg, points=tuple(reversed(leg.points))) for leg in legs_now]
    arrows = tuple(head for leg in back for head in arrow_heads(leg, circles.get(leg.number)))
    return (
        *sheave_boxes(front.layout, looks),
        *keeper_bars(front.layout, {keeper.name for keeper in change.keepers}),
        *dead_end_words(front),
        *rope_shapes(front.legs, look_of),
        *dead_end(front.layout, None),
        *arrows,
        *sheave_numbers(front.layout, looks),
        *circle_shapes(circles, lambda fall: MARK if fall == now - 1 else INK),
        *surroundings(front),
    )


def _feet(change: PathChange) -> tuple[str, ...]:
    out = ", ".join(keeper.name for keeper in change.keepers)
    return ("Heavy, with arrows: comes out now. The end is free.", *((f"Out: {out}.",) if out else ()))


def _place(change: PathChange, now: int) -> str:
    one = change.before.path[now - 1]
    return f"{one.place}\u00a0{one.sheave}"  # place and number stay on one line


def _describe(book: Book, change: PathChange, now: int, view: str) -> str:
    stays = ", ".join(map(str, change.before.path[: now - 1])) or "nothing"
    return (
        f"Comes out now: {_place(change, now)}. Still on: {stays}. "
        f"Whole path before: {describe_path(book, change.before, view)}"
    )
