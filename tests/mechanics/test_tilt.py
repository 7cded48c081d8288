"""Sideways tilt of the block."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.tackle import lowering_tensions, raising_tensions
from becket.mechanics.tilt import pull_offset, tilt_angle

house = settings(derandomize=True, deadline=None, max_examples=150)
masses = st.floats(1.0, 1e5)
depths = st.floats(0.1, 2.0)


@house
@given(offset=st.floats(-0.3, 0.3), load=masses, hook=depths, block=masses, centre=depths)
def test_moments_balance_in_the_tilted_position(
    offset: float, load: float, hook: float, block: float, centre: float
) -> None:
    angle = tilt_angle(offset, load, hook, block, centre)
    turning = (load + block) * abs(offset) * cos(angle)
    righting = (load * hook + block * centre) * sin(angle)
    assert turning == pytest.approx(righting, rel=1e-9, abs=1e-9)


@house
@given(places=st.lists(st.floats(-0.5, 0.5), min_size=1, max_size=12), eta=st.floats(0.8, 1.0))
def test_pull_lies_within_the_falls_and_mirrors(places: list[float], eta: float) -> None:
    tensions = raising_tensions(1000.0, len(places), eta)
    offset = pull_offset(tensions, places)
    assert min(places) - 1e-9 <= offset <= max(places) + 1e-9
    assert pull_offset(tensions, [-x for x in places]) == pytest.approx(-offset, abs=1e-12)
    assert pull_offset(lowering_tensions(1000.0, len(places), eta), list(reversed(places))) == pytest.approx(
        offset, abs=1e-12
    )


def test_falls_in_pairs_without_friction_pull_in_the_middle() -> None:
    assert pull_offset(raising_tensions(1.0, 4, 1.0), [-0.1, -0.1, 0.1, 0.1]) == pytest.approx(0.0)
    assert tilt_angle(0.0, 1000.0, 1.0, 500.0, 0.4) == 0.0


def test_empty_block_hangs_under_the_pull() -> None:
    assert tilt_angle(0.02, 0.0, 1.0, 500.0, 0.4) == pytest.approx(0.05, rel=1e-3)


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: pull_offset([], []), "tensions: (); one for every fall, more than 0 together, is wanted"),
        (
            lambda: pull_offset([1.0, 2.0], [0.1]),
            "tensions: (1.0, 2.0); one for every fall, more than 0 together, is wanted",
        ),
        (lambda: pull_offset([0.0], [0.1]), "tensions: (0.0,); one for every fall, more than 0 together, is wanted"),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
