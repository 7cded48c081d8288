"""Blocks, switch, indicator, override, keepers, patterns: records, and what is refused."""

from __future__ import annotations

import pytest

from becket.book.tackle import Block, Confirmed, Indicator, Keeper, Override, Pass, Pattern, Switch, Typed
from becket.intake.tackle import (
    BLOCK,
    BLOCKS,
    INDICATOR,
    KEEPERS,
    NO_SWITCH,
    OVERRIDE,
    PATTERNS,
    SWITCH,
    blocks_of,
)
from tests.intake.reading import value_of

PATTERN = "block: hook, falls: 2, path: head 2 block 1, dead_end: head right"


def test_the_least_block_has_no_figure_that_was_not_written() -> None:
    values, faults = value_of(BLOCKS, "ball: {sheaves: {}}")
    assert faults == []
    block = blocks_of(values)["ball"]
    assert isinstance(block, Block)
    assert (block.name, block.sheaves) == ("ball", {})
    assert all(getattr(block, name) is None for name in Block.__dataclass_fields__ if name not in ("name", "sheaves"))


def test_no_blocks_give_no_blocks() -> None:
    assert blocks_of(None) == {}
    assert value_of(BLOCKS, "{}")[1] == ["f: nothing stands in it; name: {rated: mass, ...}, at least one"]
    assert value_of(BLOCK, "{mass: 240 kg}")[1] == [
        "f.sheaves: is missing; sheave number: offset sideways, as {1: -0.12 m, 2: 0.12 m}"
    ]


def test_a_mass_centre_may_lie_over_the_shaft_and_a_block_clear_of_nothing() -> None:
    block, faults = value_of(BLOCK, "{sheaves: {}, mass_centre: -0.1 m, clear: 0 m}")
    assert faults == []
    assert (block["mass_centre"], block["clear"]) == (-0.1, 0.0)


def test_a_switch_of_which_nothing_is_known_is_that_of_a_book_without_one() -> None:
    assert value_of(SWITCH, "{}") == (NO_SWITCH, [])
    assert value_of(SWITCH, "{stops: [], weight_on: {odd: last fall}}")[0] == Switch(
        trips=None, margin=None, stops=(), weight_on_even=None, weight_on_odd="last fall", weight_source=None
    )
    assert value_of(SWITCH, "{trips: 0 m}")[1] == ["f.trips: 0 m is out of range; a length in m, mm, ft or in, over 0"]


def test_an_indicator_asks_what_the_manual_says() -> None:
    assert value_of(INDICATOR, "{asks: [falls, block], page: 7-1}")[0] == Indicator(asks=("falls", "block"), page="7-1")
    assert value_of(INDICATOR, "{}")[0] == Indicator(asks=(), page=None)


def test_an_override_is_for_one_motion() -> None:
    assert value_of(OVERRIDE, "[{stops: derrick down}]")[0] == (Override(stops="derrick down", when=(), page=None),)
    assert value_of(OVERRIDE, "[{when: [block set down]}]")[1][0].startswith("f[0].stops: is missing; one of hoist, ")
    assert value_of(OVERRIDE, "[{stops: derrick}]")[1] == ['f[0].stops: derrick; did you mean "derrick up"?']


@pytest.mark.parametrize(
    ("at", "place", "block"),
    [("head", "head", None), ("dead end", "dead end", None), ("block main hook", "block", "main hook")],
)
def test_where_a_keeper_is(at: str, place: str, block: str | None) -> None:
    assert value_of(KEEPERS, f"[{{name: pin, at: {at}, draw: tight}}]") == (
        (Keeper(name="pin", at=place, block=block, holds=(), draw="tight", lock=None),),
        [],
    )


@pytest.mark.parametrize("at", ["block", "'block '", "boom", "head 3", "deadend"])
def test_where_no_keeper_is(at: str) -> None:
    (fault,) = value_of(KEEPERS, f"[{{name: pin, at: {at}, draw: tight}}]")[1]
    assert fault == f"f[0].at: {at.strip(chr(39))}; head, dead end, or block and its name"


def test_whether_a_keeper_is_drawn_tight_or_slack_is_never_guessed() -> None:
    assert value_of(KEEPERS, "[{name: pin, at: head}]")[1] == ["f[0].draw: is missing; one of tight, slack"]


def test_the_least_pattern() -> None:
    path = (Pass(place="head", sheave=2), Pass(place="block", sheave=1))
    assert value_of(PATTERNS, f"[{{{PATTERN}}}]") == (
        (
            Pattern(
                block="hook",
                falls=2,
                path=path,
                dead_end="head right",
                page=None,
                typed=None,
                confirmed=None,
                picture=None,
            ),
        ),
        [],
    )


def test_who_typed_and_who_confirmed() -> None:
    text = f"[{{{PATTERN}, typed: {{by: AB, date: 2025-01-05}}, confirmed: {{by: CD, date: 2025-01-06}}}}]"
    (pattern,), faults = value_of(PATTERNS, text)
    assert faults == []
    assert pattern.typed == Typed(by="AB", date="2025-01-05")
    assert pattern.confirmed == Confirmed(by="CD", date="2025-01-06", seal=None)  # without its seal: not confirmed


@pytest.mark.parametrize("key", ["block", "falls", "path", "dead_end"])
def test_no_part_of_a_pattern_is_filled_in(key: str) -> None:
    text = ", ".join(part for part in PATTERN.split(", ") if not part.startswith(f"{key}:"))
    (fault,) = value_of(PATTERNS, f"[{{{text}}}]")[1]
    assert fault.startswith(f"f[0].{key}: is missing; ")


@pytest.mark.parametrize("picture", ["6-3.png", "pages/6-3.png", "pages/6..3.png", "Seite 6.png"])
def test_a_picture_in_the_folder_of_the_book(picture: str) -> None:
    (pattern,), faults = value_of(PATTERNS, f"[{{{PATTERN}, picture: {picture}}}]")
    assert (pattern.picture, faults) == (picture, [])


@pytest.mark.parametrize(
    "picture",
    [
        "/etc/passwd",
        "../6-3.png",
        "pages/../../6-3.png",
        "pages\\..\\..\\6.png",
        "C:\\6.png",
        "C:6.png",
        "\\\\host\\6.png",
    ],
)
def test_a_picture_elsewhere(picture: str) -> None:
    (fault,) = value_of(PATTERNS, f"[{{{PATTERN}, picture: '{picture}'}}]")[1]
    assert fault == f"f[0].picture: {picture}; a file in the book's folder, as pages/6-14.png"


def test_a_picture_without_a_name() -> None:
    assert value_of(PATTERNS, f"[{{{PATTERN}, picture: ''}}]")[1] == [
        'f[0].picture: ""; a file in the book\'s folder, as pages/6-14.png'
    ]
