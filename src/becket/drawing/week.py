"""The coming lifts and changes as a strip, in time order.

In:    a plan.
Out:   a picture: a plate for each lift, a heavy one for each change.
Never: money, a lift that the plan leaves out without saying so.
"""

from __future__ import annotations

from math import ceil

from becket.book.tackle import State
from becket.drawing.frame import MARGIN, lines
from becket.drawing.hatch import hatch
from becket.drawing.lettering import broken, text_width
from becket.drawing.picture import INK, Picture, Polyline, Rect, Shape, Text
from becket.planning.answer import Plan, PlannedChange, PlannedGroup

_WIDTH = 360.0
_LINE = 24.0
_INSIDE = 14.0
_GAP = 10.0
_WHERE = {"E": "at the end of", "I": "between the lifts of", "S": "at the start of"}


def draw_week(plan: Plan) -> Picture:
    """Return the plan as a strip of plates, first lift above [px].

    Args:
        plan: lifts with their states, changes

    Source: docs/drawing.md.
    """
    title = title_of(plan)
    head, y = lines((title,), 8, _WIDTH, size=24, is_bold=True)
    shapes: list[Shape] = [*head]
    y += 8
    if plan.why_no_plan is not None:
        why, y = lines((plan.why_no_plan,), y, _WIDTH)
        shapes += why
        y += 8
    for i, group in enumerate(plan.groups):
        for change in plan.changes:
            if change.before_group == i:
                plate, y = _change_plate(change, y)
                shapes += plate
        plate, y = _group_plate(group, y)
        shapes += plate
    if plan.groups:
        shapes = [shape for shape in shapes if not (isinstance(shape, Polyline) and shape.points[-1][1] >= y)]
    return Picture(width=_WIDTH, height=y + 4, title=title, description=_describe(plan), shapes=tuple(shapes))


def title_of(plan: Plan) -> str:
    """Return how many changes a plan has, in a sentence; what it leaves out is in it [-].

    Args:
        plan: the plan
    """
    if plan.why_no_plan is not None:
        return "No plan"
    if not plan.groups:
        return "No lifts on file"
    count = len(plan.changes)
    words = {0: "No change ahead", 1: "One change"}.get(count, f"{count} changes")
    left_out = sum(group.state is None for group in plan.groups)
    if not left_out:
        return words
    return f"{words}, {left_out} {'lift is' if left_out == 1 else 'lifts are'} left out"


def change_words(change: PlannedChange) -> str:
    """Return a change in words: falls alone where the block stays [-].

    Args:
        change: of a plan
    """
    if change.before.block == change.after.block:
        return f"change {change.before.falls} to {change.after.falls} falls"
    return f"change {_state(change.before)} to {_state(change.after)}"


def where_words(change: PlannedChange) -> str:
    """Return where a change is made, in words [-].

    Args:
        change: of a plan
    """
    return f"{_WHERE[change.where]} {change.job}" if change.where in _WHERE else "in the yard"


def _change_plate(change: PlannedChange, y: float) -> tuple[list[Shape], float]:
    texts = [(line, 18.0, False) for line in _broken(where_words(change), 18, False)]
    texts += [(line, 22.0, True) for line in _broken(change_words(change), 22, True)]
    texts += [(f"{ceil(change.minutes - 1e-9)} min", 18.0, False)]
    return _plate(texts, y, stroke=6, facts=(("kind", "change"), ("to", str(change.after))))


def _group_plate(group: PlannedGroup, y: float) -> tuple[list[Shape], float]:
    state = _state(group.state) if group.state is not None else "left out" if group.stopped_by else "?"
    facts = (("kind", "group"), ("lift", group.lift), ("state", str(group.state) if group.state else "none"))
    texts = [(line, 18.0, False) for line in _broken(group.job, 18, False)]
    room = _WIDTH - 2 * (MARGIN + _INSIDE)
    is_one_line = text_width(group.lift, 20) + 12 + text_width(state, 20, True) <= room
    texts += [(line, 20.0, False) for line in broken(group.lift, 20, room)]
    if not is_one_line:
        texts += [(line, 20.0, True) for line in broken(state, 20, room, True)]
    if group.state is None and group.stopped_by:
        by = f"stopped by {group.stopped_by.replace('_', ' ')}"
        texts += [(line, 18.0, False) for line in _broken(by, 18, False)]
    shapes, end = _plate(texts, y, stroke=2, facts=facts, is_unknown=_is_unknown(group))
    if group.state is None and not _is_unknown(group):
        shapes.append(Rect(x=MARGIN, y=y, width=8, height=end - _GAP - y, ink=INK, outline=None))
    if is_one_line:
        line = next(s for s in shapes if isinstance(s, Text) and s.size == 20)
        at = (_WIDTH - MARGIN - _INSIDE, line.at[1])
        shapes.append(Text(at=at, text=state, size=20, is_bold=True, anchor="end"))
    return shapes, end


def _is_unknown(group: PlannedGroup) -> bool:
    """Nothing is known of it, or no state fails and one is unknown: the only lifts with hatch."""
    return group.state is None and (group.why is None or ": unknown at " in group.why)


def _plate(
    texts: list[tuple[str, float, bool]],
    y: float,
    *,
    stroke: float,
    facts: tuple[tuple[str, str], ...],
    is_unknown: bool = False,
) -> tuple[list[Shape], float]:
    height = _LINE * len(texts) + 18 + (8 if is_unknown else 0)
    width = _WIDTH - 2 * MARGIN
    shapes: list[Shape] = []
    if is_unknown:
        shapes += hatch((MARGIN, y + height - 8, MARGIN + width, y + height), period=9)
    dash = (6.0, 4.0) if is_unknown else ()
    shapes.append(Rect(x=MARGIN, y=y, width=width, height=height, stroke=stroke, dash=dash, facts=facts))
    shapes += [
        Text(at=(MARGIN + _INSIDE, y + 25 + _LINE * i), text=text, size=size, is_bold=is_bold)
        for i, (text, size, is_bold) in enumerate(texts)
    ]
    end = y + height + _GAP
    middle = MARGIN + 30
    shapes.append(Polyline(points=((middle, y + height), (middle, end)), width=stroke, facts=(("kind", "strip"),)))
    return shapes, end


def _broken(text: str, size: float, is_bold: bool) -> tuple[str, ...]:
    return broken(text, size, _WIDTH - 2 * (MARGIN + _INSIDE), is_bold)


def _state(state: State) -> str:
    return f"{state.block} {state.falls}"


def _describe(plan: Plan) -> str:
    parts = []
    for i, group in enumerate(plan.groups):
        for change in plan.changes:
            if change.before_group == i:
                parts.append(f"{change_words(change)} {where_words(change)}, {ceil(change.minutes - 1e-9)} min")
        state = _state(group.state) if group.state else f"left out, {group.why}" if group.why else "no state"
        parts.append(f"{group.job}, {group.lift}: {state}")
    why = f" {plan.why_no_plan}" if plan.why_no_plan else ""
    return f"{title_of(plan)}.{why} {'; '.join(parts)}."
