"""What stands still in a front view: shafts, sheaves, keepers, dead end, hook, words of left and right.

In:    a layout.
Out:   shapes.
Never: ropes, circles, a keeper that is not in the book.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from math import cos, radians, sin

from becket.book.tackle import Keeper
from becket.drawing.layout import BOX_HEIGHT, KEEPER_ROW, LINK, Layout
from becket.drawing.legs import wedge_points
from becket.drawing.picture import FILL, INK, MARK, PAPER, SOFT, Polygon, Polyline, Rect, Shape, Text

USED, PLAIN, NOW = "used", "plain", "now"
_OUT_DASH = (6.0, 4.0)
_ARC_ROOM = 8.0  # between the top of an arc and the first keeper [px]


def sheave_boxes(layout: Layout, looks: Mapping[tuple[str, int], str]) -> tuple[Shape, ...]:
    """Return shafts and sheaves, used or not [-].

    Args:
        layout: places
        looks: (place, sheave) -> USED, NOW; those not named are PLAIN
    """
    shapes: list[Shape] = []
    for place, row, top in _rows(layout):
        half = layout.box_width / 2
        ends = list(row.values()) or [layout.becket_at]
        inset = 12 if row else 0  # a ball is all body, no shaft
        shaft = Rect(
            x=min(ends) - half - 6,
            y=top + inset,
            width=max(ends) - min(ends) + 2 * half + 12,
            height=BOX_HEIGHT - 2 * inset,
            round=6 if row else 24,
            ink=FILL,
            facts=(("kind", "shaft"), ("of", place)),
        )
        shapes.append(shaft)
        shapes += [_box(layout, x, top, place, number, looks) for number, x in row.items()]
    return tuple(shapes)


def sheave_numbers(layout: Layout, looks: Mapping[tuple[str, int], str]) -> tuple[Text, ...]:
    """Return the numbers of the sheaves, bold on those with rope [-].

    Args:
        layout: places
        looks: as for ``sheave_boxes``
    """
    room = 2 * layout.column - 12  # between two heavy ropes
    texts = []
    for place, row, top in _rows(layout):
        for number, x in row.items():
            size = min(24.0, room / (0.72 * len(str(number))))
            look = looks.get((place, number), PLAIN)
            text = Text(
                at=(x, top + BOX_HEIGHT / 2 + 0.36 * size),
                text=str(number),
                size=size,
                is_bold=look != PLAIN,
                anchor="middle",
                facts=(("kind", "number"), ("sheave", f"{place} {number}")),
            )
            texts.append(text)
    return tuple(texts)


def keeper_rows(layout: Layout) -> tuple[tuple[tuple[Keeper, ...], ...], tuple[tuple[Keeper, ...], ...]]:
    """Return the keepers of the head and of the block, in rows in which none covers another [-].

    Args:
        layout: with the book and its pattern
    """
    keepers = layout.book.keepers
    head = [k for k in keepers if k.at == "head"]
    block = [k for k in keepers if k.at == "block" and k.block == layout.pattern.block]
    return _in_rows(head, layout.head_at), _in_rows(block, layout.block_at)


def keeper_bars(layout: Layout, out: Collection[str] = ()) -> tuple[Shape, ...]:
    """Return the keepers as bars across the grooves that they hold, and the one of the dead end [-].

    Args:
        layout: places
        out: names of the keepers that are drawn out
    """
    shapes: list[Shape] = []
    head_rows, block_rows = keeper_rows(layout)
    for rows, row_at, edge, sign in (
        (head_rows, layout.head_at, 0.0, -1),
        (block_rows, layout.block_at, layout.block_top + BOX_HEIGHT, 1),
    ):
        for i, keepers in enumerate(rows):
            y = edge + sign * (layout.column + 4 + _ARC_ROOM + i * KEEPER_ROW)
            for keeper in keepers:
                shapes += _bars(layout, keeper, row_at, y, keeper.name in out)
    for keeper in layout.book.keepers:
        if keeper.at == "dead end":
            y = BOX_HEIGHT + LINK / 2 if layout.ends_on_head else layout.block_top - LINK / 2
            shapes.append(_bar(layout.anchor_at - 8, layout.anchor_at + 8, y, keeper, keeper.name in out))
    return tuple(shapes)


def dead_end(layout: Layout, ink: str | None) -> tuple[Shape, ...]:
    """Return the dead end, a wedge on a link [-].

    Args:
        layout: places
        ink: None: waiting, dashed outline only
    """
    x, facts = layout.anchor_at, (("kind", "dead end"), ("at", layout.pattern.dead_end))
    edge, wide = (BOX_HEIGHT, BOX_HEIGHT + LINK) if layout.ends_on_head else (layout.block_top, layout.block_top - LINK)
    link = Polyline(points=((x, edge), (x, wide)), ink=ink or INK, width=4, facts=(("kind", "link"),))
    points = wedge_points(layout)
    if ink is None:
        return link, Polygon(points=points, ink=PAPER, outline=INK, width=2, dash=(4, 3), facts=facts)
    return link, Polygon(points=points, ink=ink, outline=ink, width=2, facts=facts)


def hook(x: float, top: float) -> tuple[Shape, ...]:
    """Return the hook under a block, 44 px high [-].

    Args:
        x: middle [px]
        top: upper end of its shank [px]
    """
    turn = tuple((x + 12 * cos(radians(a)), top + 26 + 12 * sin(radians(a))) for a in range(-90, 171, 20))
    points = ((x, top), *turn)
    return (Polyline(points=points, width=7, facts=(("kind", "hook"),)),)


def left_and_right(width: float, margin: float, y: float, view: str) -> tuple[Shape, ...]:
    """Return the words that say whose left and right [-].

    Args:
        width: of the picture [px]
        margin: [px]
        y: base line [px]
        view: "cab" or "rigger"
    """
    left, right = ("cab\u2019s left", "cab\u2019s right") if view == "cab" else ("cab\u2019s right", "cab\u2019s left")
    facts = (("kind", "orientation"),)
    tip, end = margin, width - margin
    return (
        Polygon(points=((tip, y - 6), (tip + 9, y - 12), (tip + 9, y)), facts=facts),
        Text(at=(tip + 14, y), text=left, facts=facts),
        Text(at=(end - 14, y), text=right, anchor="end", facts=facts),
        Polygon(points=((end, y - 6), (end - 9, y - 12), (end - 9, y)), facts=facts),
    )


def _rows(layout: Layout) -> tuple[tuple[str, Mapping[int, float], float], ...]:
    return ("head", layout.head_at, 0.0), ("block", layout.block_at, layout.block_top)


def _box(layout: Layout, x: float, top: float, place: str, number: int, looks: Mapping[tuple[str, int], str]) -> Rect:
    look = looks.get((place, number), PLAIN)
    return Rect(
        x=x - layout.box_width / 2,
        y=top,
        width=layout.box_width,
        height=BOX_HEIGHT,
        round=10,
        ink=PAPER,
        outline=MARK if look == NOW else INK if look == USED else SOFT,
        stroke={USED: 4.0, NOW: 6.0, PLAIN: 2.0}[look],
        facts=(("kind", "sheave"), ("sheave", f"{place} {number}"), ("look", look)),
    )


def _in_rows(keepers: Iterable[Keeper], row_at: Mapping[int, float]) -> tuple[tuple[Keeper, ...], ...]:
    rows: list[list[Keeper]] = []
    for keeper in keepers:
        held = [row_at[n] for n in keeper.holds if n in row_at]
        if not held:
            continue
        for row in rows:
            if all(_is_beside(held, [row_at[n] for n in other.holds if n in row_at]) for other in row):
                row.append(keeper)
                break
        else:
            rows.append([keeper])
    return tuple(tuple(row) for row in rows)


def _is_beside(a: list[float], b: list[float]) -> bool:
    return max(a) < min(b) or max(b) < min(a)


def _bars(layout: Layout, keeper: Keeper, row_at: Mapping[int, float], y: float, is_out: bool) -> list[Shape]:
    """One bar for each run of neighbours, joined by a thin line where the keeper leaves sheaves out."""
    order = sorted(row_at, key=lambda n: row_at[n])
    held = [number in keeper.holds for number in order]
    runs: list[list[float]] = []
    for i, number in enumerate(order):
        if held[i] and i > 0 and held[i - 1]:
            runs[-1].append(row_at[number])
        elif held[i]:
            runs.append([row_at[number]])
    half = layout.box_width / 2 + 1
    shapes: list[Shape] = []
    if len(runs) > 1:
        joint = ((runs[0][0], y), (runs[-1][-1], y))
        shapes.append(Polyline(points=joint, width=1.5, facts=(("kind", "keeper joint"),)))
    shapes += [_bar(run[0] - half, run[-1] + half, y, keeper, is_out) for run in runs]
    return shapes


def _bar(left: float, right: float, y: float, keeper: Keeper, is_out: bool) -> Rect:
    facts = (("kind", "keeper"), ("name", keeper.name), ("is", "out" if is_out else "in"))
    if is_out:
        return Rect(x=left, y=y - 3, width=right - left, height=6, ink=PAPER, stroke=2, dash=_OUT_DASH, facts=facts)
    return Rect(x=left, y=y - 3, width=right - left, height=6, round=3, ink=INK, outline=None, facts=facts)
