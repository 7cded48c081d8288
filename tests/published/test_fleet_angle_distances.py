"""Winch page of a wire rope dealer quoting a rope maker: fleet angle distances and example (no edition, no year).

Distance for each foot of drum to either side of the first sheave. Both printed distances are rounded to a
foot: 1.5 degrees down by 0.5 %, 2 degrees up by 1.3 %.
"""

from __future__ import annotations

from math import degrees, radians

import pytest

from becket.mechanics.fleet import closest_distance, fleet_angle


@pytest.mark.parametrize(("angle", "feet", "exact"), [(1.5, 38, 38.1885), (2.0, 29, 28.6363)])
def test_distance_of_a_fleet_angle(angle: float, feet: int, exact: float) -> None:
    """Printed: 38 ft for 1.5 degrees, 29 ft for 2 degrees, for each foot of half drum."""
    ours = closest_distance(1.0, radians(angle))
    assert abs(ours - feet) <= 0.5
    assert ours == pytest.approx(exact, abs=5e-5)


@pytest.mark.parametrize(("angle", "feet"), [(1.5, 38), (2.0, 29)])
def test_angle_at_a_printed_distance(angle: float, feet: int) -> None:
    """The printed distance gives back the printed angle to its digit."""
    assert degrees(fleet_angle(1.0, feet)) == pytest.approx(angle, abs=0.05)
