"""Sheaves, keepers, hook: every one of the book, none that is not."""

from __future__ import annotations

from dataclasses import replace

from becket.book.tackle import Keeper
from becket.drawing.fittings import (
    dead_end,
    hook,
    keeper_bars,
    keeper_rows,
    left_and_right,
    sheave_boxes,
    sheave_numbers,
)
from becket.drawing.layout import Layout, lay_out
from becket.drawing.picture import PAPER, Polygon, Rect, Text
from tests.drawing.tackles import tackle


def layout(falls: int = 6, view: str = "cab", **changes: object) -> Layout:
    one = tackle(falls, **changes)  # type: ignore[arg-type]
    return lay_out(one.book, one.pattern, view)


def keeper(name: str, *holds: int, at: str = "head") -> Keeper:
    return Keeper(name=name, at=at, block="main" if at == "block" else None, holds=holds, draw="slack", lock=None)


def with_keepers(*keepers: Keeper) -> Layout:
    plain = layout(10)
    return replace(plain, book=replace(plain.book, keepers=keepers))


def bars(places: Layout, out: tuple[str, ...] = ()) -> list[Rect]:
    return [s for s in keeper_bars(places, out) if isinstance(s, Rect)]


def test_every_sheave_used_or_not() -> None:
    places = layout(2, spare=3)
    boxes = [s for s in sheave_boxes(places, {("head", 1): "used"}) if dict(s.facts)["kind"] == "sheave"]
    assert len(boxes) == 8
    heavy = [dict(s.facts)["sheave"] for s in boxes if isinstance(s, Rect) and s.stroke == 4]
    numbers = sheave_numbers(places, {("head", 1): "used"})
    assert (heavy, [t.text for t in numbers if t.is_bold], len(numbers)) == (["head 1"], ["1"], 8)


def test_a_ball_is_a_body_without_sheaves() -> None:
    shapes = sheave_boxes(layout(1), {})
    body = next(s for s in shapes if dict(s.facts).get("of") == "block")
    assert isinstance(body, Rect)
    assert body.height == 56


def test_a_keeper_covers_the_grooves_that_it_holds_and_no_other() -> None:
    places = with_keepers(keeper("bar", 1, 2, 4))
    spans = [(bar.x, bar.x + bar.width) for bar in bars(places)]
    covered = {n for n, x in places.head_at.items() if any(left < x < right for left, right in spans)}
    assert (len(spans), covered) == (2, {1, 2, 4})


def test_keepers_over_the_same_groove_lie_in_two_rows() -> None:
    places = with_keepers(keeper("a", 1, 2), keeper("b", 2, 3), keeper("c", 4, 5), keeper("of no sheave here", 9))
    head_rows, block_rows = keeper_rows(places)
    assert [[k.name for k in row] for row in head_rows] == [["a", "c"], ["b"]]
    assert block_rows == ()
    assert len({bar.y for bar in bars(places)}) == 2


def test_a_keeper_of_another_block_is_not_drawn() -> None:
    other = replace(keeper("x", 1, at="block"), block="another")
    assert bars(with_keepers(other)) == []


def test_drawn_out_is_a_dashed_outline_at_the_same_place() -> None:
    places = layout()
    inside, out = bars(places), bars(places, ("head bar", "dead-end pin"))
    assert [(b.x, b.y) for b in inside] == [(b.x, b.y) for b in out]
    assert {dict(b.facts)["name"] for b in out if b.dash} == {"head bar", "dead-end pin"}
    assert all(b.ink == PAPER for b in out if b.dash)
    assert not any(b.dash for b in inside)


def test_a_waiting_dead_end_is_an_outline() -> None:
    waiting = next(s for s in dead_end(layout(), None) if isinstance(s, Polygon))
    assert (waiting.ink, bool(waiting.dash)) == (PAPER, True)


def test_left_and_right_are_turned_and_not_mirrored() -> None:
    for view, first in (("cab", "cab\u2019s left"), ("rigger", "cab\u2019s right")):
        texts = [s for s in left_and_right(360, 20, 100, view) if isinstance(s, Text)]
        assert texts[0].text == first
        assert texts[0].box[2] < texts[1].box[0]


def test_the_hook_hangs_from_its_shank() -> None:
    (drawn,) = hook(100, 20)
    assert drawn.box[1] <= 20
    assert drawn.box[3] <= 20 + 44
