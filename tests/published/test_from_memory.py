"""From memory: numbers that a compiler knew and no stored page showed. NO ORACLE.

Nothing here proves a formula: each number is marked "from memory" in its table. The tests say where memory
and formula agree to the digit and where they do not, so that a reader with the book can settle it.
"""

from __future__ import annotations

from math import sqrt

import pytest

from becket.mechanics.drum import handbook_capacity
from becket.mechanics.tackle import efficiency_of_ratio, lead_line_pull
from tests.published.table import read_table

RATIO = {"plain": 1.09, "roller": 1.04}
ROWS = read_table("lead_line_factors_from_memory")
CASES = [(int(row["parts"]), bearing, row[bearing]) for row in ROWS for bearing in RATIO if row[bearing]]
DIFFER = {(8, "roller"), (9, "roller"), (12, "roller"), (13, "plain")}  # such as 0.106 against 0.1066


def _difference(parts: int, bearing: str, remembered: str) -> float:
    return abs(lead_line_pull(1.0, parts, efficiency_of_ratio(RATIO[bearing]), 0) - float(remembered))


@pytest.mark.parametrize(("parts", "bearing", "remembered"), [c for c in CASES if c[:2] not in DIFFER])
def test_lead_line_factor_from_memory(parts: int, bearing: str, remembered: str) -> None:
    """From memory: lead line factors, three decimals, K = 1.09 and 1.04, S = N (two decimals at one part)."""
    assert _difference(parts, bearing, remembered) <= 0.0005


@pytest.mark.parametrize(("parts", "bearing", "remembered"), [c for c in CASES if c[:2] in DIFFER])
def test_lead_line_factor_where_memory_differs(parts: int, bearing: str, remembered: str) -> None:
    """From memory: four rows are up to a unit of the last digit below the formula."""
    assert 0.0005 < _difference(parts, bearing, remembered) < 0.001


@pytest.mark.parametrize("row", read_table("drum_factor_from_memory"), ids=lambda row: str(row["diameter_in"]))
def test_drum_factor_from_memory(row: dict[str, str]) -> None:
    """From memory: the drum factors that a reprint cuts off; 4.2 to 5.8 % oversize, as the rows in print."""
    inch, foot = 0.0254, 0.3048
    geometric = handbook_capacity(inch, 0.5 * inch, inch, float(row["diameter_in"]) * inch, 0.0) / foot
    assert 0.0415 < sqrt(geometric / float(row["factor"])) - 1 < 0.0585
