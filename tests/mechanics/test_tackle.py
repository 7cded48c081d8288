"""Tension in the falls of a tackle."""

from __future__ import annotations

from collections.abc import Callable
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.tackle import (
    dead_end_pull,
    efficiency_of_ratio,
    head_load,
    lead_line_pull,
    lowering_pull,
    lowering_tensions,
    parts_ratio,
    raising_tensions,
    static_tensions,
)

loads = st.floats(1.0, 1e7)
falls_counts = st.integers(1, 24)
efficiencies = st.floats(0.5, 1.0)
guide_counts = st.integers(0, 4)
house = settings(derandomize=True, deadline=None, max_examples=150)


@house
@given(load=loads, falls=falls_counts, eta=efficiencies)
def test_falls_carry_the_load(load: float, falls: int, eta: float) -> None:
    for tensions in (
        static_tensions(load, falls),
        raising_tensions(load, falls, eta),
        lowering_tensions(load, falls, eta),
    ):
        assert len(tensions) == falls
        assert sum(tensions) == pytest.approx(load, rel=1e-12)


@house
@given(load=loads, falls=falls_counts, eta=efficiencies)
def test_each_sheave_passes_its_share(load: float, falls: int, eta: float) -> None:
    up, down = raising_tensions(load, falls, eta), lowering_tensions(load, falls, eta)
    for i in range(falls - 1):
        assert up[i + 1] / up[i] == pytest.approx(eta, rel=1e-12)
        assert down[i] / down[i + 1] == pytest.approx(eta, rel=1e-12)


@house
@given(load=loads, falls=falls_counts, eta=efficiencies, guides=guide_counts)
def test_lowering_is_raising_read_from_the_other_end(load: float, falls: int, eta: float, guides: int) -> None:
    assert lowering_tensions(load, falls, eta) == tuple(reversed(raising_tensions(load, falls, eta)))
    assert dead_end_pull(load, falls, eta) == raising_tensions(load, falls, eta)[0]
    assert (
        lowering_pull(load, falls, eta, guides)
        <= load / falls * (1 + 1e-12)
        <= lead_line_pull(load, falls, eta, guides) * (1 + 2e-12)
    )


@house
@given(load=loads, falls=falls_counts, guides=guide_counts)
def test_no_friction_is_equal_shares_everywhere(load: float, falls: int, guides: int) -> None:
    share = pytest.approx(load / falls, rel=1e-12)
    assert lead_line_pull(load, falls, 1.0, guides) == share
    assert lowering_pull(load, falls, 1.0, guides) == share
    assert dead_end_pull(load, falls, 1.0) == share
    assert parts_ratio(falls, 1.0, guides) == pytest.approx(falls, rel=1e-12)


@house
@given(load=loads, falls=falls_counts, guides=guide_counts)
def test_more_falls_never_pull_more_without_friction(load: float, falls: int, guides: int) -> None:
    assert lead_line_pull(load, falls + 1, 1.0, guides) < lead_line_pull(load, falls, 1.0, guides)


@house
@given(falls=falls_counts, eta=efficiencies, guides=guide_counts)
def test_friction_guides_and_falls_move_the_pull_one_way(falls: int, eta: float, guides: int) -> None:
    pull = lead_line_pull(1.0, falls, eta, guides)
    assert lead_line_pull(1.0, falls, min(1.0, eta + 0.01), guides) <= pull * (1 + 1e-12)
    assert lead_line_pull(1.0, falls, eta, guides + 1) >= pull * (1 - 1e-12)
    assert lead_line_pull(1.0, falls + 1, eta, guides) < pull
    assert parts_ratio(falls, eta, guides) == pytest.approx(1 / pull, rel=1e-12)


@house
@given(load=loads, falls=falls_counts, eta=efficiencies, factor=st.floats(0.1, 10))
def test_pull_goes_with_the_load(load: float, falls: int, eta: float, factor: float) -> None:
    assert lead_line_pull(load * factor, falls, eta, 1) == pytest.approx(
        factor * lead_line_pull(load, falls, eta, 1), rel=1e-12
    )


def test_sheaves_counted_from_the_drum_to_the_dead_end() -> None:
    """Walked by hand: 3 falls, 1 guide, eta = 0.9: a tenth is lost at the guide and at the head."""
    pull = lead_line_pull(1000.0, 3, 0.9, 1)
    first = pull * 0.9 * 0.9
    assert first + first * 0.9 + first * 0.81 == pytest.approx(1000.0, rel=1e-12)
    held = lowering_pull(1000.0, 3, 0.9, 1)
    first = held / 0.9 / 0.9
    assert first + first / 0.9 + first / 0.81 == pytest.approx(1000.0, rel=1e-12)


@house
@given(ratio=st.floats(1.0, 2.0))
def test_efficiency_is_the_inverse_of_the_ratio(ratio: float) -> None:
    assert efficiency_of_ratio(ratio) * ratio == pytest.approx(1.0, rel=1e-12)


def test_head_load_turns_with_the_lead_line() -> None:
    assert head_load(1000.0, 500.0, pi / 2) == pytest.approx((0.0, 1500.0), abs=1e-9)
    assert head_load(1000.0, 500.0, -pi / 2) == pytest.approx((0.0, 500.0), abs=1e-9)


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: static_tensions(1.0, 0), "falls: 0; 1 or more is wanted"),
        (lambda: raising_tensions(1.0, -2, 0.9), "falls: -2; 1 or more is wanted"),
        (lambda: raising_tensions(1.0, 2, 0.0), "sheave_efficiency: 0.0; over 0 up to 1 is wanted"),
        (lambda: lowering_tensions(1.0, 2, 1.04), "sheave_efficiency: 1.04; over 0 up to 1 is wanted"),
        (lambda: dead_end_pull(1.0, 2, float("nan")), "sheave_efficiency: nan; over 0 up to 1 is wanted"),
        (lambda: lead_line_pull(1.0, 2, 0.9, -1), "guide_sheaves: -1; 0 or more is wanted"),
        (lambda: lowering_pull(1.0, 2, 0.9, -1), "guide_sheaves: -1; 0 or more is wanted"),
        (lambda: parts_ratio(2, 0.9, -1), "guide_sheaves: -1; 0 or more is wanted"),
        (lambda: efficiency_of_ratio(0.96), "sheave_ratio: 0.96; 1 or more is wanted"),
        (lambda: efficiency_of_ratio(float("nan")), "sheave_ratio: nan; 1 or more is wanted"),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
