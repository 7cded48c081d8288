"""Closed forms worked out again in symbols (SymPy): the balances are set up and solved, nothing is copied."""

from __future__ import annotations

from itertools import pairwise

import pytest
import sympy as sp

from becket.mechanics.overhaul import GRAVITY, drum_side_tension, overhaul_factor, overhaul_mass
from becket.mechanics.tackle import dead_end_pull, lead_line_pull, lowering_pull, lowering_tensions, raising_tensions

K, W = sp.symbols("K W", positive=True)


def _solved(falls: int, guides: int, raising: bool) -> dict[sp.Symbol, sp.Expr]:
    """The rope cut at every sheave: one unknown for each piece, drum piece first; the block in balance."""
    pieces = sp.symbols(f"T0:{guides + 1 + falls}")  # drum, between the guides, falls 1 to N
    greater_to_drum = [sp.Eq(a, K * b) for a, b in pairwise(pieces)]
    greater_to_end = [sp.Eq(K * a, b) for a, b in pairwise(pieces)]
    carried = sp.Eq(sum(pieces[guides + 1 :]), W)
    found = sp.solve([*(greater_to_drum if raising else greater_to_end), carried], pieces, dict=True)
    assert len(found) == 1
    return dict(found[0])


@pytest.mark.parametrize("ratio", [sp.Rational(109, 100), sp.Rational(1045, 1000)])
@pytest.mark.parametrize(("falls", "guides"), [(1, 0), (2, 1), (3, 0), (4, 2), (5, 1), (8, 0)])
def test_tackle_balance(falls: int, guides: int, ratio: sp.Rational) -> None:
    at = {K: ratio, W: 10000}
    up = [float(e.subs(at)) for e in _solved(falls, guides, raising=True).values()]
    down = [float(e.subs(at)) for e in _solved(falls, guides, raising=False).values()]
    eta = float(1 / ratio)
    assert lead_line_pull(10000.0, falls, eta, guides) == pytest.approx(up[0], rel=1e-12)
    assert raising_tensions(10000.0, falls, eta) == pytest.approx(up[guides + 1 :], rel=1e-12)
    assert lowering_pull(10000.0, falls, eta, guides) == pytest.approx(down[0], rel=1e-12)
    assert lowering_tensions(10000.0, falls, eta) == pytest.approx(down[guides + 1 :], rel=1e-12)
    assert dead_end_pull(10000.0, falls, eta) == pytest.approx(max(down[guides + 1 :]), rel=1e-12)


@pytest.mark.parametrize("falls", [1, 2, 3, 4, 6, 9])
def test_handbook_closed_form_is_the_balance(falls: int) -> None:
    """K^S (K - 1)/(K^N - 1) with S = N, and (1 - K^-N)/(K - 1), are the solved balance, for every K."""
    pull = next(iter(_solved(falls, 0, raising=True).values())) / W
    assert sp.simplify(pull - K**falls * (K - 1) / (K**falls - 1)) == 0
    assert sp.simplify(1 / pull - (1 - K**-falls) / (K - 1)) == 0


@pytest.mark.parametrize("falls", [1, 2, 3, 5, 8])
def test_overhaul_factor_is_a_geometric_sum(falls: int) -> None:
    closed = sp.summation(K ** sp.Symbol("i", integer=True), (sp.Symbol("i", integer=True), 1, falls))
    assert sp.simplify(closed - K * (K**falls - 1) / (K - 1)) == 0
    assert overhaul_factor(falls, 1.025) == pytest.approx(float(closed.subs(K, sp.Rational(1025, 1000))), rel=1e-12)


@pytest.mark.parametrize("falls", [1, 2, 3, 4, 5, 6, 8])
@pytest.mark.parametrize("height", [sp.Rational(3, 2), sp.Integer(6)])
def test_overhaul_balance_with_heavy_rope(falls: int, height: sp.Rational) -> None:
    """Every end of every fall an unknown; rope weight along each fall; K over each sheave; block at the end.

    Falls are kept short against the lead line's pull, so that no end goes slack and the balance is linear.
    """
    tops, lows = sp.symbols(f"a1:{falls + 1}"), sp.symbols(f"b1:{falls + 1}")
    drag, rope, lead = sp.Integer(600), sp.Rational(145, 100), sp.Integer(12)  # [N], [kg/m], [m]
    weight = sp.Rational(str(GRAVITY)) * rope
    ratio = sp.Rational(1025, 1000)
    equations = [sp.Eq(tops[0], ratio * (drag * ratio**2 + weight * lead))]  # two guides, then the head sheave
    equations += [sp.Eq(top - low, weight * height) for top, low in zip(tops, lows, strict=True)]
    for i in range(1, falls):
        equations.append(sp.Eq(lows[i], ratio * lows[i - 1]) if i % 2 else sp.Eq(tops[i], ratio * tops[i - 1]))
    found = sp.solve(equations, [*tops, *lows], dict=True)[0]
    assert all(found[low] > 0 for low in lows)
    needed = float(sum(found[low] for low in lows)) / GRAVITY
    tension = drum_side_tension(600.0, 1.025, 2, 1.45, 12.0)
    assert overhaul_mass(tension, falls, 1.025, 1.45, float(height)) == pytest.approx(needed, rel=1e-12)
