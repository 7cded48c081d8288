"""The side view: every figure is the change's own; what is not known is a question mark on hatch."""

from __future__ import annotations

from dataclasses import replace
from math import radians

import pytest

from becket.book.tackle import State
from becket.drawing.picture import Picture, Polygon, Polyline, Rect, Text
from becket.drawing.side import angle_words, draw_side
from becket.method.change import Change, work_out_change
from becket.method.site import Site
from becket.units import read_quantity, show_quantity
from tests.crane import invented_book, invented_settings
from tests.drawing.tackles import faults

BOOK = invented_book()
SITE = Site(counterweight=7000.0, outriggers="full")


def change(site: Site = SITE) -> Change:
    return work_out_change(BOOK, invented_settings(), State(block="main", falls=2), State(block="main", falls=4), site)


def words(picture: Picture) -> list[str]:
    return [s.text for s in picture.shapes if isinstance(s, Text)]


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_figures_are_the_changes(system: str) -> None:
    """Radius, head height, both angles, rope to leave, as they are shown everywhere else."""
    worked = change()
    assert worked.position is not None
    assert worked.rope_to_leave is not None
    assert worked.rope_to_leave.target is not None
    picture = draw_side(BOOK, worked, system=system)
    assert show_quantity(worked.position.head_height, "length", system=system) in words(picture)
    for length in (worked.position.radius, worked.rope_to_leave.target):
        assert show_quantity(length, "length", system=system, toward="up") in words(picture)
    for angle in (worked.position.angle, worked.rope_to_leave.at_angle):
        assert angle_words(angle) in words(picture)
    assert faults(picture) == []
    assert "Not to scale." in words(picture)
    assert not any(isinstance(s, Polygon) for s in picture.shapes)


def test_room_needed_is_rounded_up() -> None:
    worked = change()
    assert worked.position is not None
    said = draw_side(BOOK, worked).description.split("Room needed: ")[1].split(". ")[0]
    assert read_quantity(said, "length") >= worked.position.free_radius_needed


def test_no_position_is_five_question_marks() -> None:
    """No figure in place of one that is not known; the reason stands under the picture."""
    worked = change(replace(SITE, free_radius=9.0))
    assert worked.position is None
    picture = draw_side(BOOK, worked)
    unknown = [s for s in picture.shapes if isinstance(s, Rect) and dict(s.facts).get("kind") == "unknown"]
    assert (len(unknown), words(picture).count("?")) == (5, 5)
    assert any(isinstance(s, Polygon) and dict(s.facts).get("kind") == "hatch" for s in picture.shapes)
    assert str(worked.why_no_position) in picture.description
    assert not any("°" in word for word in words(picture))
    assert faults(picture) == []


def test_boom_low_is_solid_and_boom_at_first_is_dotted() -> None:
    shapes = {dict(s.facts).get("kind"): s for s in draw_side(BOOK, change()).shapes if isinstance(s, Polyline)}
    assert shapes["boom low"].dash == ()
    assert shapes["boom at first"].dash
    ends = [
        dict(s.facts).get("of") for s in draw_side(BOOK, change()).shapes if dict(s.facts).get("kind") == "dimension"
    ]
    assert sorted(map(str, ends)) == ["head height"] * 3 + ["radius"] * 3


def test_the_ground() -> None:
    """Level and stated: no word. Higher, lower, or not known: said."""
    for ground, said in ((None, "not known, measured"), (0.4, "0.40 m higher"), (-0.05, "50.0 mm lower")):
        assert f"Ground at the head: {said}" in draw_side(BOOK, change(replace(SITE, ground=ground))).description
    assert "Ground" not in draw_side(BOOK, change(replace(SITE, ground=0.0))).description


def test_no_rope_to_leave_says_why() -> None:
    worked = change()
    assert worked.rope_to_leave is not None
    none = replace(worked, rope_to_leave=replace(worked.rope_to_leave, target=None, why="plumb is under threading"))
    picture = draw_side(BOOK, none)
    assert "No rope to leave does: plumb is under threading." in picture.description
    assert words(picture).count("?") == 1


def test_angles() -> None:
    """To a tenth of a degree, with a true minus; no minus before zero."""
    assert angle_words(radians(-1.84)) == "\u22121.8°"
    assert angle_words(radians(-0.01)) == "0.0°"
    assert angle_words(radians(20)) == "20.0°"
