"""Falls table, fleet angles, deductions, permitted positions and charts of a crane book.

In:    nodes.
Out:   records in SI.
Never: what other parts of the book say, reading between figures.
"""

from __future__ import annotations

from typing import Any

from becket.book.charts import Chart, ChartCounts, ChartRow, FallsTable, Fleet, Position, Stowed
from becket.intake.fields import choice, list_of, map_of, none_or, record, whole, yes_no
from becket.intake.measures import (
    ANGLE,
    CODE_AND_LENGTH,
    LENGTH,
    LIMIT_ANGLE,
    MASS,
    MASS_OR_NOUGHT,
    SECTOR,
    SECTORS,
    SPEED,
    TEXT,
    sections_of,
)

COUNTED = ("load", "rigging", "block", "rope", "stowed")


def _falls_table(values: dict[str, Any]) -> FallsTable:
    return FallsTable(printed=True, **{**values, "loads": values["loads"] or {}})


def _counts(values: dict[str, Any]) -> ChartCounts:
    """What a chart does not leave out, it counts: the heavier load."""
    return ChartCounts(
        rigging=values["rigging"] is not False,
        block=values["block"] is not False,
        rope=values["rope"] or "yes",
        stowed=values["stowed"] is not False,
    )


def _chart(values: dict[str, Any]) -> Chart:
    rows = tuple(
        ChartRow(code=code, sections=sections_of(code), length=length, rated=rated)
        for (code, length), rated in (values["rows"] or {}).items()
    )
    return Chart(**{**values, "rows": rows})


def _stowed(values: dict[str, Any]) -> Stowed:
    return Stowed(name=values["name"], deduct=values["deduct"] or {})


FALLS_TABLE = none_or(
    record(
        {
            "counts": list_of(choice(*COUNTED), "a list of what the figure includes, as [load, rigging, block]"),
            "layer": whole(1),
            "page": TEXT,
            "loads": map_of(whole(1), MASS, "falls: mass, as {1: 5.1 t, 2: 10.2 t}", 1),
        },
        ["loads"],
        "{counts: [load], layer: number, page: text, loads: {falls: mass}}",
        _falls_table,
    ),
    FallsTable(printed=False, counts=None, layer=None, page=None, loads={}),
)
FLEET = record(
    {"sheave": LIMIT_ANGLE, "drum": LIMIT_ANGLE, "source": TEXT},
    [],
    "{sheave: angle, drum: angle, source: text}",
    lambda values: Fleet(sheave=values["sheave"], drum=values["drum"]),
)
NO_FLEET = Fleet(sheave=None, drum=None)
STOWED = list_of(
    record(
        {"name": TEXT, "deduct": map_of(LENGTH, MASS_OR_NOUGHT, "boom length: mass, as {10.6 m: 120 kg}")},
        ["name"],
        "{name: text, deduct: {boom length: mass}}",
        _stowed,
    ),
    "[] where nothing hangs there, or a list of {name: text, deduct: {boom length: mass}}",
)
REREEVE = list_of(
    record(
        {
            "counterweight": MASS_OR_NOUGHT,
            "outriggers": TEXT,
            "sector": SECTOR,
            "length": LENGTH,
            "lowest": ANGLE,
            "highest": ANGLE,
            "rated": MASS,
            "wind": SPEED,
            "page": TEXT,
        },
        ["counterweight", "outriggers", "sector", "length", "lowest", "highest"],
        "{counterweight: mass, outriggers: text, sector: side, length: length, lowest: angle, highest: angle, ...}",
        lambda values: Position(**values),
    ),
    "a list of positions, each {counterweight: mass, outriggers: text, sector: side, length: length, ...}",
)
CHARTS = list_of(
    record(
        {
            "name": TEXT,
            "counterweight": MASS_OR_NOUGHT,
            "outriggers": TEXT,
            "sector": choice(*SECTORS, "all round"),
            "page": TEXT,
            "counts": record(
                {
                    "rigging": yes_no(),
                    "block": yes_no(),
                    "rope": choice("yes", "no", "falls beyond need"),
                    "stowed": yes_no(),
                },
                [],
                "{rigging: yes, block: yes, rope: yes, stowed: yes}",
                _counts,
            ),
            "rows": map_of(
                CODE_AND_LENGTH,
                map_of(LENGTH, MASS, "radius: rated load, as {4 m: 31 t, 6 m: 22.5 t}", 1),
                "code and boom length: {radius: rated load}, at least one row",
                1,
            ),
        },
        ["name", "rows"],
        "{name: text, counterweight: mass, outriggers: text, rows: {code and length: {radius: rated load}}}",
        _chart,
    ),
    "a list of charts, each {name: text, rows: {code and length: {radius: rated load}}, ...}",
)
