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
from typing import TYPE_CHECKING

from becket.book.tackle import Pass, State

if TYPE_CHECKING:  # each command loads its own answer only
    from becket.intake.check import CheckReport
    from becket.intake.confirm import Confirmation
    from becket.limits.answer import FallsAnswer, Limit, RiggedAnswer
    from becket.method.change import Change
    from becket.reeving.pattern import PatternCheck

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
PATTERN = (
    "state",
    "verdict",
    "head_sheaves",
    "block_sheaves",
    "dead_end",
    "tilt",
    "hangs_turned",
    "crossings",
    "closest_distance",
    "twist_length",
    "confirmed",
    "findings",
)
POSITION = (
    "length",
    "code",
    "angle",
    "sector",
    "radius",
    "head_height",
    "head_window",
    "free_radius_needed",
    "counterweight",
    "outriggers",
    "page",
)
ROPE_TO_LEAVE = ("least", "most", "target", "at_angle", "least_because", "most_because")
SIMULATION = (
    "touches_angle",
    "weight_window",
    "span_at_low",
    "slack_at_low",
    "lead_change",
    "tight_angle",
    "lift_off_angle",
    "off_plumb",
    "least_head_clearance",
    "clear_over_block",
)
STEP = ("number", "who", "phase", "do", "look_for", "value_asked", "blind")
RULE = ("name", "verdict", "step")
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


def limit_json(limit: Limit) -> dict[str, object]:
    """Return one limit [-]."""
    return keyed(limit, LIMIT)


def falls_json(answer: FallsAnswer) -> dict[str, object]:
    """Return the answer of ``becket falls`` [-]."""
    rows = [keyed(row, ROW[:-1]) | {"limits": [limit_json(limit) for limit in row.limits]} for row in answer.rows]
    return keyed(answer, FALLS[:-1]) | {"rows": rows}


def limits_json(answer: RiggedAnswer) -> dict[str, object]:
    """Return the answer of ``becket limits`` [-]."""
    limits = [limit_json(limit) for limit in answer.limits]
    return keyed(answer, LIMITS[:-1]) | {"limits": limits}


def check_json(report: CheckReport) -> dict[str, object]:
    """Return the answer of ``becket check`` [-]."""
    faults = [keyed(fault, FAULT) for fault in report.faults]
    findings = [
        keyed(finding, FINDING[:-1]) | {"places": [keyed(place, PLACE) for place in finding.places]}
        for finding in report.findings
    ]
    return keyed(report, ("verdict",)) | {"faults": faults, "findings": findings}


def confirm_json(confirmation: Confirmation) -> dict[str, object]:
    """Return the answer of ``becket confirm`` [-]."""
    return keyed(confirmation, CONFIRM)


def pattern_json(check: PatternCheck) -> dict[str, object]:
    """Return the answer of ``becket pattern`` [-]."""
    return keyed(check, PATTERN)


def change_json(change: Change) -> dict[str, object]:
    """Return the answer of ``becket change``; ``minutes`` in minutes, the rest SI [-]."""
    return {
        "from": str(change.before),
        "to": str(change.after),
        **keyed(change, ("verdict", "keep", "draw_out", "thread", "keepers", "rope_pulled")),
        "minutes": change.minutes.total / 60 if change.minutes else None,
        "position": keyed(change.position, POSITION) if change.position else None,
        "why_no_position": change.why_no_position,
        "rope_to_leave": keyed(change.rope_to_leave, ROPE_TO_LEAVE) if change.rope_to_leave else None,
        "simulation": keyed(change.simulation, SIMULATION) if change.simulation else None,
        "steps": [keyed(step, STEP) for step in change.steps],
        "rules": [keyed(rule, RULE) for rule in change.rules],
    }
