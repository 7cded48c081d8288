"""Fleet angle: rope that reaches a sheave or the drum askew."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.fleet import closest_distance, fall_offsets, fleet_angle

house = settings(derandomize=True, deadline=None, max_examples=150)
sideways = st.lists(st.tuples(st.floats(-1, 1), st.floats(-1, 1)), min_size=1, max_size=12)


@house
@given(offset=st.floats(1e-3, 2), limit=st.floats(0.001, 1.2))
def test_angle_and_distance_undo_each_other(offset: float, limit: float) -> None:
    assert fleet_angle(offset, closest_distance(offset, limit)) == pytest.approx(limit, rel=1e-9)
    assert fleet_angle(-offset, 1.0) == fleet_angle(offset, 1.0)
    assert closest_distance(-offset, limit) == closest_distance(offset, limit)


@house
@given(offset=st.floats(1e-3, 2), distance=st.floats(0.1, 50), more=st.floats(0.01, 10))
def test_further_away_is_straighter(offset: float, distance: float, more: float) -> None:
    assert 0 < fleet_angle(offset, distance + more) < fleet_angle(offset, distance) < pi / 2


@house
@given(falls=sideways, shift=st.floats(-1, 1))
def test_a_free_block_finds_its_middle(falls: list[tuple[float, float]], shift: float) -> None:
    tops, lows = [t for t, _ in falls], [b for _, b in falls]
    free = fall_offsets(tops, lows, held=False)
    assert sum(free) == pytest.approx(0.0, abs=1e-12)
    assert fall_offsets(tops, [b + shift for b in lows], held=False) == pytest.approx(free, abs=1e-12)
    held = fall_offsets(tops, lows, held=True)
    assert held == pytest.approx([t - b for t, b in falls])
    assert max(free) - min(free) == pytest.approx(max(held) - min(held), abs=1e-12)


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: fleet_angle(1.0, 0.0), "distance: 0.0; more than 0 is wanted"),
        (lambda: fleet_angle(1.0, float("nan")), "distance: nan; more than 0 is wanted"),
        (lambda: closest_distance(1.0, 0.0), "fleet limit: 0.0; more than 0 is wanted"),
        (
            lambda: fall_offsets([], [], held=True),
            "falls: 0 tops, 0 lower ends; one of each for every fall is wanted",
        ),
        (
            lambda: fall_offsets([0.0], [0.0, 1.0], held=False),
            "falls: 1 tops, 2 lower ends; one of each for every fall is wanted",
        ),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
