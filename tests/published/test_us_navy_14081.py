"""US Navy training manual 14081, chapter 13, rigging: fleet angle of a winch (edition and year not seen)."""

from __future__ import annotations

from math import degrees, radians

from becket.mechanics.fleet import closest_distance, fleet_angle


def test_forty_inches_for_an_inch() -> None:
    """FLAG. Fleet angle page: 1.5 degrees is had at 40 in for each inch from drum centre to flange.

    Exact is 38.19 in; the rule is 4.7 % longer (1.432 degrees), the safe side. The code keeps the tangent.
    """
    ours = closest_distance(1.0, radians(1.5))
    assert 0.047 < 40 / ours - 1 < 0.048
    assert 1.431 < degrees(fleet_angle(1.0, 40.0)) < 1.433


def test_two_degrees_is_the_most_at_a_winch() -> None:
    """Same page: 2 degrees at most. At the 1.5 degree distance of the rule a winch keeps it with room."""
    assert fleet_angle(1.0, 40.0) < radians(2.0)
    assert fleet_angle(1.0, 28.0) > radians(2.0)
