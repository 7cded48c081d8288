"""Boom and head of a crane book.

In:    nodes.
Out:   records in SI.
Never: what other parts of the book say.
"""

from __future__ import annotations

from typing import Any

from becket.book.boom import Anchor, Boom, BoomLength, Head
from becket.intake.fields import choice, list_of, map_of, record, whole
from becket.intake.measures import ANGLE, CODE, LENGTH, LENGTH_OR_NOUGHT, LIMIT_ANGLE, PLACE, SECTOR, TEXT, sections_of


def _boom_length(values: dict[str, Any]) -> BoomLength:
    code = values["code"]
    return BoomLength(length=values["length"], code=code, sections=sections_of(code) if code is not None else ())


def _boom(values: dict[str, Any]) -> Boom:
    foot = values["foot"] or {"x": None, "z": None}
    return Boom(
        foot_x=foot["x"],
        foot_z=foot["z"],
        lengths=values["lengths"] or (),
        head_drop=values["head_drop"],
        sag=values["sag"],
        lowest=values["lowest"] or {},
        highest=values["highest"],
    )


def _head(values: dict[str, Any]) -> Head:
    return Head(
        sheave_diameter=values["sheave_diameter"],
        rope_diameter=values["rope_diameter"],
        sheaves=values["sheaves"],
        numbered=values["numbered"],
        lead=values["lead"],
        anchors=values["anchors"] or {},
    )


def _becket(values: dict[str, Any]) -> Anchor:
    above = values["above"]
    return Anchor(side=values["side"], along=values["along"], below=None if above is None else 0.0 - above)


SHEAVES = map_of(whole(1), PLACE, "sheave number: offset sideways, as {1: -0.12 m, 2: 0.12 m}", named=True)
ANCHOR = record(
    {"side": PLACE, "along": PLACE, "below": PLACE},
    ["side"],
    "{side: length, along: length, below: length}",
    lambda values: Anchor(**values),
)
BECKET = record(
    {"side": PLACE, "along": PLACE, "above": PLACE},
    ["side"],
    "{side: length, along: length, above: length}",
    _becket,
)
BOOM = record(
    {
        "foot": record({"x": PLACE, "z": PLACE}, ["x", "z"], "{x: length, z: length}"),
        "lengths": list_of(
            record({"length": LENGTH, "code": CODE}, ["length", "code"], "{length: length, code: code}", _boom_length),
            "a list of {length: length, code: code}, at least one",
            1,
        ),
        "head_drop": PLACE,
        "sag": map_of(LENGTH, LENGTH_OR_NOUGHT, "boom length: sag, as {10.6 m: 0.01 m}"),
        "sag_source": TEXT,
        "lowest": map_of(SECTOR, ANGLE, "sector: angle, as {side: 1.5 deg}", named=True),
        "highest": LIMIT_ANGLE,
    },
    ["foot", "lengths", "head_drop", "highest"],
    "the boom's keys with their values",
    _boom,
)
HEAD = record(
    {
        "sheave_diameter": LENGTH,
        "rope_diameter": LENGTH,
        "sheaves": map_of(whole(1), PLACE, SHEAVES.wanted, 1, named=True),
        "numbered": TEXT,
        "lead": choice("over", "under"),
        "anchors": map_of(TEXT, ANCHOR, "name: {side: length, along: length, below: length}", named=True),
    },
    ["sheave_diameter", "sheaves"],
    "the head's keys with their values",
    _head,
)
