"""Winch, rope, dead end, second line: records, and what is no answer."""

from __future__ import annotations

import pytest

from becket.book.hoist import DeadEnd, Drum, Rope, SecondLine, Winch
from becket.intake.hoist import DEAD_END, NO_DEAD_END, ROPE, SECOND_LINE, WINCH
from tests.intake.reading import value_of

DRUM = "drum: {diameter: 0.3 m, width: 0.44 m}"


def test_the_least_winch_has_no_figure_that_was_not_written() -> None:
    winch, faults = value_of(WINCH, DRUM)
    assert faults == []
    assert winch == Winch(
        name="main",
        at_x=None,
        at_z=None,
        lead_run=None,
        winds=None,
        drum=Drum(diameter=0.3, width=0.44, flange=None, grooved=None, pitch=None),
        least_wraps=None,
        pull=(),
        speed=(),
        guide_sheaves=None,
        drag=None,
    )


def test_pull_and_speed_by_layer_or_of_the_first_alone() -> None:
    winch, faults = value_of(WINCH, f"{DRUM}\npull: [34 kN, 31 kN]\nspeed: 90 m/min\n")
    assert faults == []
    assert (winch.pull, winch.speed) == ((34000.0, 31000.0), (1.5,))


def test_nought_is_a_figure() -> None:
    winch, faults = value_of(WINCH, f"{DRUM}\nleast_wraps: 0\nguide_sheaves: 0\ndrag: 0 N\nlead_run: 0 m\n")
    assert faults == []
    assert (winch.least_wraps, winch.guide_sheaves, winch.drag, winch.lead_run) == (0, 0, 0.0, 0.0)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("name: aux", "f.drum: is missing; {diameter: length, width: length, ...}"),
        ("drum: {diameter: 0.3 m}", "f.drum.width: is missing; a length in m, mm, ft or in, over 0"),
        (f"{DRUM}\nat: {{x: 1 m}}", "f.at.z: is missing; a length in m, mm, ft or in"),
        (f"{DRUM}\nwinds: up", "f.winds: up; one of: over, under"),
        (f"{DRUM}\npull: 34", "f.pull: 34 has no unit; a force in N, kN or lbf"),
        (f"{DRUM}\nguide_sheaves: -1", "f.guide_sheaves: -1; a whole number from 0 up, digits only, no zero in front"),
    ],
)
def test_what_is_no_winch(text: str, fault: str) -> None:
    assert value_of(WINCH, text)[1] == [fault]


def test_the_least_rope() -> None:
    rope, faults = value_of(ROPE, "diameter: 14 mm")
    assert faults == []
    assert isinstance(rope, Rope)
    assert rope.diameter == 0.014
    assert all(getattr(rope, name) is None for name in Rope.__dataclass_fields__ if name != "diameter")
    assert value_of(ROPE, "type: II")[1] == ["f.diameter: is missing; a length in m, mm, ft or in, over 0"]


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("type: IV", 'f.type: IV; did you mean "I"?'),
        ("mass: 0.98", "f.mass: 0.98 has no unit; a mass per length in kg/m or lb/ft"),
        ("torque_factor: 1.1", "f.torque_factor: 1.1 is out of range; a plain number without a unit, from 0 to 1"),
        ("design_factor: 0.5", "f.design_factor: 0.5 is out of range; a plain number without a unit, from 1 up"),
        ("swivel: maybe", "f.swivel: maybe; yes or no"),
    ],
)
def test_what_is_no_figure_of_a_rope(text: str, fault: str) -> None:
    assert value_of(ROPE, f"diameter: 14 mm\n{text}")[1] == [fault]


def test_no_second_line_is_an_answer_and_nothing_written_is_none() -> None:
    assert value_of(SECOND_LINE, "none") == (SecondLine(hangs=None, mass=0.0), [])
    assert value_of(SECOND_LINE, "{hangs: ball, mass: 0 kg}") == (SecondLine(hangs="ball", mass=0.0), [])
    assert value_of(SECOND_LINE, "{hangs: ball}")[1] == [
        "f.mass: is missing; a mass in kg, t, lb, short ton or long ton, from 0 up"
    ]
    assert value_of(SECOND_LINE, "ball")[1] == ["f: ball; {hangs: text, mass: mass}"]


def test_a_dead_end_of_which_nothing_is_known_is_that_of_a_book_without_one() -> None:
    assert value_of(DEAD_END, "{}") == (NO_DEAD_END, [])
    assert value_of(DEAD_END, "{efficiency: 1, tail: 0 mm, goes_through_sheaves: yes}")[0] == DeadEnd(
        fitting=None, rope_diameter=None, efficiency=1.0, tail=0.0, goes_through_sheaves=True
    )
    assert value_of(DEAD_END, "{efficiency: 80 %}")[1] == [
        "f.efficiency: 80 % has a unit; a plain number without a unit, as 0.98"
    ]
