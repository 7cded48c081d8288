"""API RP 9B, Application, Care and Use of Wire Rope for Oil Field Service, 14th ed., Addendum 1 (Sept 2020).

Clauses 2:3.3.4 and 2:3.3.5, and a worked selection that quotes its Figure 1, Case A. Friction family of
this document: K = 1.04 roller bearings; S = N, the first crown sheave counted.
"""

from __future__ import annotations

import pytest

from becket.mechanics.rope import design_factor
from becket.mechanics.tackle import efficiency_of_ratio, lead_line_pull

ROLLER = 1.04


@pytest.mark.parametrize(
    ("lines", "printed"),
    [pytest.param(10, 0.123, id="2:3.3.4-ten-lines"), pytest.param(16, 0.086, id="Figure-1-Case-A-sixteen-lines")],
)
def test_fast_line_factor(lines: int, printed: float) -> None:
    """2:3.3.4 and Figure 1 Case A: fast line factor of a roller bearing tackle with N lines."""
    assert lead_line_pull(1.0, lines, efficiency_of_ratio(ROLLER), 0) == pytest.approx(printed, abs=0.0005)


def test_design_factor_example() -> None:
    """2:3.3.5: nominal strength 192,000 lb, fast line tension 49,200 lb: design factor 3.9."""
    assert design_factor(192_000, 49_200) == pytest.approx(3.9, abs=0.05)
