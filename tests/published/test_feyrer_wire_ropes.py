"""K. Feyrer, Wire Ropes: Tension, Endurance, Reliability (edition and year not on the page seen), Table 1.9.

EN 12385 factors: F = K d^2 R0 / 1000 [kN, mm, N/mm2], mass = W d^2 / 100 [kg/m, mm], metal area = C d^2.
A second source, a rope maker's list of calculation variables, agrees with 6x7, 6x19, 6x36 and 8x36 and
differs for the cross-lay classes (W of 6x19M and 6x37M 0.346 and 0.381): those are an estimate only.
"""

from __future__ import annotations

import pytest

from becket.mechanics.rope import breaking_force_of_class, mass_of_class
from becket.settings.rope_classes import RopeClass, rope_classes
from tests.published.table import read_table

STEEL = 7850.0  # density [kg/m3]
ROWS = read_table("rope_class_factors")


def _shipped() -> dict[tuple[str, str], RopeClass]:
    return {(one.rope_class, one.core): one for one in rope_classes()}


CORES = {"FC": ("mass_fibre", "area_fibre", "force_fibre"), "IWRC": ("mass_steel", "area_steel", "force_iwrc")}
CASES = [(row, core) for row in ROWS for core in CORES if row[CORES[core][2]]]


@pytest.mark.parametrize(("row", "core"), CASES, ids=[f"{row['rope_class']}-{core}" for row, core in CASES])
def test_shipped_factors_are_the_printed_ones(row: dict[str, str], core: str) -> None:
    """Table 1.9: mass, area and force factor of each class; becket ships them as printed, marked SEEN."""
    ours = _shipped()[row["rope_class"], core]
    assert [ours.mass_factor, ours.area_factor, ours.force_factor] == [float(row[name]) for name in CORES[core]]
    assert not ours.is_from_memory
    assert "Feyrer" in ours.source


@pytest.mark.parametrize("row", [r for r in ROWS if r["force_wsc"]], ids=lambda r: str(r["rope_class"]))
def test_shipped_strand_core_factors(row: dict[str, str]) -> None:
    """Table 1.9: the force factor with a wire strand core."""
    assert _shipped()[row["rope_class"], "WSC"].force_factor == float(row["force_wsc"])


def test_a_factor_from_memory_says_so() -> None:
    """35(W)x7 is not on the page seen: the shipped row is marked MEMORY."""
    unprinted = {key[0] for key in _shipped()} - {row["rope_class"] for row in ROWS}
    assert unprinted == {"35(W)x7"}
    assert _shipped()["35(W)x7", "IWRC"].is_from_memory


@pytest.mark.parametrize(("row", "core"), CASES, ids=[f"{row['rope_class']}-{core}" for row, core in CASES])
def test_mass_and_force_stand_in_sane_proportion(row: dict[str, str], core: str) -> None:
    """Table 1.9 in itself: a metre weighs its steel (C d^2) and up to a quarter more: lay, fibre core, grease;
    the rope holds 70 to 95 % of the sum of its wires. A slip of units in either function would show."""
    ours, d, grade = _shipped()[row["rope_class"], core], 0.02, 1770e6
    area = ours.area_factor * d * d
    assert 1.0 < mass_of_class(d, ours.mass_factor) / (area * STEEL) < 1.25
    assert 0.70 < breaking_force_of_class(d, grade, ours.force_factor) / (area * grade) < 0.95
