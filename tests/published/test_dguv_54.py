"""DGUV Vorschrift 54, Winden, Hub- und Zuggeraete: section 20 with its implementing rule (side deflection).

Sections 35(1) and 35(2), flange and wraps, are checked in test_rule_sets.py.
"""

from __future__ import annotations

from math import degrees, radians

from becket.mechanics.fleet import closest_distance, fleet_angle


def test_one_in_fifteen_is_not_four_degrees() -> None:
    """FLAG. Section 20: side deflection at the drum 4 degrees, stated as 1:15.

    1:15 is 3.81 degrees and 4 degrees is 1:14.3: the stated ratio is 4.7 % stricter. The code keeps the tangent.
    """
    assert 3.81 < degrees(fleet_angle(1.0, 15.0)) < 3.82
    assert 14.300 < closest_distance(1.0, radians(4.0)) < 14.301
