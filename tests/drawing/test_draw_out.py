"""A step of drawing out: this pass heavy with arrows back to the drum, what is out absent, every sheave there."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from becket.book.tackle import State
from becket.drawing.draw_out import draw_drawing_out, draw_out_count
from becket.drawing.picture import MARK, Picture, Polygon, Polyline, Rect
from becket.errors import OutOfRangeError
from becket.reeving.change import PathChange, path_change
from becket.reeving.pattern import find_pattern
from tests.crane import invented_book
from tests.drawing.tackles import Tackle, faults, tackles

BOOK = invented_book()


def change(before: State, after: State) -> PathChange:
    patterns = find_pattern(BOOK, before), find_pattern(BOOK, after)
    assert patterns[0] is not None
    assert patterns[1] is not None
    return path_change(BOOK, patterns[0], patterns[1])


FOUR_TO_TWO = change(State(block="main", falls=4), State(block="main", falls=2))


def falls_on(picture: Picture) -> dict[int, Polyline]:
    return {
        int(dict(s.facts)["number"]): s
        for s in picture.shapes
        if isinstance(s, Polyline) and dict(s.facts).get("kind") == "fall"
    }


def test_the_rope_comes_out_from_its_end() -> None:
    """The end is free: fall 4 is gone at once; each step takes the last fall that is on."""
    assert draw_out_count(FOUR_TO_TWO) == 4
    for step in range(1, 5):
        drawn = falls_on(draw_drawing_out(BOOK, FOUR_TO_TWO, step))
        assert sorted(drawn) == list(range(1, 5 - step))
        for fall, rope in drawn.items():
            wanted = (MARK, 11.0) if fall == 4 - step else ("ink", 8.0)
            assert (rope.ink, rope.width) == wanted


def test_arrows_point_back_to_the_drum() -> None:
    """Fall 3 was threaded downward, so it comes out upward; fall 2 the other way."""
    for step, sign in ((1, -1), (2, 1)):
        picture = draw_drawing_out(BOOK, FOUR_TO_TWO, step)
        arrows = [s for s in picture.shapes if isinstance(s, Polygon) and dict(s.facts).get("kind") == "arrow"]
        assert arrows
        assert all(sign * (a.points[0][1] - a.points[1][1]) > 0 for a in arrows)


def test_the_sheave_has_a_ring_the_dead_end_is_open_and_what_is_out_is_dashed() -> None:
    picture = draw_drawing_out(BOOK, FOUR_TO_TWO, 1)
    boxes = {
        dict(s.facts)["sheave"]: s
        for s in picture.shapes
        if isinstance(s, Rect) and dict(s.facts).get("kind") == "sheave"
    }
    assert len(boxes) == len(BOOK.head.sheaves) + len(BOOK.blocks["main"].sheaves)
    assert [name for name, box in boxes.items() if box.outline == MARK] == [str(FOUR_TO_TWO.draw_out[0])]
    wedge = next(s for s in picture.shapes if isinstance(s, Polygon) and dict(s.facts).get("kind") == "dead end")
    assert wedge.dash
    bars = [s for s in picture.shapes if isinstance(s, Rect) and dict(s.facts).get("kind") == "keeper"]
    assert {dict(s.facts)["name"] for s in bars if s.dash} == {k.name for k in FOUR_TO_TWO.keepers}


def test_what_stays_rigged_is_never_the_pass_that_comes_out() -> None:
    """Three to two falls keep head 3 and block 3: only head 4 comes out."""
    kept = change(State(block="main", falls=3), State(block="main", falls=2))
    assert draw_out_count(kept) == 1
    picture = draw_drawing_out(BOOK, kept, 1)
    assert picture.description.replace("\u00a0", " ").startswith("Comes out now: head 4. Still on: head 3, block 3.")
    assert picture.title == "main: draw out of head\u00a04. You face the cab"


def test_a_pattern_that_is_not_confirmed_has_its_bands() -> None:
    five = change(State(block="main", falls=5), State(block="main", falls=2))
    picture = draw_drawing_out(BOOK, five, 1)
    assert sum(isinstance(s, Rect) and dict(s.facts).get("kind") == "band" for s in picture.shapes) == 2


@pytest.mark.parametrize("step", [0, 5])
def test_a_step_that_is_none_is_refused(step: int) -> None:
    with pytest.raises(OutOfRangeError, match=f"step: {step}; 1 to 4 is wanted"):
        draw_drawing_out(BOOK, FOUR_TO_TWO, step)


@given(one=tackles(12), share=st.floats(0, 1))
@settings(derandomize=True, deadline=None, max_examples=25)
def test_nothing_covers_anything(one: Tackle, share: float) -> None:
    """Words and numbers stay off the rope at every step, heavy rope and arrows counted."""
    short = path_change(one.book, one.pattern, find_pattern(BOOK, State(block="main", falls=2)) or one.pattern)
    assume(short.draw_out)
    step = 1 + round(share * (draw_out_count(short) - 1))
    assert faults(draw_drawing_out(one.book, short, step, view="rigger")) == []
