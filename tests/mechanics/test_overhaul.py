"""Mass that the empty block must have to come down by itself."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.overhaul import GRAVITY, drum_side_tension, overhaul_factor, overhaul_mass

house = settings(derandomize=True, deadline=None, max_examples=150)
ratios = st.floats(1.0, 1.15)
falls_counts = st.integers(1, 16)


@house
@given(falls=falls_counts, ratio=ratios, tension=st.floats(0.0, 1e4), fall=st.floats(0.0, 5.0))
def test_weightless_falls_are_the_printed_factor(falls: int, ratio: float, tension: float, fall: float) -> None:
    assert overhaul_mass(tension, falls, ratio, 0.0, fall) * GRAVITY == pytest.approx(
        tension * overhaul_factor(falls, ratio), rel=1e-12
    )


@house
@given(falls=falls_counts, ratio=ratios)
def test_more_falls_or_friction_need_more(falls: int, ratio: float) -> None:
    assert overhaul_factor(falls + 1, ratio) > overhaul_factor(falls, ratio) >= falls
    assert overhaul_factor(falls, ratio + 0.01) > overhaul_factor(falls, ratio)
    assert overhaul_factor(falls, 1.0) == falls


@house
@given(falls=falls_counts, ratio=ratios, tension=st.floats(0.0, 5e3), rope=st.floats(0.0, 4.0), fall=st.floats(0, 60))
def test_need_never_falls_below_the_balance_without_the_clamp(
    falls: int, ratio: float, tension: float, rope: float, fall: float
) -> None:
    """A rope cannot push: the clamp may raise the need, never lower it, and the need is never negative."""
    weight, tops, lower = rope * GRAVITY * fall, ratio * tension, 0.0
    for number in range(1, falls + 1):
        if number % 2:
            low = tops - weight
        else:
            low *= ratio
            tops = ratio * (low + weight)
        lower += low
    ours = overhaul_mass(tension, falls, ratio, rope, fall)
    assert ours >= max(0.0, lower / GRAVITY) - 1e-6


def test_a_fall_that_outweighs_its_top_counts_nothing() -> None:
    """One fall of 20 kg of rope against 10 kg at its top: without the clamp -10 kg. Two falls: 0 and 0."""
    assert overhaul_mass(10 * GRAVITY, 1, 1.0, 1.0, 20.0) == 0.0
    assert overhaul_mass(10 * GRAVITY, 2, 1.0, 1.0, 20.0) == 0.0
    assert overhaul_mass(10 * GRAVITY, 3, 1.0, 1.0, 20.0) == 0.0  # fall 2 gives back what fall 3 loses
    assert overhaul_mass(10 * GRAVITY, 3, 1.1, 1.0, 20.0) == pytest.approx(0.1 * 20.0)  # K keeps a tenth of it


@house
@given(drag=st.floats(0, 1e3), ratio=ratios, guides=st.integers(0, 3), rope=st.floats(0, 4), height=st.floats(-5, 80))
def test_lead_line_gains_by_guides_and_by_height(
    drag: float, ratio: float, guides: int, rope: float, height: float
) -> None:
    tension = drum_side_tension(drag, ratio, guides, rope, height)
    assert tension - drum_side_tension(drag, ratio, guides, rope, 0.0) == pytest.approx(
        rope * GRAVITY * height, abs=1e-6
    )
    assert drum_side_tension(drag, ratio, guides + 1, rope, height) >= tension - 1e-9


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: overhaul_factor(0, 1.025), "falls: 0; 1 or more is wanted"),
        (lambda: overhaul_factor(4, 0.98), "sheave_ratio: 0.98; 1 or more is wanted"),
        (lambda: overhaul_mass(1.0, 0, 1.025, 1.0, 1.0), "falls: 0; 1 or more is wanted"),
        (lambda: overhaul_mass(1.0, 4, float("nan"), 1.0, 1.0), "sheave_ratio: nan; 1 or more is wanted"),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
