"""API Specification 9A / ISO 10425, Steel wire ropes for the petroleum and natural gas industries, Table C.1.

Class 6x7, fibre core: mass and minimum breaking force of grades 1770 and 1960 (edition not on the page
seen). The factors W = 0.345 and K = 0.332 are those of EN 12385 in Feyrer, Table 1.9: one source against
another.
"""

from __future__ import annotations

import pytest

from becket.mechanics.rope import breaking_force_of_class, mass_of_class
from tests.published.table import half_digit, read_table

MASS_FACTOR, FORCE_FACTOR = 0.345, 0.332
ROWS = read_table("class_6x7_fc")


def _three_digits(printed: str) -> float:
    """Half a unit of the third figure: 1040 is printed to tens."""
    return half_digit(printed, -1) if len(printed) == 4 and "." not in printed else half_digit(printed)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['diameter_mm']}mm")
def test_mass_of_a_hundred_metres(row: dict[str, str]) -> None:
    """Table C.1: mass per length of the class, kg per 100 m."""
    ours = 100 * mass_of_class(float(row["diameter_mm"]) / 1000, MASS_FACTOR)
    assert abs(ours - float(row["mass_kg_per_100m"])) <= _three_digits(row["mass_kg_per_100m"])


@pytest.mark.parametrize("grade", [1770, 1960])
@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['diameter_mm']}mm")
def test_minimum_breaking_force(row: dict[str, str], grade: int) -> None:
    """Table C.1: minimum breaking force of the class, kN, by grade."""
    printed = row[f"force_{grade}_kn"]
    ours = breaking_force_of_class(float(row["diameter_mm"]) / 1000, grade * 1e6, FORCE_FACTOR) / 1000
    assert abs(ours - float(printed)) <= _three_digits(printed)
