"""Metres of rope from the drum to the dead end, and how deep the hook goes."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.drum import layer_radius
from becket.mechanics.reach import deepest_fall, first_arc, rope_out, sheave_arcs, wraps_length

house = settings(derandomize=True, deadline=None, max_examples=150)
lengths = st.floats(0.0, 100.0)


@house
@given(falls=st.integers(1, 20), lead=lengths, first=st.floats(0, 1), fall=lengths, tail=st.floats(-1, 2))
def test_rope_and_depth_undo_each_other(falls: int, lead: float, first: float, fall: float, tail: float) -> None:
    arcs = sheave_arcs(falls, 0.38, 0.42)
    rope = rope_out(lead, first, falls, fall, arcs, tail)
    assert deepest_fall(rope, lead, first, falls, arcs, tail) == pytest.approx(fall, abs=1e-9)


@house
@given(falls=st.integers(1, 20), block=st.floats(0.1, 1.0), head=st.floats(0.1, 1.0))
def test_half_a_turn_for_every_sheave_after_the_first(falls: int, block: float, head: float) -> None:
    """Walked by hand along the rope: after fall 1 a block sheave, after fall 2 a head sheave, and so on."""
    walked = sum(pi * (block if fall % 2 else head) / 2 for fall in range(1, falls))
    assert sheave_arcs(falls, block, head) == pytest.approx(walked, rel=1e-12)


@house
@given(falls=st.integers(1, 19), rope=st.floats(50, 300))
def test_more_falls_never_reach_deeper(falls: int, rope: float) -> None:
    def depth(count: int) -> float:
        return deepest_fall(rope, 30.0, 0.4, count, sheave_arcs(count, 0.4, 0.4), 0.3)

    if depth(falls) > 0:
        assert depth(falls + 1) < depth(falls)


def test_first_arc_is_a_quarter_turn_level_and_half_a_turn_upright() -> None:
    assert first_arc(0.0, 0.4) == pytest.approx(pi * 0.4 / 4)
    assert first_arc(pi / 2, 0.4) == pytest.approx(pi * 0.4 / 2)


@house
@given(wraps=st.floats(0, 10), drum=st.floats(0.1, 1), rope=st.floats(0.005, 0.04))
def test_wraps_lie_on_the_first_layer(wraps: float, drum: float, rope: float) -> None:
    assert wraps_length(wraps, drum, rope) == pytest.approx(wraps * 2 * pi * layer_radius(1, drum, rope, rope))


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: sheave_arcs(0, 0.4, 0.4), "falls: 0; 1 or more is wanted"),
        (lambda: deepest_fall(10.0, 1.0, 1.0, 0, 1.0, 1.0), "falls: 0; 1 or more is wanted"),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
