"""Winch, rope, dead end and second line of a crane book.

In:    nodes.
Out:   records in SI.
Never: what other parts of the book say.
"""

from __future__ import annotations

from typing import Any

from becket.book.hoist import DeadEnd, Drum, Rope, SecondLine, Winch
from becket.intake.fields import Bounds, choice, day, none_or, one_or_list, quantity, record, whole, yes_no
from becket.intake.measures import (
    EFFICIENCY,
    FACTOR,
    FORCE,
    FORCE_OR_NOUGHT,
    LENGTH,
    LENGTH_OR_NOUGHT,
    MASS_OR_NOUGHT,
    PLACE,
    ROPE_MASS,
    SHARE,
    SPEED,
    TEXT,
)


def _winch(values: dict[str, Any]) -> Winch:
    at = values.pop("at") or {"x": None, "z": None}
    values["name"] = values["name"] or "main"
    values["pull"] = values["pull"] or ()
    values["speed"] = values["speed"] or ()
    return Winch(at_x=at["x"], at_z=at["z"], **values)


def _second_line(values: dict[str, Any]) -> SecondLine:
    return SecondLine(hangs=values["hangs"], mass=values["mass"])


WINCH = record(
    {
        "name": TEXT,
        "at": record({"x": PLACE, "z": PLACE}, ["x", "z"], "{x: length, z: length}"),
        "lead_run": LENGTH_OR_NOUGHT,
        "winds": choice("over", "under"),
        "drum": record(
            {"diameter": LENGTH, "width": LENGTH, "flange": LENGTH, "grooved": yes_no(), "pitch": LENGTH},
            ["diameter", "width"],
            "{diameter: length, width: length, ...}",
            lambda values: Drum(**values),
        ),
        "least_wraps": whole(),
        "pull": one_or_list(FORCE, "a force by layer, layer 1 first, as [52 kN, 48 kN]"),
        "speed": one_or_list(SPEED, "a speed by layer, layer 1 first, as [95 m/min, 102 m/min]"),
        "guide_sheaves": whole(),
        "drag": FORCE_OR_NOUGHT,
    },
    ["drum"],
    "the winch's keys with their values",
    _winch,
)
SECOND_LINE = none_or(
    record({"hangs": TEXT, "mass": MASS_OR_NOUGHT}, ["hangs", "mass"], "{hangs: text, mass: mass}", _second_line),
    SecondLine(hangs=None, mass=0.0),
)
ROPE = record(
    {
        "construction": TEXT,
        "type": choice("I", "II", "III"),
        "diameter": LENGTH,
        "length": LENGTH,
        "mass": ROPE_MASS,
        "breaking_force": FORCE,
        "grade": quantity("ratio", Bounds(least=1000.0, most=3000.0), "from 1000 to 3000, as 1960"),
        "rotation_resistant": yes_no(),
        "swivel": yes_no(),
        "torque_factor": quantity("ratio", Bounds(least=0.0, most=1.0), "from 0 to 1"),
        "design_factor": FACTOR,
        "spooling_tension": SHARE,
        "installed": day(),
        "found_worn": day(),
        "seen_turning": day(),
    },
    ["diameter"],
    "the rope's keys with their values",
    lambda values: Rope(**values, length_source=None),
)
DEAD_END = record(
    {
        "fitting": TEXT,
        "rope_diameter": LENGTH,
        "efficiency": EFFICIENCY,
        "tail": LENGTH_OR_NOUGHT,
        "goes_through_sheaves": yes_no(),
    },
    [],
    "the dead end's keys with their values",
    lambda values: DeadEnd(**values),
)
NO_DEAD_END = DeadEnd(fitting=None, rope_diameter=None, efficiency=None, tail=None, goes_through_sheaves=None)
