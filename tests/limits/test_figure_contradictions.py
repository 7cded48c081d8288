"""Figures of boom, drum, blocks, charts and positions: one slip each, found with its fields and said in full."""

# ruff: noqa: E501 (messages stand here as they are)

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import radians

import pytest

from becket.book.crane import Book
from becket.limits.contradictions import find_contradictions
from tests.crane import invented_book
from tests.limits.slips import SETTINGS, Case, Slip, block, chart_row, drum, found, part, position

LENGTHS = "9.8 m (0-0-0), 17 m (100-0-0), 24.2 m (100-100-0), 30.8 m (100-100-92), 31.4 m (100-100-100)"


def _table(loads: dict[int, float]) -> Slip:
    return part("falls_table", loads=loads)


def _boom_lowest_over_highest(book: Book) -> Book:
    return replace(book, boom=replace(book.boom, lowest={"side": radians(85)}), rereeve=())


CASES: list[Case] = [
    (
        "table_above_pull",
        _table({1: 4300.0, 2: 8900.0}),
        ("falls_table.loads[2]", "winch.pull", "sheave_efficiency"),
        "8900 kg on 2 falls pull 44.98 kN at the drum; layer 1 permits 44.00 kN with a sheave efficiency of 0.98",
    ),
    (
        "table_falls_with_falls",
        _table({2: 8600.0, 3: 8200.0}),
        ("falls_table.loads[2]", "falls_table.loads[3]"),
        "8200 kg on 3 falls is less than 8600 kg on 2 falls",
    ),
    (
        "pull_rises_with_layer",
        part("winch", pull=(44e3, 41e3, 42e3)),
        ("winch.pull[1]", "winch.pull[2]"),
        "layer 3 permits 42 kN, layer 2 41 kN; the pull of a drum goes down from layer to layer",
    ),
    (
        "speed_falls_with_layer",
        part("winch", speed=(1.5, 1.4)),
        ("winch.speed[0]", "winch.speed[1]"),
        "layer 2 runs at 84 m/min, layer 1 at 90 m/min; the speed of a drum goes up from layer to layer",
    ),
    (
        "drum_sizes",
        drum(flange=0.34),
        ("winch.drum.flange", "winch.drum.diameter"),
        "a flange of 0.34 m over a drum of 0.34 m has no room for one layer",
    ),
    (
        "drum_sizes",
        drum(pitch=0.0155),
        ("winch.drum.pitch", "rope.diameter"),
        "turns 15.5 mm apart have no room for a rope of 16 mm",
    ),
    (
        "diameters_differ",
        part("head", rope_diameter=0.017),
        ("rope.diameter", "head.rope_diameter"),
        "the rope is 16 mm; the head is made for 17 mm",
    ),
    (
        "diameters_differ",
        block("light", rope_diameter=0.017),
        ("rope.diameter", "blocks.light.rope_diameter"),
        "the rope is 16 mm; the block light is made for 17 mm",
    ),
    (
        "diameters_differ",
        part("dead_end", rope_diameter=0.015875),
        ("rope.diameter", "dead_end.rope_diameter"),
        "the rope is 16 mm; the dead-end fitting is made for 15.875 mm",
    ),
    (
        "sag_falls_with_length",
        part("boom", sag={9.8: 0.03, 17.0: 0.01}),
        ("boom.sag", "boom.lengths"),
        "the boom of 17 m sags 0.01 m, the shorter one of 9.8 m 0.03 m; a longer boom sags more",
    ),
    (
        "lowest_above_highest",
        _boom_lowest_over_highest,
        ("boom.lowest.side", "boom.highest"),
        "the lowest angle 85 deg is above the highest 81 deg",
    ),
    (
        "lowest_above_highest",
        position(1, lowest=radians(26)),
        ("rereeve[1].lowest", "rereeve[1].highest"),
        "the lowest angle 26 deg is above the highest 25 deg",
    ),
    (
        "position_beyond_boom",
        position(0, length=30.0),
        ("rereeve[0].length", "boom.lengths"),
        f"30 m is no boom length; on file: {LENGTHS}",
    ),
    (
        "position_beyond_boom",
        position(0, lowest=radians(-2)),
        ("rereeve[0].lowest", "boom.lowest.side"),
        "the boom cannot go under -1 deg over the side; the row says -2 deg",
    ),
    (
        "position_beyond_boom",
        position(0, highest=radians(82)),
        ("rereeve[0].highest", "boom.highest"),
        "the boom cannot go over 81 deg; the row says 82 deg",
    ),
    (
        "position_under_block",
        position(4, rated=70.0),
        ("rereeve[4].rated", "blocks.light.mass"),
        "rated 70 kg; the empty block light alone is 310 kg",
    ),
    (
        "block_heights",
        block("main", stands=1.1),
        ("blocks.main.stands", "blocks.main.touches"),
        "set down, the block main stands at 1.1 m, above the 1.02 m at which its hook first touches the ground",
    ),
    (
        "block_heights",
        block("main", touches=0.8),
        ("blocks.main.touches", "blocks.main.hook"),
        "the block main touches with its shaft 0.8 m up, but its saddle is 0.88 m under the shaft and would be in the ground",
    ),
    (
        "switch_trips_too_late",
        block("main", clear=1.2),
        ("switch.trips", "blocks.main.clear"),
        "the switch trips at 1.1 m shaft to shaft; the block main is clear of the head from 1.2 m on",
    ),
    (
        "switch_does_not_stop_hoist",
        part("switch", stops=("telescope out", "derrick down")),
        ("switch.stops", "switch.trips"),
        "the hoist limit switch stops telescope out, derrick down, but not the hoist",
    ),
    (
        "rated_rises_with_radius",
        chart_row(rated={3.0: 24e3, 5.0: 27.5e3}),
        ("charts[0].rows", "charts[0].name"),
        "full outriggers, 7 t, 100-0-0 17 m: 27500 kg at 5 m is more than 24000 kg at 3 m",
    ),
    (
        "chart_beyond_boom",
        chart_row(length=17.4),
        ("charts[0].rows", "boom.lengths"),
        f"full outriggers, 7 t: no boom length is 17.4 m with the code 100-0-0; on file: {LENGTHS}",
    ),
    (
        "chart_beyond_boom",
        chart_row(code="0-100-0"),
        ("charts[0].rows", "boom.lengths"),
        f"full outriggers, 7 t: no boom length is 17 m with the code 0-100-0; on file: {LENGTHS}",
    ),
]


@pytest.mark.parametrize(("name", "slip", "fields", "why"), CASES)
def test_one_slip_is_found_with_its_fields(name: str, slip: Slip, fields: tuple[str, ...], why: str) -> None:
    assert found(name, slip) == [(fields, why)]


@pytest.mark.parametrize(
    ("layer", "pulls", "permitted"),
    [
        (None, (44e3, 41e3), "44.00"),  # the table names no layer: the greatest pull, nothing blamed that may be right
        (2, (44e3, 41e3), "41.00"),  # its own layer
        # layer 1 only: the drum's torque stays, turns square on turns, 44 kN (340 + 16)/(340 + 16 + 2 x 16)
        (2, (44e3,), "40.37"),
    ],
)
def test_the_pull_is_that_of_the_layer_of_the_falls_table(
    layer: int | None, pulls: tuple[float, ...], permitted: str
) -> None:
    def slip(book: Book) -> Book:
        return part("falls_table", loads={1: 4.6e3}, layer=layer)(part("winch", pull=pulls)(book))

    (_, why) = found("table_above_pull", slip)[0]
    assert f"permits {permitted} kN" in why


@pytest.mark.parametrize("pulls", [(), (44e3, 41e3)])
def test_a_layer_that_the_book_does_not_print_accuses_nobody(pulls: tuple[float, ...]) -> None:
    def slip(book: Book) -> Book:
        return part("falls_table", loads={1: 99e3}, layer=3)(part("winch", pull=pulls)(book))

    assert found("table_above_pull", slip) == []


AT_THE_EDGE: list[tuple[str, Callable[[Book], Book]]] = [
    ("lowest and highest angle the same", position(1, lowest=radians(25))),
    ("as many kilograms on three falls as on two", _table({2: 8600.0, 3: 8600.0})),
    ("two layers of one pull", part("winch", pull=(44e3, 44e3))),
    ("two layers of one speed", part("winch", speed=(1.5, 1.5))),
    ("as much sag on the longer boom", part("boom", sag={9.8: 0.03, 17.0: 0.03})),
    ("a boom length typed in feet", position(0, length=17.0004)),
    ("a switch that trips as the block is clear", part("switch", trips=0.66)),
    ("a position rated as the lightest block", position(4, rated=310.0)),
    ("one rated load at two radii", chart_row(rated={3.0: 24e3, 5.0: 24e3})),
    ("a switch whose motions are not on file", part("switch", stops=())),
]


@pytest.mark.parametrize(("edge", "change"), AT_THE_EDGE)
def test_figures_at_the_edge_contradict_nothing(edge: str, change: Callable[[Book], Book]) -> None:
    assert find_contradictions(change(invented_book()), SETTINGS) == (), edge


def test_the_ball_does_not_make_a_position_too_light() -> None:
    """The ball of a single line is not reeved over sheaves: no block set down for a change."""
    book = invented_book()
    assert not book.blocks["ball"].sheaves
    assert found("position_under_block", block("ball", mass=1.0)) == []
    assert found("position_under_block", lambda crane: replace(crane, blocks={"ball": book.blocks["ball"]})) == []


def test_a_block_rated_over_its_falls_is_no_contradiction() -> None:
    assert find_contradictions(block("main", rated=90000.0)(invented_book()), SETTINGS) == ()
