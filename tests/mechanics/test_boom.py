"""Where the boom's head stands."""

from __future__ import annotations

from collections.abc import Callable
from math import atan2, hypot, pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import NotReachedError
from becket.mechanics.boom import angle_of_height, angle_of_radius, drum_to_head, head_place, sagged_height

house = settings(derandomize=True, deadline=None, max_examples=150)
lengths = st.floats(6, 70)
feet = st.tuples(st.floats(-4, 2), st.floats(1, 4))
drops = st.floats(0, 1.5)


@house
@given(length=lengths, foot=feet, drop=drops, angle=st.floats(0.26, 1.45))
def test_radius_gives_back_the_angle(length: float, foot: tuple[float, float], drop: float, angle: float) -> None:
    """From 15 to 83 degrees: above the boom's own head drop the larger root is the working angle."""
    radius, _ = head_place(length, angle, foot, drop)
    assert angle_of_radius(radius, length, foot, drop) == pytest.approx(angle, abs=1e-6)


@house
@given(length=lengths, foot=feet, drop=drops, sag=st.floats(0, 0.6), angle=st.floats(-0.1, 1.2))
def test_height_gives_back_the_angle(
    length: float, foot: tuple[float, float], drop: float, sag: float, angle: float
) -> None:
    _, straight = head_place(length, angle, foot, drop)
    height = sagged_height(straight, angle, sag)
    assert angle_of_height(height, length, foot, drop, sag) == pytest.approx(angle, abs=1e-6)


@house
@given(length=lengths, foot=feet, drop=drops, angle=st.floats(-0.2, pi / 2))
def test_the_head_stays_on_its_circle(length: float, foot: tuple[float, float], drop: float, angle: float) -> None:
    x, z = head_place(length, angle, foot, drop)
    assert hypot(x - foot[0], z - foot[1]) == pytest.approx(hypot(length, drop), rel=1e-12)
    assert atan2(z - foot[1], x - foot[0]) == pytest.approx(angle - atan2(drop, length), abs=1e-9)


@house
@given(length=lengths, foot=feet, drop=drops, radius=st.floats(3, 6), more=st.floats(0.01, 1))
def test_the_larger_root_and_a_larger_radius_is_a_lower_boom(
    length: float, foot: tuple[float, float], drop: float, radius: float, more: float
) -> None:
    if radius + more - foot[0] < hypot(length, drop):
        high = angle_of_radius(radius, length, foot, drop)
        assert high >= atan2(drop, length)
        assert angle_of_radius(radius + more, length, foot, drop) < high


def test_rope_from_drum_to_head_is_straight() -> None:
    assert drum_to_head((1.0, 2.0), (4.0, 6.0)) == 5.0


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (
            lambda: angle_of_radius(40.0, 30.0, (-1.0, 3.0), 0.0),
            "radius: 40.00 m; the boom of 30.00 m reaches 29.00 m",
        ),
        (
            lambda: angle_of_radius(-32.0, 30.0, (-1.0, 3.0), 0.0),
            "radius: -32.00 m; the boom of 30.00 m reaches 29.00 m",
        ),
        (
            lambda: angle_of_height(20.0, 10.0, (0.0, 3.5), 0.0, 0.0),
            "height: 20.00 m; the boom of 10.00 m has its head 10.00 m about its foot",
        ),
    ],
)
def test_not_reached_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(NotReachedError) as refused:
        call()
    assert str(refused.value) == text
