"""Boom and head: records, signs of the anchors, what is required."""

from __future__ import annotations

from math import radians

import pytest

from becket.book.boom import Anchor, Boom, BoomLength, Head
from becket.intake.boom import ANCHOR, BECKET, BOOM, HEAD, SHEAVES
from tests.intake.reading import value_of

LEAST_BOOM = 'foot: {x: -1 m, z: 2 m}\nlengths: [{length: 8 m, code: "0-0"}]\nhead_drop: 0.4 m\nhighest: 80 deg\n'


def test_the_least_boom_has_no_figure_that_was_not_written() -> None:
    boom, faults = value_of(BOOM, LEAST_BOOM)
    assert faults == []
    assert boom == Boom(
        foot_x=-1.0,
        foot_z=2.0,
        lengths=(BoomLength(length=8.0, code="0-0", sections=(0.0, 0.0)),),
        head_drop=0.4,
        sag=None,
        lowest={},
        highest=radians(80),
    )


def test_no_sag_is_another_thing_than_sag_of_nothing() -> None:
    assert value_of(BOOM, LEAST_BOOM + "sag: {}\n")[0].sag == {}
    assert value_of(BOOM, LEAST_BOOM + "sag: {8 m: 0 m}\n")[0].sag == {8.0: 0.0}


def test_a_head_above_the_axis_drops_by_less_than_nothing() -> None:
    assert value_of(BOOM, LEAST_BOOM.replace("head_drop: 0.4 m", "head_drop: -0.1 m"))[0].head_drop == -0.1


def test_lowest_angles_are_by_sector_and_may_lie_under_level() -> None:
    boom, faults = value_of(BOOM, LEAST_BOOM + "lowest: {side: -3 deg, left: 1 deg}\n")
    assert boom.lowest == {"side": radians(-3)}
    assert faults == ["f.lowest.left: left; one of: side, rear, front"]


@pytest.mark.parametrize(
    ("missing", "fault"),
    [
        ("foot", "f.foot: is missing; {x: length, z: length}"),
        ("lengths", "f.lengths: is missing; a list of {length: length, code: code}, at least one"),
        ("head_drop", "f.head_drop: is missing; a length in m, mm, ft or in"),
        ("highest", "f.highest: is missing; an angle in deg, over 0 deg, under 90 deg"),
    ],
)
def test_what_a_boom_cannot_be_without(missing: str, fault: str) -> None:
    text = "".join(line for line in LEAST_BOOM.splitlines(keepends=True) if not line.startswith(missing))
    assert value_of(BOOM, text)[1] == [fault]


def test_a_length_without_its_code_is_named() -> None:
    boom, faults = value_of(BOOM, LEAST_BOOM.replace(', code: "0-0"', ""))
    assert faults == ["f.lengths[0].code: is missing; a telescoping code as 100-50-0"]
    assert boom.lengths[0].sections == ()


def test_an_anchor_lies_below_the_head_shaft_and_a_becket_above_that_of_the_block() -> None:
    """Both are heights under the shaft of their own: of a becket over the shaft it is less than nothing."""
    assert value_of(ANCHOR, "{side: 0.1 m, along: -0.1 m, below: 0.2 m}")[0] == Anchor(side=0.1, along=-0.1, below=0.2)
    assert value_of(BECKET, "{side: 0.1 m, along: -0.1 m, above: 0.2 m}")[0] == Anchor(side=0.1, along=-0.1, below=-0.2)
    assert value_of(BECKET, "{side: 0 m, above: 0 m}")[0] == Anchor(side=0.0, along=None, below=0.0)
    assert value_of(BECKET, "{side: 0 m}")[0].below is None
    assert value_of(BECKET, "{above: 0.2 m}")[1] == ["f.side: is missing; a length in m, mm, ft or in"]
    assert value_of(ANCHOR, "{side: 0 m, above: 0.2 m}")[1][0].startswith('f.above: "above" is not a key here')


def test_a_head_and_its_sheaves_by_number() -> None:
    head, faults = value_of(HEAD, "{sheave_diameter: 0.3 m, sheaves: {2: 0 m, 1: -200 mm}}")
    assert faults == []
    assert head == Head(
        sheave_diameter=0.3, rope_diameter=None, sheaves={1: -0.2, 2: 0.0}, numbered=None, lead=None, anchors={}
    )


def test_a_sheave_stands_once_and_has_a_whole_number() -> None:
    assert value_of(SHEAVES, "{}") == ({}, [])  # a ball
    assert value_of(SHEAVES, "{1: 0 m, 0: 1 m, 1.5: 2 m}")[1] == [
        "f.0: 0; a whole number from 1 up, digits only, no zero in front",
        "f.1.5: 1.5; a whole number from 1 up, digits only, no zero in front",
    ]
