"""The rope as shapes: dashes whole at both ends, casing under what is over, arrows off the numbers."""

from __future__ import annotations

from math import hypot

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.drawing.front import lay_out_front
from becket.drawing.layout import CASING, ROPE
from becket.drawing.picture import INK, MARK, ON_MARK, PAPER, Circle, Polyline, Text
from becket.drawing.ropes import DONE, NEXT, arrow_heads, circle_shapes, dashes, rope_shapes
from tests.drawing.tackles import tackle

FRONT = lay_out_front(tackle(4).book, tackle(4).pattern, "cab")


@given(st.floats(15, 900))
@settings(derandomize=True, deadline=None, max_examples=100)
def test_a_line_begins_and_ends_with_a_whole_dash(length: float) -> None:
    on, off = dashes(((0, 0), (0, length)))
    times = (length - on) / (on + off)
    assert times == pytest.approx(round(times), abs=1e-6)
    assert on / off == pytest.approx(12 / 7)


def test_each_rope_has_paper_beside_it() -> None:
    shapes = rope_shapes(FRONT.legs, lambda _: DONE)
    casings = [s for s in shapes if isinstance(s, Polyline) and s.ink == PAPER]
    assert len(casings) * 2 == len(shapes)
    assert {s.width for s in casings} == {ROPE + 2 * CASING}


def test_what_is_not_looked_at_is_not_drawn_and_the_next_has_no_casing() -> None:
    assert rope_shapes(FRONT.legs, lambda _: None) == ()
    dotted = rope_shapes(FRONT.legs, lambda _: NEXT)
    assert all(isinstance(s, Polyline) and s.dash and s.ink != PAPER for s in dotted)


def test_numbers_of_this_pass_are_filled() -> None:
    shapes = circle_shapes(FRONT.circles, lambda fall: MARK if fall == 2 else INK)
    circles = [s for s in shapes if isinstance(s, Circle)]
    texts = [s for s in shapes if isinstance(s, Text)]
    assert [c.ink for c in circles] == [PAPER, MARK, PAPER, PAPER]
    assert [(t.text, t.ink) for t in texts] == [("1", INK), ("2", ON_MARK), ("3", INK), ("4", INK)]


def test_arrows_stay_off_the_number() -> None:
    for leg in FRONT.legs:
        if leg.kind == "fall":
            x, y = FRONT.circles[leg.number]
            heads = arrow_heads(leg, (x, y))
            assert heads
            assert all(hypot(px - x, py - y) > 17 for head in heads for px, py in head.points)
