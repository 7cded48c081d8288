"""What one number of falls has, worked out once."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.limits.case import case_of
from becket.limits.lift_case import lift_case
from becket.mechanics.tackle import lowering_tensions, raising_tensions
from tests.crane import invented_book, invented_lift, invented_settings

BOOK = invented_book()
SETTINGS = invented_settings()


@settings(derandomize=True, deadline=None, max_examples=60)
@given(st.integers(1, 11), st.floats(1.0, 40_000.0))
def test_the_falls_balance_the_gross_load(falls: int, load: float) -> None:
    case = case_of(lift_case(BOOK, SETTINGS, BOOK.blocks["main"], invented_lift(load=load)), falls, falls)
    assert isinstance(case.gross, float)
    assert isinstance(case.rope_mass, float)
    assert isinstance(case.pull, float)
    assert isinstance(case.dead_end_pull, float)
    assert case.gross == pytest.approx(load + 200 + 480 + case.rope_mass)
    weight = case.gross * 9.80665
    raising, lowering = raising_tensions(weight, falls, 0.98), lowering_tensions(weight, falls, 0.98)
    assert sum(raising) == pytest.approx(weight)
    assert case.pull * 0.98 == pytest.approx(raising[0])
    assert case.dead_end_pull == pytest.approx(lowering[-1])


def test_rope_needed_grows_by_a_fall_and_its_arc() -> None:
    shared = lift_case(BOOK, SETTINGS, BOOK.blocks["main"], invented_lift())
    two, four = case_of(shared, 2, 2), case_of(shared, 4, 3)
    assert isinstance(two.rope_needed, float)
    assert isinstance(four.rope_needed, float)
    assert four.rope_needed - two.rope_needed == pytest.approx(2 * 17.554658190185226 + 2 * 3.141592653589793 * 0.18)


def test_with_the_pattern_on_file_no_rope_is_spared() -> None:
    shared = lift_case(BOOK, SETTINGS, BOOK.blocks["main"], invented_lift())
    assert case_of(shared, 4, 3).rope_spared == 0.0
    assert case_of(shared, 4, 3).lacking is None
    assert case_of(shared, 7, 3).lacking is not None
