"""Turning of the block about the upright axis."""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, cos, degrees, hypot, inf, pi, sin

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.twist import (
    Place,
    effective_spacing,
    hangs_turned,
    restoring,
    twist_angle,
    twist_length,
)

house = settings(derandomize=True, deadline=None, max_examples=150)
coordinates = st.floats(-0.5, 0.5)
falls = st.lists(
    st.tuples(st.tuples(coordinates, coordinates), st.tuples(coordinates, coordinates)), min_size=1, max_size=12
)
Falls = list[tuple[Place, Place]]
TWO: list[Place] = [(-0.25, 0.0), (0.25, 0.0)]


def _turned(places: list[Place], angle: float) -> list[Place]:
    return [(x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)) for x, y in places]


def _moved(places: list[Place], x: float, y: float) -> list[Place]:
    return [(px + x, py + y) for px, py in places]


@house
@given(falls=falls, x=coordinates, y=coordinates)
def test_only_places_about_the_centroid_count(falls: Falls, x: float, y: float) -> None:
    tops, lows = [t for t, _ in falls], [b for _, b in falls]
    assert restoring(_moved(tops, x, y), _moved(lows, -y, x)) == pytest.approx(restoring(tops, lows), abs=1e-12)


@house
@given(falls=falls, angle=st.floats(-pi, pi))
def test_turning_the_head_turns_the_block(falls: Falls, angle: float) -> None:
    tops, lows = [t for t, _ in falls], [b for _, b in falls]
    assume(hypot(*restoring(tops, lows)) > 1e-6)
    turned = _turned(tops, angle)
    assert effective_spacing(turned, lows) == pytest.approx(effective_spacing(tops, lows), rel=1e-6)
    change = hangs_turned(turned, lows) - hangs_turned(tops, lows) - angle
    assert abs(atan2(sin(change), cos(change))) < 1e-6


@house
@given(falls=falls)
def test_head_and_block_changing_places_turns_the_other_way(falls: Falls) -> None:
    tops, lows = [t for t, _ in falls], [b for _, b in falls]
    along, across = restoring(tops, lows)
    assert restoring(lows, tops) == pytest.approx((along, -across), abs=1e-12)
    mirrored = [(-x, y) for x, y in tops], [(-x, y) for x, y in lows]
    assert restoring(*mirrored) == pytest.approx((along, -across), abs=1e-12)


@house
@given(spacing=st.floats(0.1, 2), factor=st.floats(0.001, 0.2), rope=st.floats(0.006, 0.04))
def test_two_falls(spacing: float, factor: float, rope: float) -> None:
    places = [(0.0, -spacing / 2), (0.0, spacing / 2)]
    assert effective_spacing(places, places) == pytest.approx(spacing, rel=1e-12)
    longest = twist_length(places, places, factor, rope)
    assert longest == pytest.approx(spacing**2 / (4 * factor * rope), rel=1e-12)
    assert twist_angle(longest, longest) == pytest.approx(pi / 2)


@house
@given(longest=st.floats(1, 100), share=st.floats(0, 1))
def test_angle_grows_to_a_quarter_turn(longest: float, share: float) -> None:
    angle = twist_angle(share * longest, longest)
    assert angle is not None
    assert sin(angle) == pytest.approx(share, abs=1e-9)
    assert 0 <= angle <= pi / 2
    assert twist_angle(longest * 1.0001, longest) is None


def test_falls_wired_the_wrong_way_round_hang_half_a_turn_away() -> None:
    assert abs(degrees(hangs_turned(TWO, list(reversed(TWO))))) == pytest.approx(180.0)


def test_one_fall_holds_nothing() -> None:
    assert effective_spacing([(0.1, 0.2)], [(0.0, 0.0)]) == 0.0
    assert twist_length([(0.1, 0.2)], [(0.0, 0.0)], 0.05, 0.02) == 0.0
    assert twist_length([(0.1, 0.2)], [(0.0, 0.0)], 0.0, 0.02) == 0.0
    assert twist_angle(1.0, 0.0) is None
    assert twist_angle(0.0, 0.0) == 0.0


def test_a_rope_without_torque_never_turns_the_block() -> None:
    assert twist_length(TWO, TWO, 0.0, 0.02) == inf
    assert twist_angle(100.0, inf) == 0.0


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: restoring([], []), "falls: 0 tops, 0 lower ends; one of each for every fall is wanted"),
        (lambda: hangs_turned(TWO, TWO[:1]), "falls: 2 tops, 1 lower ends; one of each for every fall is wanted"),
        (lambda: effective_spacing(TWO[:1], TWO), "falls: 1 tops, 2 lower ends; one of each for every fall is wanted"),
        (
            lambda: twist_length(TWO, TWO, -0.1, 0.02),
            "torque_factor: -0.1; 0 or more, with a rope diameter over 0, is wanted",
        ),
        (
            lambda: twist_length(TWO, TWO, 0.1, 0.0),
            "torque_factor: 0.1; 0 or more, with a rope diameter over 0, is wanted",
        ),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
