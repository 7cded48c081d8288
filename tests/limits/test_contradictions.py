"""The registry of contradictions: a sound book has none, each has a slip that makes it."""

from __future__ import annotations

from dataclasses import replace

from becket.book.boom import Anchor
from becket.limits.contradictions import CONTRADICTIONS, find_contradictions
from tests.crane import invented_book, invented_settings
from tests.limits import test_figure_contradictions as figures
from tests.limits import test_path_contradictions as paths
from tests.limits import test_rule_contradictions as rules
from tests.limits.slips import drum, part

SETTINGS = invented_settings()


def test_a_sound_book_has_none() -> None:
    assert find_contradictions(invented_book(), SETTINGS) == ()


def test_every_contradiction_has_a_slip() -> None:
    slips = {name for name, *_ in (*figures.CASES, *paths.CASES, *rules.CASES)}
    assert slips | {"below_rule_set"} == set(CONTRADICTIONS)


def test_they_come_in_the_order_of_the_registry() -> None:
    book = part("winch", pull=(44e3, 45e3))(
        drum(flange=0.34)(part("falls_table", loads={2: 8.6e3, 3: 8e3})(invented_book()))
    )
    found = [one.name for one in find_contradictions(book, SETTINGS)]
    assert found == [name for name in CONTRADICTIONS if name in found]
    assert set(found) == {"rope_does_not_fit", "table_falls_with_falls", "pull_rises_with_layer", "drum_sizes"}


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
    for named in (None, "ASME B30.5-2018"):
        assert find_contradictions(bare, replace(SETTINGS, rules=named)) == ()
