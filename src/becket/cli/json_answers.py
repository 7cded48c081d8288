"""The JSON object of each command: the keys that other programs rely on.

In:    answers as records.
Out:   plain objects of text, numbers, lists and null; SI numbers.
Never: computing, rounding, keys that the schema does not name.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from datetime import date, datetime, time
from enum import Enum

from becket.book.tackle import Pass, State

FALLS = ("recommended", "unproven", "rows")
ROW = (
    "falls",
    "verdict",
    "governs",
    "hook_speed",
    "lead_line_pull",
    "dead_end_pull",
    "layer",
    "rope_needed",
    "wraps_left",
    "limits",
)
LIMIT = ("name", "verdict", "use", "have", "need", "unit", "where", "why")
LIMITS = ("state", "verdict", "greatest_load", "load_governs", "lowest_hook", "hook_governs", "limits")
FAULT = ("file", "line", "column", "field", "found", "wanted")
FINDING = ("name", "why", "places")
PLACE = ("file", "line", "column", "field")
CONFIRM = ("state", "sealed", "seal", "difference")


def plain(value: object) -> object:
    """Return a record, or anything in it, as JSON knows it [-].

    >>> plain(State(block="main", falls=4)), plain((Pass(place="head", sheave=3), float("inf")))
    ('main:4', ['head 3', None])
    """
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, float):
        return value if math.isfinite(value) else None
    if value is None or isinstance(value, str | int):
        return value
    if isinstance(value, State | Pass):
        return str(value)
    if isinstance(value, datetime | date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        return {str(key): plain(entry) for key, entry in value.items()}
    if isinstance(value, list | tuple):
        return [plain(entry) for entry in value]
    if is_dataclass(value):
        return {field.name: plain(getattr(value, field.name)) for field in fields(value)}
    raise TypeError(f"no JSON for {type(value).__name__}")


def keyed(record: object, keys: tuple[str, ...]) -> dict[str, object]:
    """Return the named fields of a record, in that order [-].

    Args:
        record: an answer or a part of one
        keys: names of its fields
    """
    return {key: plain(getattr(record, key)) for key in keys}


def limit_json(limit: object) -> dict[str, object]:
    """Return one limit [-]."""
    return keyed(limit, LIMIT)


def falls_json(answer: object) -> dict[str, object]:
    """Return the answer of ``becket falls`` [-]."""
    rows = [
        keyed(row, ROW[:-1]) | {"limits": [limit_json(limit) for limit in row.limits]}
        for row in getattr(answer, "rows", ())
    ]
    return keyed(answer, FALLS[:-1]) | {"rows": rows}


def limits_json(answer: object) -> dict[str, object]:
    """Return the answer of ``becket limits`` [-]."""
    limits = [limit_json(limit) for limit in getattr(answer, "limits", ())]
    return keyed(answer, LIMITS[:-1]) | {"limits": limits}


def check_json(report: object) -> dict[str, object]:
    """Return the answer of ``becket check`` [-]."""
    faults = [keyed(fault, FAULT) for fault in getattr(report, "faults", ())]
    findings = [
        keyed(finding, FINDING[:-1]) | {"places": [keyed(place, PLACE) for place in finding.places]}
        for finding in getattr(report, "findings", ())
    ]
    return keyed(report, ("verdict",)) | {"faults": faults, "findings": findings}


def confirm_json(confirmation: object) -> dict[str, object]:
    """Return the answer of ``becket confirm`` [-]."""
    return keyed(confirmation, CONFIRM)
