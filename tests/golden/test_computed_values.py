"""Values of our own arithmetic, kept so that a change shows. COMPUTED or DERIVED: no source printed them."""

from __future__ import annotations

import pytest

from becket.mechanics.tackle import efficiency_of_ratio, lead_line_pull
from becket.mechanics.twist import twist_length
from tests.published.table import read_table

ROWS = read_table("lead_line_factors_computed", folder="golden")
COLUMNS = [name for name in ROWS[0] if name != "parts"]


@pytest.mark.parametrize("column", COLUMNS)
@pytest.mark.parametrize("row", ROWS, ids=lambda row: str(row["parts"]))
def test_lead_line_factor_as_computed_before(row: dict[str, str], column: str) -> None:
    """COMPUTED: one to twenty parts, four bearings, four decimals."""
    ratio = float(column.split("_")[1])
    ours = lead_line_pull(1.0, int(row["parts"]), efficiency_of_ratio(ratio), 0)
    assert ours == pytest.approx(float(row[column]), abs=0.0000501)


@pytest.mark.parametrize(("torque_factor", "longest"), [(0.089, 31.9203), (0.0076, 373.804)])
def test_twist_length_of_two_falls_as_derived_before(torque_factor: float, longest: float) -> None:
    """DERIVED: two falls 0.5 m apart, 22 mm rope; the torque factors are in print, the lengths are not."""
    places = [(-0.25, 0.0), (0.25, 0.0)]
    assert twist_length(places, places, torque_factor, 0.022) == pytest.approx(longest, rel=1e-5)
