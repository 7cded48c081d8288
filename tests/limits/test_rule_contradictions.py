"""Figures below the rule set named, and rope that does not fit on its drum: found and said in full."""

# ruff: noqa: E501 (messages stand here as they are)

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.limits.contradictions import find_contradictions
from tests.crane import invented_book
from tests.limits.slips import SETTINGS, Case, Slip, block, drum, found, part

ROOM = ("rope.length", "winch.drum.flange", "winch.drum.width")
CASES: list[Case] = [
    (
        "rope_does_not_fit",
        part("rope", length=260.0),
        ROOM,
        "260 m of rope; 5 layers of 28 turns under the flange hold 184.726 m, with 32 mm of flange over them (NSW dogging and rigging guide)",
    ),
    (
        "rope_does_not_fit",
        drum(flange=0.48),
        ROOM,
        "170 m of rope; 2 layers of 28 turns under the flange hold 65.446 m, with 32 mm of flange over them (NSW dogging and rigging guide)",
    ),
    (
        "rope_does_not_fit",
        drum(flange=0.38),
        ROOM,
        "170 m of rope; 0 layers of 28 turns under the flange hold 0 m, with 32 mm of flange over them (NSW dogging and rigging guide)",
    ),
]


@pytest.mark.parametrize(("name", "slip", "fields", "why"), CASES)
def test_one_slip_is_found_with_its_fields(name: str, slip: Slip, fields: tuple[str, ...], why: str) -> None:
    assert found(name, slip) == [(fields, why)]


def test_a_drum_narrower_than_its_rope_is_no_drum_to_count_on() -> None:
    assert found("rope_does_not_fit", drum(width=0.01)) == []


def test_freeboard_is_that_of_the_rule_set_named_else_the_greatest_published() -> None:
    """Flange 0.58 m, drum 0.34 m, rope 16 mm: 6 layers under 13 mm of flange, 5 under 32 mm (2 d, the greatest)."""
    book = part("rope", length=200.0)(invented_book())
    unnamed = find_contradictions(book, SETTINGS)
    assert [one.name for one in unnamed] == ["rope_does_not_fit"]
    assert "5 layers of 28 turns" in unnamed[0].why
    assert "32 mm of flange" in unnamed[0].why
    assert find_contradictions(book, replace(SETTINGS, rules="ASME B30.5-2018")) == ()


BELOW: list[tuple[str, Slip, tuple[str, ...], str]] = [
    (
        "29 CFR 1926 Subpart CC",
        part("rope", design_factor=4.5),
        ("rope.design_factor",),
        "the design factor is 4.5; 29 CFR 1926 Subpart CC asks for 5 (29 CFR 1926.1414(e)(2)(iii))",
    ),
    (
        "DGUV Vorschrift 54",
        part("winch", least_wraps=1),
        ("winch.least_wraps",),
        "least wraps is 1; DGUV Vorschrift 54 asks for 2 (DGUV Vorschrift 54 s.35(2))",
    ),
    (
        "ASME B30.5-2018",
        drum(diameter=0.27),
        ("winch.drum.diameter", "rope.diameter"),
        "the drum in rope diameters is 17.875; ASME B30.5-2018 asks for 18 (ASME B30.5-2018)",
    ),
    (
        "ASME B30.5-2018",
        part("head", sheave_diameter=0.28),
        ("head.sheave_diameter", "rope.diameter"),
        "a head sheave in rope diameters is 17.5; ASME B30.5-2018 asks for 18 (ASME B30.5)",
    ),
    (
        "ASME B30.5-2018",
        block("main", sheave_diameter=0.25),
        ("blocks.main.sheave_diameter", "rope.diameter"),
        "a sheave of the block main in rope diameters is 15.625; ASME B30.5-2018 asks for 16 (ASME B30.5)",
    ),
]


@pytest.mark.parametrize(("rules", "slip", "fields", "why"), BELOW)
def test_a_figure_below_the_rule_set_named(rules: str, slip: Slip, fields: tuple[str, ...], why: str) -> None:
    book = slip(invented_book())
    named = find_contradictions(book, replace(SETTINGS, rules=rules))
    assert [(one.name, one.fields, one.why) for one in named] == [("below_rule_set", fields, why)]
    assert find_contradictions(book, SETTINGS) == ()  # no rule set is chosen for the crew


@pytest.mark.parametrize(
    "change",
    [
        drum(diameter=17 * 0.016),  # 18 rope diameters at the middle of the rope
        part("head", sheave_diameter=18 * 0.016),
        block("main", sheave_diameter=16 * 0.016),
        block("ball", sheave_diameter=0.05),  # a ball has no sheaves
    ],
)
def test_a_ratio_as_the_rule_set_asks_is_enough(change: Slip) -> None:
    assert find_contradictions(change(invented_book()), replace(SETTINGS, rules="ASME B30.5-2018")) == ()
