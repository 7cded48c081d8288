"""Rope on the drum: turns, layers, pull and speed by layer."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.drum import (
    layer_of,
    layer_radius,
    layers_under_flange,
    nested_rise,
    pull_at_layer,
    rope_in_layers,
    speed_at_layer,
    square_rise,
    turns_on_drum,
    turns_per_layer,
)

house = settings(derandomize=True, deadline=None, max_examples=150)
drums = st.floats(0.15, 1.2)
ropes = st.floats(0.006, 0.04)
turn_counts = st.integers(3, 60)
rises = st.sampled_from([square_rise, nested_rise])
Rise = Callable[[float], float]


@house
@given(drum=drums, rope=ropes, turns=turn_counts, layers=st.integers(1, 12), rise=rises)
def test_full_layers_are_the_sum_of_their_turns(drum: float, rope: float, turns: int, layers: int, rise: Rise) -> None:
    one_by_one = sum(
        2 * pi * layer_radius(layer, drum, rope, rise(rope)) for layer in range(1, layers + 1) for _ in range(turns)
    )
    assert rope_in_layers(layers, turns, drum, rope, rise(rope)) == pytest.approx(one_by_one, rel=1e-12)


@house
@given(drum=drums, rope=ropes, turns=turn_counts, share=st.floats(0.0, 1.0), rise=rises)
def test_layer_counted_one_by_one(drum: float, rope: float, turns: int, share: float, rise: Rise) -> None:
    length = share * rope_in_layers(10, turns, drum, rope, rise(rope))
    expected = 1
    while rope_in_layers(expected, turns, drum, rope, rise(rope)) < length * (1 - 1e-9):
        expected += 1
    assert layer_of(length, turns, drum, rope, rise(rope)) == expected


@house
@given(drum=drums, rope=ropes, turns=turn_counts, share=st.floats(0.0, 1.0))
def test_nested_layers_are_never_fewer_and_never_larger(drum: float, rope: float, turns: int, share: float) -> None:
    length = share * rope_in_layers(8, turns, drum, rope, square_rise(rope))
    nested = layer_of(length, turns, drum, rope, nested_rise(rope))
    square = layer_of(length, turns, drum, rope, square_rise(rope))
    assert nested >= square
    assert layer_radius(square, drum, rope, nested_rise(rope)) <= layer_radius(square, drum, rope, square_rise(rope))
    assert layers_under_flange(drum + 0.3, drum, rope, nested_rise(rope), 0.013) >= layers_under_flange(
        drum + 0.3, drum, rope, square_rise(rope), 0.013
    )


@house
@given(drum=drums, rope=ropes, turns=turn_counts, wound=st.floats(0.0, 8.0), rise=rises)
def test_turns_and_rope_undo_each_other(drum: float, rope: float, turns: int, wound: float, rise: Rise) -> None:
    """Rope of a number of turns laid turn by turn, and the turns counted back from it."""
    full, rest = divmod(wound * turns, turns)
    radius = layer_radius(int(full) + 1, drum, rope, rise(rope))
    length = rope_in_layers(int(full), turns, drum, rope, rise(rope)) + rest * 2 * pi * radius
    assert turns_on_drum(length, turns, drum, rope, rise(rope)) == pytest.approx(wound * turns, rel=1e-9, abs=1e-6)


@house
@given(drum=drums, rope=ropes, turns=turn_counts, length=st.floats(0.0, 300.0), more=st.floats(0.001, 50.0))
def test_more_rope_is_more_turns_and_no_lower_layer(
    drum: float, rope: float, turns: int, length: float, more: float
) -> None:
    rise = square_rise(rope)
    assert turns_on_drum(length + more, turns, drum, rope, rise) > turns_on_drum(length, turns, drum, rope, rise)
    assert layer_of(length + more, turns, drum, rope, rise) >= layer_of(length, turns, drum, rope, rise)


@house
@given(rope=ropes)
def test_a_nested_turn_touches_the_two_below_it(rope: float) -> None:
    """Its centre lies over the gap of two turns side by side, one diameter from each; a square one right above one."""
    assert hypot(rope / 2, nested_rise(rope)) == pytest.approx(rope, rel=1e-12)
    assert square_rise(rope) == rope


def test_missing_rope_is_missing_turns() -> None:
    one = 2 * pi * layer_radius(1, 0.36, 0.017, 0.017)
    assert turns_on_drum(-one, 29, 0.36, 0.017, 0.017) == pytest.approx(-1.0)
    assert layer_of(-5.0, 29, 0.36, 0.017, 0.017) == 1


def test_layers_of_a_drum_that_does_not_rise() -> None:
    """A rise of nothing is a drum of one radius: the closed form has its own branch."""
    one = rope_in_layers(1, 10, 0.3, 0.02, 0.0)
    assert [layer_of(share * one, 10, 0.3, 0.02, 0.0) for share in (0.5, 1.0, 1.5, 3.0)] == [1, 1, 2, 3]


@house
@given(drum=drums, rope=ropes, room=st.floats(0.0, 0.5), freeboard=st.floats(0.0, 0.05), rise=rises)
def test_the_outer_layer_keeps_the_freeboard_and_the_next_would_not(
    drum: float, rope: float, room: float, freeboard: float, rise: Rise
) -> None:
    flange = drum + 2 * room
    layers = layers_under_flange(flange, drum, rope, rise(rope), freeboard)
    if layers > 0:
        top = layer_radius(layers, drum, rope, rise(rope)) + rope / 2
        assert top + freeboard <= flange / 2 + 1e-6
    assert layer_radius(layers + 1, drum, rope, rise(rope)) + rope / 2 + freeboard > flange / 2 - 1e-6


@house
@given(drum=drums, rope=ropes, layer=st.integers(1, 12), rise=rises)
def test_torque_and_turns_of_the_drum_stay(drum: float, rope: float, layer: int, rise: Rise) -> None:
    radius, first = layer_radius(layer, drum, rope, rise(rope)), layer_radius(1, drum, rope, rise(rope))
    assert pull_at_layer(1e4, layer, drum, rope, rise(rope)) * radius == pytest.approx(1e4 * first, rel=1e-12)
    assert speed_at_layer(2.0, layer, drum, rope, rise(rope)) / radius == pytest.approx(2.0 / first, rel=1e-12)


@house
@given(turns=st.integers(1, 100), pitch=st.floats(0.005, 0.05))
def test_whole_turns_of_a_width_are_not_lost_to_rounding(turns: int, pitch: float) -> None:
    assert turns_per_layer(turns * pitch, pitch) == turns
    assert turns_per_layer((turns + 0.999) * pitch, pitch) == turns


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: turns_per_layer(0.01, 0.02), "drum.width: 0.01; at least one pitch is wanted"),
        (lambda: turns_per_layer(0.01, 0.0), "drum.width: 0.01; at least one pitch is wanted"),
        (lambda: layer_radius(0, 0.36, 0.017, 0.017), "layer: 0; 1 or more is wanted"),
        (lambda: pull_at_layer(1.0, 0, 0.36, 0.017, 0.017), "layer: 0; 1 or more is wanted"),
        (lambda: speed_at_layer(1.0, -1, 0.36, 0.017, 0.017), "layer: -1; 1 or more is wanted"),
        (lambda: layers_under_flange(0.6, 0.36, 0.017, 0.0, 0.013), "rise: 0.0; more than 0 is wanted"),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
