"""Each contradiction made by one slip in a sound book, and found with the fields concerned."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import radians
from typing import Any

import pytest

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Confirmed, Keeper
from becket.limits.contradictions import CONTRADICTIONS, find_contradictions
from becket.reeving.words import read_path
from tests.crane import invented_book, invented_settings, sealed

SETTINGS = invented_settings()


def _part(part: str, **changes: Any) -> Callable[[Book], Book]:
    return lambda book: replace(book, **{part: replace(getattr(book, part), **changes)})


def _drum(**changes: Any) -> Callable[[Book], Book]:
    return lambda book: replace(book, winch=replace(book.winch, drum=replace(book.winch.drum, **changes)))


def _block(name: str, **changes: Any) -> Callable[[Book], Book]:
    return lambda book: replace(book, blocks={**book.blocks, name: replace(book.blocks[name], **changes)})


def _pattern(index: int, **changes: Any) -> Callable[[Book], Book]:
    def change(book: Book) -> Book:
        patterns = list(book.patterns)
        patterns[index] = replace(patterns[index], **changes)
        return sealed(replace(book, patterns=tuple(patterns)))

    return change


def _row(index: int, **changes: Any) -> Callable[[Book], Book]:
    def change(book: Book) -> Book:
        rows = list(book.rereeve)
        rows[index] = replace(rows[index], **changes)
        return replace(book, rereeve=tuple(rows))

    return change


def _chart_row(**changes: Any) -> Callable[[Book], Book]:
    def change(book: Book) -> Book:
        chart = book.charts[0]
        rows = (replace(chart.rows[0], **changes), *chart.rows[1:])
        return replace(book, charts=(replace(chart, rows=rows), *book.charts[1:]))

    return change


def _keeper(**changes: Any) -> Callable[[Book], Book]:
    def change(book: Book) -> Book:
        new = Keeper(**{"name": "new pin", "at": "head", "block": None, "holds": (2,), "draw": "slack", "lock": None,
                        **changes})  # fmt: skip
        return replace(book, keepers=(*book.keepers, new))

    return change


def _seal_moved(book: Book) -> Book:
    return replace(book, head=replace(book.head, sheaves={**book.head.sheaves, 1: -0.274}))


def _head_bar_short(book: Book) -> Book:
    return replace(book, keepers=(replace(book.keepers[0], holds=(2, 3, 4, 5, 6)), *book.keepers[1:]))


def _twice(book: Book) -> Book:
    return replace(book, patterns=(*book.patterns, book.patterns[3]))


def _table(loads: dict[int, float]) -> Callable[[Book], Book]:
    return _part("falls_table", loads=loads)


def _lowest(book: Book) -> Book:
    return replace(book, boom=replace(book.boom, lowest={"side": radians(85)}), rereeve=())


CD = Confirmed(by="CD", date="2025-01-04", seal=None)

SLIPS: list[tuple[str, Callable[[Book], Book], set[str]]] = [
    ("rope_does_not_fit", _part("rope", length=260.0), {"rope.length", "winch.drum.flange", "winch.drum.width"}),
    ("rope_does_not_fit", _drum(flange=0.48), {"rope.length", "winch.drum.flange", "winch.drum.width"}),
    ("table_above_pull", _table({1: 4300.0, 2: 8900.0}), {"falls_table.loads[2]", "winch.pull", "sheave_efficiency"}),
    ("table_falls_with_falls", _table({2: 8600.0, 3: 8200.0}), {"falls_table.loads[2]", "falls_table.loads[3]"}),
    ("pull_rises_with_layer", _part("winch", pull=(44e3, 41e3, 42e3)), {"winch.pull[1]", "winch.pull[2]"}),
    ("speed_falls_with_layer", _part("winch", speed=(1.5, 1.4)), {"winch.speed[0]", "winch.speed[1]"}),
    ("drum_sizes", _drum(flange=0.34), {"winch.drum.flange", "winch.drum.diameter"}),
    ("drum_sizes", _drum(pitch=0.0155), {"winch.drum.pitch", "rope.diameter"}),
    ("diameters_differ", _part("head", rope_diameter=0.017), {"rope.diameter", "head.rope_diameter"}),
    ("diameters_differ", _block("light", rope_diameter=0.017), {"rope.diameter", "blocks.light.rope_diameter"}),
    ("diameters_differ", _part("dead_end", rope_diameter=0.015875), {"rope.diameter", "dead_end.rope_diameter"}),
    ("sag_falls_with_length", _part("boom", sag={9.8: 0.03, 17.0: 0.01}), {"boom.sag", "boom.lengths"}),
    ("lowest_above_highest", _lowest, {"boom.lowest.side", "boom.highest"}),
    ("lowest_above_highest", _row(1, lowest=radians(26)), {"rereeve[1].lowest", "rereeve[1].highest"}),
    ("position_beyond_boom", _row(0, length=30.0), {"rereeve[0].length", "boom.lengths"}),
    ("position_beyond_boom", _row(0, lowest=radians(-2)), {"rereeve[0].lowest", "boom.lowest.side"}),
    ("position_beyond_boom", _row(0, highest=radians(82)), {"rereeve[0].highest", "boom.highest"}),
    ("position_under_block", _row(4, rated=70.0), {"rereeve[4].rated", "blocks.light.mass"}),
    ("block_heights", _block("main", stands=1.1), {"blocks.main.stands", "blocks.main.touches"}),
    ("block_heights", _block("main", touches=0.8), {"blocks.main.touches", "blocks.main.hook"}),
    ("switch_trips_too_late", _part("switch", trips=0.5), {"switch.trips", "blocks.main.clear"}),
    ("switch_does_not_stop_hoist", _part("switch", stops=("telescope out",)), {"switch.stops", "switch.trips"}),
    ("rated_rises_with_radius", _chart_row(rated={3.0: 24e3, 5.0: 27.5e3}), {"charts[0].rows", "charts[0].name"}),
    ("chart_beyond_boom", _chart_row(length=17.4), {"charts[0].rows", "boom.lengths"}),
    ("chart_beyond_boom", _chart_row(code="0-100-0"), {"charts[0].rows", "boom.lengths"}),
    ("sheave_used_twice", _pattern(4, path=read_path("head 2 block 2 head 2 block 4")), {"patterns[4].path"}),
    ("path_against_falls", _pattern(4, falls=6), {"patterns[4].path", "patterns[4].falls"}),
    ("path_against_falls", _pattern(4, path=read_path("head 2 head 4 block 2 block 4")),
     {"patterns[4].path", "patterns[4].falls"}),
    ("dead_end_against_falls", _pattern(4, dead_end="block"), {"patterns[4].dead_end", "patterns[4].falls"}),
    ("more_falls_than_sheaves", _pattern(1, falls=4), {"patterns[1].falls", "blocks.light.sheaves"}),
    ("two_patterns_for_one_state", _twice, {"patterns[3]", "patterns[7]"}),
    ("seal_no_longer_matches", _seal_moved, {"patterns[6].confirmed", "patterns[6].path"}),
    ("confirmed_before_typed", _pattern(4, confirmed=CD), {"patterns[4].confirmed.date", "patterns[4].typed.date"}),
    ("sheaves_in_one_place", _block("main", sheaves={1: -0.22, 2: -0.11, 3: 0.0, 4: 0.11, 5: 0.11}),
     {"blocks.main.sheaves.4", "blocks.main.sheaves.5"}),
    ("keeper_holds_nothing", _keeper(holds=()), {"keepers[4].holds", "keepers[4].at"}),
    ("keeper_of_no_pattern", _keeper(holds=(6,)), {"keepers[4].holds", "patterns"}),
    ("keeper_of_no_pattern", _keeper(at="block", block="ball", holds=(1,)), {"keepers[4].holds", "patterns"}),
    ("pass_without_keeper", _head_bar_short, {"patterns[6].path", "keepers"}),
]  # fmt: skip


def test_a_sound_book_has_none() -> None:
    assert find_contradictions(invented_book(), SETTINGS) == ()


@pytest.mark.parametrize(("name", "slip", "fields"), SLIPS)
def test_one_slip_is_found_by_name_with_its_fields(name: str, slip: Callable[[Book], Book], fields: set[str]) -> None:
    found = [one for one in find_contradictions(slip(invented_book()), SETTINGS) if one.name == name]
    assert fields in [set(one.fields) for one in found]
    assert all(one.why for one in found)


def test_every_contradiction_has_a_slip() -> None:
    assert {name for name, _, _ in SLIPS} | {"below_rule_set"} == set(CONTRADICTIONS)


@pytest.mark.parametrize(
    ("rules", "change", "field"),
    [
        ("29 CFR 1926 Subpart CC", _part("rope", design_factor=4.5), "rope.design_factor"),
        ("DGUV Vorschrift 54", _part("winch", least_wraps=1), "winch.least_wraps"),
        ("ASME B30.5-2018", _drum(diameter=0.27), "winch.drum.diameter"),
        ("ASME B30.5-2018", _part("head", sheave_diameter=0.28), "head.sheave_diameter"),
        ("ASME B30.5-2018", _block("main", sheave_diameter=0.25), "blocks.main.sheave_diameter"),
    ],
)
def test_a_figure_below_the_rule_set_named(rules: str, change: Callable[[Book], Book], field: str) -> None:
    book = change(invented_book())
    named = find_contradictions(book, replace(SETTINGS, rules=rules))
    assert field in [one.fields[0] for one in named if one.name == "below_rule_set"]
    assert rules in next(one.why for one in named if one.fields[0] == field)
    assert "below_rule_set" not in [one.name for one in find_contradictions(book, SETTINGS)]


def test_freeboard_is_that_of_the_rule_set_named_else_the_greatest_published() -> None:
    """Flange 0.58 m, drum 0.34 m, rope 16 mm: 6 layers under 13 mm of flange, 5 under 32 mm (2 d, the greatest)."""
    book = _part("rope", length=200.0)(invented_book())
    unnamed = find_contradictions(book, SETTINGS)
    assert [one.name for one in unnamed] == ["rope_does_not_fit"]
    assert "5 layers of 28 turns" in unnamed[0].why
    assert "32 mm of flange" in unnamed[0].why
    assert find_contradictions(book, replace(SETTINGS, rules="ASME B30.5-2018")) == ()


def test_a_block_rated_over_its_falls_is_no_contradiction() -> None:
    assert find_contradictions(_block("main", rated=90000.0)(invented_book()), SETTINGS) == ()


def test_missing_figures_contradict_nothing() -> None:
    book = invented_book()
    blocks = {
        name: replace(block, rated=None, mass=None, rope_diameter=None, sheave_diameter=None, becket=None, hook=None,
                      touches=None, stands=None, clear=None, mass_centre=None, swivel=None)
        for name, block in book.blocks.items()
    }  # fmt: skip
    bare = replace(
        book,
        sheave_efficiency=None,
        blocks=blocks,
        head=replace(book.head, rope_diameter=None, lead=None, anchors={"b": Anchor(side=0.0, along=None, below=None)}),
        rope=replace(book.rope, length=None, breaking_force=None, design_factor=None),
        winch=replace(book.winch, least_wraps=None, pull=(), speed=(), guide_sheaves=None,
                      drum=replace(book.winch.drum, flange=None, pitch=None)),
        boom=replace(book.boom, sag=None),
        switch=replace(book.switch, trips=None, margin=None, stops=()),
        falls_table=None,
        dead_end=replace(book.dead_end, rope_diameter=None),
        rereeve=(), charts=(), keepers=(), patterns=(),
    )  # fmt: skip
    for rules in (None, "ASME B30.5-2018"):
        assert find_contradictions(bare, replace(SETTINGS, rules=rules)) == ()
