"""The boom over the ground at its head, beside a drawing library."""

from dataclasses import replace
from math import degrees, hypot, radians

import pytest
from shapely import LineString, Point, affinity, box

from becket.method.stance import (
    angle_of_head,
    at_length,
    greatest_growth,
    head_height,
    head_radius,
    lead_growth,
    longest_lead,
    stance_of,
)
from tests.method.golden_crane import golden_book

ANGLES = [radians(a) for a in (-1.5, 0.0, 4.0, 12.5, 25.0)]
BOOK = golden_book()


def drawn_head(angle: float) -> tuple[float, float]:
    """Return the head of the straight boom as a drawing library turns it about its foot [m]."""
    boom = LineString([(-1.45, 3.05), (-1.45 + 33.4, 3.05), (-1.45 + 33.4, 3.05 - 0.48)])
    turned = affinity.rotate(boom, degrees(angle), origin=(-1.45, 3.05))
    x, z = turned.coords[-1]
    return float(x), float(z)


@pytest.mark.parametrize("angle", ANGLES)
def test_head_stands_where_a_drawing_puts_it(angle: float) -> None:
    """Shapely turns the drawn boom; sag 0 so that only the geometry is compared."""
    stance = stance_of(BOOK, 33.4, 0.0, 0.0)
    x, z = drawn_head(angle)
    assert head_radius(stance, angle) == pytest.approx(x, abs=1e-9)
    assert head_height(stance, angle) == pytest.approx(z, abs=1e-9)


def test_boom_stays_clear_of_the_ground_all_the_way_down() -> None:
    """Shapely: no point of the drawn boom axis from foot to head comes to the ground in the sweep to the low angle."""
    ground = box(-5.0, -1.0, 60.0, 0.0)
    stance = stance_of(BOOK, 33.4, 0.26, 0.0)
    for angle in ANGLES:
        head = (head_radius(stance, angle), head_height(stance, angle))
        axis = LineString([(-1.45, 3.05), head])
        assert not axis.intersects(ground)
        assert Point(head).distance(ground) == pytest.approx(head_height(stance, angle), abs=1e-9)


def test_ground_at_the_head_is_taken_off() -> None:
    level, raised = stance_of(BOOK, 33.4, 0.26, 0.0), stance_of(BOOK, 33.4, 0.26, 0.4)
    assert head_height(level, 0.1) - head_height(raised, 0.1) == pytest.approx(0.4)


@pytest.mark.parametrize("ground", [-0.5, 0.0, 0.7])
def test_angle_of_a_height_gives_the_height_back(ground: float) -> None:
    stance = stance_of(BOOK, 33.4, 0.26, ground)
    angle = angle_of_head(stance, 4.2)
    assert angle is not None
    assert head_height(stance, angle) == pytest.approx(4.2, abs=1e-9)
    assert angle_of_head(stance, 80.0) is None


def test_lead_line_grows_as_the_boom_comes_down() -> None:
    """The drum is behind and above the boom foot: rope from drum to head, straight boom, by hand."""
    stance = stance_of(BOOK, 33.4, 0.26, 0.0)
    (x0, z0), (x1, z1) = drawn_head(radians(20)), drawn_head(radians(-1.5))
    by_hand = hypot(x1 + 3.30, z1 - 3.55) - hypot(x0 + 3.30, z0 - 3.55)
    assert by_hand > 0.2
    assert lead_growth(stance, radians(20), radians(-1.5)) == pytest.approx(by_hand, abs=1e-9)


def test_greatest_growth_is_found_between_the_ends() -> None:
    """A drum in front of the foot and under it: the rope is longest on the way, not at its end. By brute force."""
    for drum in ((-1.0, 3.6), (-3.3, 3.55), (-0.9, 2.4), (-4.0, 1.5)):
        stance = replace(stance_of(BOOK, 33.4, 0.26, 0.0), drum=drum)
        every = [lead_growth(stance, radians(20), radians(-1.5 + 0.05 * i)) for i in range(431)]
        assert greatest_growth(stance, radians(20), radians(-1.5)) == pytest.approx(max(*every, 0.0), abs=1e-4)


def test_rope_along_the_boom_without_the_place_of_the_drum() -> None:
    stance = replace(stance_of(BOOK, 33.4, 0.26, 0.0), drum=None, lead_run=2.1)
    assert longest_lead(stance, 0.3) == pytest.approx(35.5)
    assert longest_lead(replace(stance, lead_run=None), 0.3) is None


def test_a_figure_for_another_boom_length_is_not_taken() -> None:
    assert at_length({33.4: 0.26}, 33.4) == 0.26
    assert at_length({33.4: 0.26}, 33.9) is None
