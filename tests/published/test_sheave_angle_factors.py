"""Angle factor multipliers and examples of a block vendor (no edition, no year).

Load on a sheave = line pull x factor, by the angle between the lines: 2 cos(angle/2). becket's head load
with the falls pulling W = P straight down is the same case: a lead line at angle a above level, seen from the
drum, makes 90 deg - a with the fall. FLAG: four rows (40, 45, 130, 135 degrees) are cut off, not rounded.
"""

from __future__ import annotations

from math import floor, hypot, radians

import pytest

from becket.mechanics.tackle import head_load
from tests.published.table import half_digit, read_table

ROWS = read_table("sheave_angle_factors")


def _factor(between: float) -> float:
    return hypot(*head_load(1.0, 1.0, radians(90.0 - between)))


@pytest.mark.parametrize("row", [r for r in ROWS if r["cut"] == "no"], ids=lambda r: str(r["angle_deg"]))
def test_factor(row: dict[str, str]) -> None:
    """Table: factor by the angle between the lines, two decimals."""
    assert abs(_factor(float(row["angle_deg"])) - float(row["factor"])) <= half_digit(row["factor"], 2)


@pytest.mark.parametrize("row", [r for r in ROWS if r["cut"] == "yes"], ids=lambda r: str(r["angle_deg"]))
def test_cut_factor(row: dict[str, str]) -> None:
    """FLAG. Table: these rows are cut off after two decimals (or one hundredth lower): the print is the low side."""
    ours = _factor(float(row["angle_deg"]))
    assert floor(100 * ours) / 100 == float(row["factor"])
    assert ours - float(row["factor"]) > half_digit(row["factor"], 2)


@pytest.mark.parametrize(("between", "printed", "flag"), [(50, 1810, False), (135, 760, True)])
def test_example(between: int, printed: int, flag: bool) -> None:
    """Examples: 1000 lb at 50 degrees: 1810 lb; at 135 degrees: 760 lb (FLAG: from the cut-off factor, 765)."""
    ours = 1000 * _factor(between)
    assert (abs(ours - printed) > 5) is flag
    assert abs(ours - printed) < 10
