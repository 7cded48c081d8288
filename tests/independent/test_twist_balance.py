"""Turning of the block by a rigid body balance: exact lengths, the whole rope conserved (SciPy).

One rope over sheaves without friction has one tension, so the sum of all falls stays. For each turn of the
block the search finds the deepest place, free to move sideways: the energy. Its slope against the rope's own
torque gives the angle; its least gives how the block hangs without torque. No small angles, no centroids.
"""

from __future__ import annotations

from math import cos, degrees, hypot, pi, sin

import numpy as np
import pytest
from scipy.optimize import brentq, minimize

from becket.mechanics.twist import Place, hangs_turned, twist_angle, twist_length

TORQUE_FACTOR, ROPE = 0.05, 0.018
# made-up tackles: places on the head and on the block
TACKLES: dict[str, tuple[list[Place], list[Place]]] = {
    "two": ([(0.0, 0.2), (0.0, -0.2)], [(0.0, 0.2), (0.0, -0.2)]),
    "three": ([(0.0, 0.2), (0.0, -0.2), (0.2, 0.2)], [(0.05, 0.2), (0.05, -0.2), (0.0, 0.0)]),
    "four skewed": (
        [(-0.3, 0.2), (-0.3, -0.2), (0.3, 0.2), (0.1, -0.1)],
        [(-0.1, 0.2), (-0.1, -0.2), (0.1, 0.2), (0.1, -0.2)],
    ),
    "six": (
        [(x, y) for x in (-0.35, 0.0, 0.35) for y in (0.22, -0.22)],
        [(x, y) for x in (-0.15, 0.0, 0.15) for y in (0.19, -0.19)],
    ),
}


def _rope(tops: list[Place], lows: list[Place], x: float, y: float, depth: float, turn: float) -> float:
    total = 0.0
    for (tx, ty), (bx, by) in zip(tops, lows, strict=True):
        px, py = bx * cos(turn) - by * sin(turn) + x, bx * sin(turn) + by * cos(turn) + y
        total += hypot(tx - px, ty - py, depth)
    return total


def _depth(tops: list[Place], lows: list[Place], length: float, turn: float) -> float:
    """How deep the block hangs at a turn, moving sideways as it likes, all falls together of a length."""

    def height(at: np.ndarray) -> float:
        return -float(
            brentq(lambda d: _rope(tops, lows, float(at[0]), float(at[1]), d, turn) - length, 1e-6, length, xtol=1e-13)
        )

    return -float(minimize(height, np.zeros(2), method="Nelder-Mead", options={"xatol": 1e-6, "fatol": 1e-13}).fun)


def _energy_slope(tops: list[Place], lows: list[Place], length: float, turn: float) -> float:
    """Moment that holds the block back, over its weight [m]."""
    step = 1e-3
    return (_depth(tops, lows, length, turn - step) - _depth(tops, lows, length, turn + step)) / (2 * step)


@pytest.mark.parametrize("name", TACKLES)
def test_block_hangs_where_the_energy_is_least(name: str) -> None:
    tops, lows = TACKLES[name]
    ours = hangs_turned(tops, lows)
    length = len(tops) * 20.0
    found = brentq(lambda turn: _energy_slope(tops, lows, length, turn), ours - 0.6, ours + 0.6, xtol=1e-6)
    assert degrees(found) == pytest.approx(degrees(ours), abs=0.05)
    away = [_depth(tops, lows, length, found + d) for d in (-0.5, 0.5, pi / 2, pi)]
    assert all(depth < _depth(tops, lows, length, found) for depth in away)


@pytest.mark.parametrize("share", [0.2, 0.5, 0.8])
@pytest.mark.parametrize("name", TACKLES)
def test_angle_under_the_rope_s_torque(name: str, share: float) -> None:
    """Falls at a share of the twist length: the exact balance and becket's angle within a hundredth."""
    tops, lows = TACKLES[name]
    longest = twist_length(tops, lows, TORQUE_FACTOR, ROPE)
    fall = share * longest
    start = hangs_turned(tops, lows)
    length = sum(hypot(fall, t[0] - b[0], t[1] - b[1]) for t, b in zip(tops, lows, strict=True))
    found = brentq(
        lambda turn: _energy_slope(tops, lows, length, start + turn) - TORQUE_FACTOR * ROPE, 0.0, 1.45, xtol=1e-6
    )
    assert twist_angle(fall, longest) == pytest.approx(found, rel=0.01)


@pytest.mark.parametrize("name", TACKLES)
def test_block_turns_over_beyond_the_twist_length(name: str) -> None:
    """A tenth beyond: no turn holds the torque; a tenth short: a quarter turn holds more than the torque."""
    tops, lows = TACKLES[name]
    longest = twist_length(tops, lows, TORQUE_FACTOR, ROPE)
    start = hangs_turned(tops, lows)
    torque = TORQUE_FACTOR * ROPE
    beyond = [_energy_slope(tops, lows, 1.1 * longest * len(tops), start + pi * k / 8) for k in range(1, 8)]
    assert max(beyond) < torque
    assert _energy_slope(tops, lows, 0.9 * longest * len(tops), start + pi / 2) > torque
