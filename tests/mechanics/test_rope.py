"""Strength and mass of a rope."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.mechanics.rope import (
    breaking_force_of_class,
    design_factor,
    fitting_factor,
    least_tail,
    mass_of_class,
)

house = settings(derandomize=True, deadline=None, max_examples=100)
diameters = st.floats(0.004, 0.06)
unit: pint.UnitRegistry[Any] = pint.UnitRegistry()


@house
@given(diameter=diameters, factor=st.floats(0.2, 0.5), grade=st.integers(1570, 2160))
def test_units_of_the_class_factors(diameter: float, factor: float, grade: int) -> None:
    """Worked out again in kN, mm, N/mm2 and kg per 100 m by a library of units."""
    millimetres = (diameter * unit.metre).to("mm").magnitude
    force = (factor * millimetres**2 * grade / 1000) * unit.kilonewton
    mass = (factor * millimetres**2) * unit.kilogram / (100 * unit.metre)
    pascals = (grade * unit.newton / unit.millimetre**2).to("Pa").magnitude
    assert breaking_force_of_class(diameter, pascals, factor) == pytest.approx(force.to("N").magnitude, rel=1e-12)
    assert mass_of_class(diameter, factor) == pytest.approx(mass.to("kg/m").magnitude, rel=1e-12)


@house
@given(force=st.floats(1e3, 1e7), pull=st.floats(1e2, 1e6), share=st.floats(0.1, 1.0))
def test_factors_undo_the_division(force: float, pull: float, share: float) -> None:
    assert design_factor(force, pull) * pull == pytest.approx(force, rel=1e-12)
    assert fitting_factor(force, share, pull) == pytest.approx(share * design_factor(force, pull), rel=1e-12)
    assert fitting_factor(force, 1.0, pull) == design_factor(force, pull)


@house
@given(diameter=diameters)
def test_tail_is_never_under_six_inches_nor_shorter_for_rotation_resistant(diameter: float) -> None:
    assert 0.1524 <= least_tail(diameter, False) <= least_tail(diameter, True)
    assert least_tail(diameter, True) >= 20 * diameter


@pytest.mark.parametrize(
    ("call", "text"),
    [
        (lambda: breaking_force_of_class(0.0, 1770e6, 0.33), "diameter: 0.0; more than 0 is wanted"),
        (lambda: breaking_force_of_class(0.02, -1.0, 0.33), "grade: -1.0; more than 0 is wanted"),
        (lambda: mass_of_class(-0.02, 0.4), "diameter: -0.02; more than 0 is wanted"),
        (lambda: design_factor(1.0, 0.0), "pull: 0.0; more than 0 is wanted"),
        (lambda: design_factor(1.0, float("nan")), "pull: nan; more than 0 is wanted"),
        (lambda: fitting_factor(1.0, 0.8, 0.0), "pull: 0.0; more than 0 is wanted"),
    ],
)
def test_refused_with_its_text(call: Callable[[], object], text: str) -> None:
    with pytest.raises(OutOfRangeError) as refused:
        call()
    assert str(refused.value) == text
