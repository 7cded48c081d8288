"""One step of threading: what is on, this pass, the next, every sheave.

In:    a crane book, the change of the path, the number of the step.
Out:   a picture.
Never: two passes in one picture, a pattern that is not on file.
"""

from __future__ import annotations

from dataclasses import replace

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.drawing.fittings import NOW as NOW_BOX
from becket.drawing.fittings import USED, dead_end, keeper_bars, sheave_boxes, sheave_numbers
from becket.drawing.frame import framed
from becket.drawing.front import Front, dead_end_words, finished, lay_out_front, surroundings
from becket.drawing.legs import FALL, LEAD, Leg, side_of_fall
from becket.drawing.not_drawn import why_not_drawn
from becket.drawing.picture import INK, MARK, Picture, Shape
from becket.drawing.ropes import DONE, NEXT, NOW, Look, arrow_heads, circle_shapes, rope_shapes
from becket.drawing.words import dead_end_words as dead_end_in_words
from becket.drawing.words import describe_path, seen_from
from becket.errors import OutOfRangeError
from becket.reeving.change import PathChange
from becket.reeving.seal import is_confirmed


def step_count(change: PathChange) -> int:
    """Return how many pictures the threading of a change has: one a pass, one for the dead end [-].

    Args:
        change: of the path
    """
    return len(change.thread) + 1


def draw_threading(book: Book, change: PathChange, step: int, *, view: str = "rigger") -> Picture:
    """Return the picture of one step of threading [px].

    Args:
        book: the crane
        change: of the path
        step: from 1: the first pass that is threaded; the last one makes the dead end
        view: "cab" or "rigger"

    Raises:
        OutOfRangeError: no such step, or another view.

    Source: docs/drawing.md.
    """
    if not 1 <= step <= step_count(change):
        raise OutOfRangeError("step", step, f"1 to {step_count(change)} is wanted")
    after = change.after
    confirmed = is_confirmed(book, after)
    why = why_not_drawn(book, after)
    now = len(change.keep) + step
    title = f"{after.block}, {after.falls} falls: {step_words(after, now)}"
    if why:
        return framed((), 0.0, (seen_from(view), title), why, (why,), width=360.0, is_confirmed=confirmed)
    front = lay_out_front(book, after, view)
    picture = finished(
        front,
        _shapes(front, change, now),
        confirmed,
        title=(seen_from(view), title),
        feet=_feet(change, now),
    )
    return replace(picture, description=_describe(book, after, now, view))


def step_words(pattern: Pattern, number: int) -> str:
    """Return what is done at a pass, or, one further, at the dead end [-].

    Args:
        pattern: that is threaded
        number: of the pass, from 1
    """
    path = [f"{one.place}\u00a0{one.sheave}" for one in pattern.path]  # place and number stay on one line
    if number == 1:
        return f"from the drum over {path[0]}"
    way = "down" if number % 2 == 0 else "up"
    if number > len(path):
        return f"{way} from {path[-1]} to the dead end"
    return f"{way} from {path[number - 2]}, {'over' if number % 2 else 'under'} {path[number - 1]}"


def phase_of(leg: Leg) -> int:
    """Return the number of the pass at which a leg comes on; of the last fall, that of the dead end [-].

    Args:
        leg: of the rope
    """
    return {LEAD: 1, FALL: leg.number + 1}.get(leg.kind, leg.number)


def _shapes(front: Front, change: PathChange, now: int) -> tuple[Shape, ...]:
    pattern = change.after
    looks = {
        (one.place, one.sheave): NOW_BOX if number == now else USED
        for number, one in enumerate(pattern.path, start=1)
        if number <= now
    }

    def look_of(leg: Leg) -> Look | None:
        phase = phase_of(leg)
        return DONE if phase < now else NOW if phase == now else NEXT if phase == now + 1 else None

    legs_now = [leg for leg in front.legs if phase_of(leg) == now and leg.kind in (LEAD, FALL)]
    circles = {fall: place for fall, place in front.circles.items() if fall < now}
    arrows = tuple(head for leg in legs_now for head in arrow_heads(leg, circles.get(leg.number)))
    ends_now = now > len(pattern.path)
    return (
        *sheave_boxes(front.layout, looks),
        *keeper_bars(front.layout, {keeper.name for keeper in change.keepers}),
        *dead_end_words(front),
        *rope_shapes(front.legs, look_of),
        *dead_end(front.layout, MARK if ends_now else None),
        *arrows,
        *sheave_numbers(front.layout, looks),
        *circle_shapes(circles, lambda fall: MARK if fall == now - 1 else INK),
        *surroundings(front),
    )


def _feet(change: PathChange, now: int) -> tuple[str, ...]:
    out = ", ".join(keeper.name for keeper in change.keepers)
    is_last = now > len(change.after.path)
    return (
        "Heavy, with arrows: this pass." + ("" if is_last else " Dots: the next one."),
        *((f"Out: {out}.",) if out else ()),
    )


def _describe(book: Book, pattern: Pattern, now: int, view: str) -> str:
    side = side_of_fall(book, now - 1)
    where = f", {side} side" if side else ""
    on = ", ".join(map(str, pattern.path[: now - 1])) or "nothing"
    to_come = ", ".join(map(str, pattern.path[now:])) or "nothing"
    end = dead_end_in_words(pattern, view)
    return (
        f"This pass: {step_words(pattern, now)}{where}. On already: {on}. Still to come: {to_come}. "
        f"The dead end goes to: {end}. Whole path: {describe_path(book, pattern, view)}"
    )
