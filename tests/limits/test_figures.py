"""Every missing figure makes the limits that need it unknown, named with where manuals print it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from becket.limits.figures import PRINTED, Impossible, Missing, missing, on_file, trouble_of, worked_out
from becket.verdict import Verdict
from tests.crane import invented_book
from tests.limits.asking import book_with, limit, pattern_of, row, without_pattern

ROPE_OUT = ("lead_line_pull", "rope_length", "wraps")
GROSS = ("lead_line_pull", "rope_strength", "dead_end")

# what is taken out of the book, the limits that it makes unknown, the field that they name
TAKEN_OUT: list[tuple[dict[str, dict[str, Any]], tuple[str, ...], str]] = [
    ({"rope": {"mass": None}}, (*GROSS, "overhaul", "chart"), "rope.mass"),
    ({"rope": {"length": None}}, ROPE_OUT, "rope.length"),
    ({"rope": {"breaking_force": None}}, GROSS, "rope.breaking_force"),
    ({"rope": {"design_factor": None}}, GROSS, "rope.design_factor"),
    ({"rope": {"torque_factor": None}}, ("twist",), "rope.torque_factor"),
    ({"dead_end": {"efficiency": None}}, ("dead_end",), "dead_end.efficiency"),
    ({"dead_end": {"tail": None}}, ROPE_OUT, "dead_end.tail"),
    ({"dead_end": {"rope_diameter": None}}, ("groove",), "dead_end.rope_diameter"),
    ({"head": {"rope_diameter": None}}, ("groove",), "head.rope_diameter"),
    ({"head": {"lead": None}}, ("twist", "pattern"), "head.lead"),
    ({"winch": {"at_x": None, "at_z": None}}, (*ROPE_OUT, "overhaul", "fleet_angle"), "winch.at"),
    ({"winch": {"least_wraps": None}}, ("rope_length", "wraps"), "winch.least_wraps"),
    ({"winch": {"guide_sheaves": None}}, ("lead_line_pull", "rope_strength", "overhaul"), "winch.guide_sheaves"),
    ({"winch": {"drag": None}}, ("overhaul",), "winch.drag"),
    ({"winch": {"pull": (44e3, 41e3)}}, ("lead_line_pull",), "winch.pull"),
    ({"switch": {"trips": None}}, ("overhaul", "head_clearance"), "switch.trips"),
    ({"switch": {"margin": None}}, ("overhaul", "head_clearance"), "switch.margin"),
    ({"fleet": {"sheave": None}}, ("fleet_angle",), "fleet.sheave"),
    ({"fleet": {"drum": None}}, ("fleet_angle",), "fleet.drum"),
    ({"boom": {"sag": None}}, ("head_clearance", "fleet_angle", "pattern"), "boom.sag"),
    ({"block": {"rated": None}}, ("block_rating",), "blocks.main.rated"),
    ({"block": {"mass": None}}, (*GROSS, "makers_table", "overhaul", "tilt", "chart"), "blocks.main.mass"),
    ({"block": {"rope_diameter": None}}, ("groove",), "blocks.main.rope_diameter"),
    ({"block": {"sheave_diameter": None}}, (*ROPE_OUT, "twist"), "blocks.main.sheave_diameter"),
    ({"block": {"hook": None}}, (*GROSS, *ROPE_OUT, "tilt", "head_clearance", "twist"), "blocks.main.hook"),
    ({"block": {"mass_centre": None}}, ("tilt",), "blocks.main.mass_centre"),
]


@pytest.mark.parametrize(("taken", "names", "field"), TAKEN_OUT, ids=[case[2] for case in TAKEN_OUT])
def test_a_missing_figure_of_a_part_is_named(taken: dict[str, Any], names: tuple[str, ...], field: str) -> None:
    answer = row(book=book_with(**taken))
    for name in names:
        found = answer.limit(name)
        assert found.verdict is Verdict.UNKNOWN, name
        assert field in found.why, (name, found.why)


@pytest.mark.parametrize(("taken", "names", "field"), TAKEN_OUT, ids=[case[2] for case in TAKEN_OUT])
def test_a_missing_figure_never_leaves_the_row_passing(
    taken: dict[str, Any], names: tuple[str, ...], field: str
) -> None:
    assert row(book=book_with(**taken)).verdict is Verdict.UNKNOWN


TAKEN_OF_BOOK: list[tuple[str, tuple[str, ...], str]] = [
    ("sheave_efficiency", ("lead_line_pull", "rope_strength", "dead_end", "overhaul", "tilt"), "sheave_efficiency"),
    ("second_line", ("chart", "makers_table"), "second_line"),
    ("stowed", ("chart", "makers_table"), "stowed"),
    ("falls_table", ("makers_table",), "falls_table"),
]


@pytest.mark.parametrize(("key", "names", "field"), TAKEN_OF_BOOK)
def test_a_missing_figure_of_the_book_is_named(key: str, names: tuple[str, ...], field: str) -> None:
    answer = row(book=invented_book(**{key: None}))
    for name in names:
        assert answer.limit(name).verdict is Verdict.UNKNOWN, name
        assert field in answer.limit(name).why


TAKEN_OF_LIFT: list[tuple[str, tuple[str, ...]]] = [
    ("load", (*GROSS, "makers_table", "block_rating", "tilt", "chart")),
    ("rigging", (*GROSS, "makers_table", "block_rating", "tilt", "chart")),
    ("boom", (*GROSS, *ROPE_OUT, "head_clearance", "chart")),
    ("radius", (*GROSS, *ROPE_OUT, "overhaul", "twist", "fleet_angle", "head_clearance", "pattern", "chart")),
    ("top", ("lead_line_pull", "fleet_angle", "head_clearance", "pattern")),
    ("bottom", (*GROSS, "rope_length", "wraps", "twist", "pattern")),
    ("chart", ("chart",)),
]


@pytest.mark.parametrize(("key", "names"), TAKEN_OF_LIFT)
def test_a_figure_that_the_lift_does_not_give_is_named(key: str, names: tuple[str, ...]) -> None:
    gone: dict[str, Any] = {key: None}
    answer = row(**gone)
    for name in names:
        assert answer.limit(name).verdict is Verdict.UNKNOWN, name
        assert f"lift.{key}" in answer.limit(name).why


def test_a_pattern_that_is_not_on_file_makes_what_needs_its_places_unknown() -> None:
    answer = row(book=without_pattern(invented_book(), 4))
    for name in ("lead_line_pull", "pattern", "rope_length", "wraps", "twist", "fleet_angle", "tilt"):
        assert answer.limit(name).verdict is Verdict.UNKNOWN, name
        assert "reeving pattern main:4 (patterns), in the manual's pages on reeving" in answer.limit(name).why


def test_an_anchor_without_its_place_along_makes_twist_unknown() -> None:
    book = invented_book()
    anchors = {**book.head.anchors, "b": replace(book.head.anchors["b"], along=None)}
    found = limit("twist", book=book_with(head={"anchors": anchors}))
    assert found.verdict is Verdict.UNKNOWN
    assert "head.anchors.b.along" in found.why


def test_an_anchor_without_its_depth_makes_the_rope_unknown() -> None:
    book = invented_book()
    anchors = {**book.head.anchors, "b": replace(book.head.anchors["b"], below=None)}
    answer = row(book=book_with(head={"anchors": anchors}))
    for name in ROPE_OUT:
        assert answer.limit(name).verdict is Verdict.UNKNOWN
        assert "head.anchors.b.below" in answer.limit(name).why


def test_a_becket_that_is_not_on_file_makes_odd_falls_unknown() -> None:
    answer = row(3, book_with(block={"becket": None}))
    for name in ROPE_OUT:
        assert answer.limit(name).verdict is Verdict.UNKNOWN
        assert "blocks.main.becket" in answer.limit(name).why


def test_several_missing_figures_are_named_together() -> None:
    found = limit("overhaul", book=book_with(winch={"drag": None, "guide_sheaves": None}))
    assert found.why == (
        "Not on file: pull that turns the empty drum (winch.drag), measured once with a spring balance, or in the "
        "manual's data of the hoist; guide sheaves between drum and head (winch.guide_sheaves), in the manual's "
        "reeving drawings."
    )


def test_impossible_goes_before_missing() -> None:
    assert trouble_of((Missing(("a",)), Impossible("Out of reach."))) == Impossible("Out of reach.")


def test_nothing_is_computed_from_a_missing_figure() -> None:
    def never(*_: object) -> float:
        raise AssertionError

    assert worked_out(never, 1.0, Missing(("a",))) == Missing(("a",))


def test_a_figure_that_is_zero_is_on_file() -> None:
    assert on_file(0.0, "winch.drag") == 0.0


def test_every_printed_place_says_where_to_look() -> None:
    for field, (words, where) in PRINTED.items():
        assert words
        assert where
        assert field in missing(field, "*").why
    assert pattern_of(invented_book(), 4).page == "5-15"
