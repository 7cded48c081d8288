"""Block stability page of a wire rope supplier, citing field tests of two associations (no edition, no year).

Spacings S of the falls. becket derives the spacing from the places of the falls (docs/theory/twist.md): the
restoring moment is that of two falls at S, S^2/4 = mean(t . b). The association's own formula page was not
available: derived; agrees with the published spacings as said test by test. For odd falls the print says S;
becket reads its fraction in S^2, the quantity that the height limit goes with. Read as S itself it would be
stricter still (4/9, 16/25, 36/49 in S^2).
"""

from __future__ import annotations

from math import hypot, sqrt

import pytest

from becket.mechanics.twist import Place, effective_spacing

R, GAUGE = 0.19, 0.12  # half the pitch diameter, half the gauge between block sheaves [m]


def _falls(sheaves: list[float], radius: float, odd: bool) -> list[Place]:
    """Two falls at each sheave, fore and aft; an odd fall more ends in the middle of the block."""
    places = [(side, sign * radius) for side in sheaves for sign in (1, -1)]
    return [*places, (0.0, 0.0)] if odd else places


def test_two_parts_average_pitch_diameter() -> None:
    """2 parts: S is the average pitch diameter of point and block sheaves.

    Derived is the geometric mean; sheaves of 0.38 and 0.42 m differ by 0.13 % in the two means, equal ones not.
    """
    for head, block in ((0.38, 0.38), (0.38, 0.42)):
        tops, lows = _falls([0.0], head / 2, False), _falls([0.0], block / 2, False)
        assert effective_spacing(tops, lows) == pytest.approx((head + block) / 2, rel=0.0015)
    assert effective_spacing(_falls([0.0], R, False), _falls([0.0], R, False)) == pytest.approx(2 * R, rel=1e-12)


def test_four_parts_diagonal() -> None:
    """4 parts: S is the diagonal distance of the rope parts."""
    places = _falls([-GAUGE, GAUGE], R, False)
    assert effective_spacing(places, places) == pytest.approx(2 * hypot(GAUGE, R), rel=1e-12)


@pytest.mark.parametrize(("parts", "fraction"), [(3, 2 / 3), (5, 4 / 5), (7, 6 / 7)])
def test_odd_parts_of_the_next_lower_even(parts: int, fraction: float) -> None:
    """3, 5, 7 parts: 2/3, 4/5, 6/7 of the 2, 4, 6 part value, in S^2; dead end in the middle of the block.

    The odd fall's place on the head does not matter: its lower end is the centre of the block.
    """
    sheaves = {3: [0.0], 5: [-GAUGE, GAUGE], 7: [-2 * GAUGE, 0.0, 2 * GAUGE]}[parts]
    even = _falls(sheaves, R, False)
    lows = _falls(sheaves, R, True)
    for last in ((0.0, 0.0), (sheaves[-1] + 2 * GAUGE, R), (-0.4, -R)):
        ours = effective_spacing([*even, last], lows)
        assert ours**2 / effective_spacing(even, even) ** 2 == pytest.approx(fraction, rel=1e-12)


def test_six_parts_diagonal_only_of_equal_arms() -> None:
    """FLAG. 6 parts: the print says diagonal distance. Derived: the mean of all three pairs of falls.

    Six falls at equal arms: the diagonal exactly. Three sheaves side by side: the inner pair holds less, and
    S^2/4 = R^2 + 2/3 g^2 in place of R^2 + g^2, g the outer arm: shorter than the outer diagonal, the safe side.
    """
    ring: list[Place] = [(0.3, 0.1), (-0.3, 0.1), (0.3, -0.1), (-0.3, -0.1), (0.0, sqrt(0.1)), (0.0, -sqrt(0.1))]
    assert effective_spacing(ring, ring) == pytest.approx(2 * sqrt(0.1), rel=1e-12)
    outer = 2 * GAUGE
    row = _falls([-outer, 0.0, outer], R, False)
    assert effective_spacing(row, row) ** 2 / 4 == pytest.approx(R**2 + 2 / 3 * outer**2, rel=1e-12)
    assert effective_spacing(row, row) < 2 * hypot(outer, R)
