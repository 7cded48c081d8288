"""Blocks, switch, indicator, override, keepers and patterns of a crane book.

In:    nodes.
Out:   records in SI.
Never: what other parts of the book say, proposing a pattern.
"""

from __future__ import annotations

from pathlib import PurePosixPath, PureWindowsPath
from typing import Any

from becket.book.tackle import Block, Confirmed, Indicator, Keeper, Override, Pattern, Switch, Typed
from becket.errors import UnreadableTextError
from becket.intake.boom import BECKET, SHEAVES
from becket.intake.fields import choice, day, list_of, map_of, record, whole, word, yes_no
from becket.intake.measures import LENGTH, LENGTH_OR_NOUGHT, MASS, MOTION, PLACE, TEXT
from becket.reeving.words import read_dead_end, read_path
from becket.units import shortened


def _switch(values: dict[str, Any]) -> Switch:
    weight = values["weight_on"] or {"even": None, "odd": None, "source": None}
    return Switch(
        trips=values["trips"],
        margin=values["margin"],
        stops=values["stops"] or (),
        weight_on_even=weight["even"],
        weight_on_odd=weight["odd"],
        weight_source=weight["source"],
    )


def _indicator(values: dict[str, Any]) -> Indicator:
    return Indicator(asks=values["asks"] or (), page=values["page"])


def _override(values: dict[str, Any]) -> Override:
    return Override(stops=values["stops"], when=values["when"] or (), page=values["page"])


def _keeper(values: dict[str, Any]) -> Keeper:
    at: Any = values["at"] or (None, None)
    place, block = at
    return Keeper(
        name=values["name"],
        at=place,
        block=block,
        holds=values["holds"] or (),
        draw=values["draw"],
        lock=values["lock"],
    )


def _place_of_keeper(found: str) -> tuple[str, str | None]:
    if found in ("head", "dead end"):
        return found, None
    place, _, block = found.partition(" ")
    if place != "block" or not block.strip():
        raise UnreadableTextError(shortened(found), "head, dead end, or block and its name")
    return "block", block.strip()


def _picture(found: str) -> str:
    inside = found and not PurePosixPath(found).is_absolute() and not PureWindowsPath(found).anchor
    if not inside or ".." in PurePosixPath(found.replace("\\", "/")).parts or not found.isprintable():
        raise UnreadableTextError(shortened(found) or '""', "a file in the book's folder, as pages/6-14.png")
    return found


BLOCK = record(
    {
        "rated": MASS,
        "mass": MASS,
        "rope_diameter": LENGTH,
        "sheaves": SHEAVES,
        "sheave_diameter": LENGTH,
        "becket": BECKET,
        "hook": LENGTH,
        "touches": LENGTH,
        "stands": LENGTH,
        "clear": LENGTH_OR_NOUGHT,
        "mass_centre": PLACE,
        "swivel": yes_no(),
    },
    ["sheaves"],
    "the block's keys with their values",
)
BLOCKS = map_of(TEXT, BLOCK, "name: {rated: mass, ...}, at least one", 1, named=True)
SWITCH = record(
    {
        "trips": LENGTH,
        "margin": LENGTH_OR_NOUGHT,
        "margin_source": TEXT,
        "stops": list_of(MOTION, "a list of motions, as [hoist, telescope out]"),
        "weight_on": record({"even": TEXT, "odd": TEXT, "source": TEXT}, [], "{even: line, odd: line, source: text}"),
    },
    [],
    "the switch's keys with their values",
    _switch,
)
NO_SWITCH = Switch(trips=None, margin=None, stops=(), weight_on_even=None, weight_on_odd=None, weight_source=None)
INDICATOR = record(
    {"asks": list_of(TEXT, "a list of what it asks, as [falls, block]"), "page": TEXT},
    [],
    "{asks: [falls, block], page: text}",
    _indicator,
)
OVERRIDE = list_of(
    record(
        {"stops": MOTION, "when": list_of(TEXT, "a list of states, as [block set down]"), "page": TEXT},
        ["stops"],
        "{stops: motion, when: [states], page: text}",
        _override,
    ),
    "a list of {stops: motion, when: [states], page: text}",
)
KEEPERS = list_of(
    record(
        {
            "name": TEXT,
            "at": word(_place_of_keeper, "head, dead end, or block and its name"),
            "holds": list_of(whole(1), "a list of sheave numbers"),
            "draw": choice("tight", "slack"),
            "lock": TEXT,
        },
        ["name", "at", "draw"],
        "{name: text, at: place, holds: [sheaves], draw: tight or slack, lock: text}",
        _keeper,
    ),
    "a list of {name: text, at: place, holds: [sheaves], draw: tight or slack, lock: text}",
)
PATTERNS = list_of(
    record(
        {
            "block": TEXT,
            "falls": whole(1),
            "path": word(read_path, "the path from the drum outward, as head 3 block 3"),
            "dead_end": word(read_dead_end, "block, or head and the anchor's name"),
            "page": TEXT,
            "typed": record(
                {"by": TEXT, "date": day()}, ["by", "date"], "{by: name, date: day}", lambda values: Typed(**values)
            ),
            "confirmed": record(
                {"by": TEXT, "date": day(), "seal": TEXT},
                ["by", "date"],
                "{by: name, date: day, seal: as becket confirm writes it}",
                lambda values: Confirmed(**values),
            ),
            "picture": word(_picture, "a file in the book's folder"),
        },
        ["block", "falls", "path", "dead_end"],
        "{block: name, falls: number, path: words, dead_end: place, page: text, typed: {by, date}}",
        lambda values: Pattern(**{**values, "path": values["path"] or ()}),
    ),
    "a list of patterns, each {block: name, falls: number, path: words, ...}",
)


def blocks_of(values: dict[str, dict[str, Any]] | None) -> dict[str, Block]:
    """Return the blocks by name [-]."""
    return {name: Block(name=name, **block) for name, block in (values or {}).items()}
