"""Wire Rope Technical Board, Wire Rope Users Manual, 4th edition (year not on the pages seen).

Pages seen in a reprint: 86 (parts of line), 88 (tackle block systems). Friction family of this book:
K = 1.09 plain bearings, 1.04 roller bearings, K the tension ratio over one turning sheave; S = N sheaves
counted for N parts (the first head sheave is one of them), each lead sheave before it one more.
"""

from __future__ import annotations

import pytest

from becket.mechanics.tackle import dead_end_pull, efficiency_of_ratio, lead_line_pull, static_tensions

PLAIN = 1.09


def test_four_parts_on_plain_bearings() -> None:
    """Page 88: four parts, plain bearings: the lead line factor is 0.309."""
    assert lead_line_pull(1.0, 4, efficiency_of_ratio(PLAIN), 0) == pytest.approx(0.309, abs=0.0005)


def test_four_parts_with_two_lead_sheaves() -> None:
    """Page 88: the same with two lead sheaves before the head: 0.367, K twice more."""
    assert lead_line_pull(1.0, 4, efficiency_of_ratio(PLAIN), 2) == pytest.approx(0.367, abs=0.0005)


def test_parts_of_line_share_a_load_at_rest() -> None:
    """Page 86: 6000 lb on four parts at rest are 1500 lb in each; only ropes between the blocks count."""
    assert static_tensions(6000.0, 4) == (1500.0,) * 4


def test_dead_end_may_carry_what_the_lead_line_carries() -> None:
    """Page 88, in words: the dead end may have to carry the full lead line force.

    The greatest pull at the dead end, lowering, is the greatest fall, raising: the lead line less one sheave.
    It never passes the lead line's own pull, the bound that the manual names.
    """
    eta = efficiency_of_ratio(PLAIN)
    for falls in range(1, 13):
        dead, lead = dead_end_pull(1.0, falls, eta), lead_line_pull(1.0, falls, eta, 0)
        assert lead / PLAIN == pytest.approx(dead, rel=1e-12)
        assert dead < lead
