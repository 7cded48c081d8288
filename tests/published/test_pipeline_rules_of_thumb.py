"""Pipeline Rules of Thumb Handbook (editor, edition and year not on the page seen), p. 6.

Efficiency E of a sheave in place of the ratio K: the same tackle, E = 1/K. Mechanical advantage
E (1 - E^n)/(1 - E): the first head sheave counted, as in S = N.
"""

from __future__ import annotations

import pytest

from becket.mechanics.tackle import efficiency_of_ratio, lead_line_pull, parts_ratio


@pytest.mark.parametrize(("ratio", "printed"), [(1.04, 0.962), (1.09, 0.917)])
def test_efficiency_and_ratio_are_one_thing(ratio: float, printed: float) -> None:
    """Page 6: E = 0.962 roller, 0.917 plain: the inverse of K = 1.04 and 1.09."""
    assert efficiency_of_ratio(ratio) == pytest.approx(printed, abs=0.0005)


def test_advantage_of_four_parts_is_printed_too_high() -> None:
    """FLAG. Page 6: E = 0.917, n = 4, printed 3.25. The formula beside it gives 3.236.

    The print is 0.4 % above its own formula (rounded up). The code keeps the formula: a lower advantage is a
    greater line pull, the safe side.
    """
    ours = parts_ratio(4, 0.917, 0)
    assert ours == pytest.approx(3.236, abs=0.0005)
    assert 0.004 < (3.25 - ours) / ours < 0.005


def test_pull_for_3250_pounds_is_printed_too_low() -> None:
    """FLAG. Page 6: 3250 lb on those four parts, printed 1000 lb; the formula gives 1004 lb (see above)."""
    ours = lead_line_pull(3250.0, 4, 0.917, 0)
    assert ours == pytest.approx(1004.3, abs=0.05)
    assert 0.004 < (ours - 1000) / 1000 < 0.005
