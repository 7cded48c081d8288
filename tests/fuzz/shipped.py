"""The settings as shipped, read here a second time from their table.

In:    ``settings.csv`` of the package.
Out:   one record in SI.
Never: the product's reader of settings.
"""

from __future__ import annotations

import csv
from functools import cache
from importlib.resources import files
from math import pi
from typing import Any

from becket.settings.values import Settings

IN_SI = {
    "%": 0.01,
    "-": 1.0,
    "m": 1.0,
    "mm": 0.001,
    "t": 1000.0,
    "min": 60.0,
    "deg": pi / 180,
    "m/min": 1 / 60,
    "deg/min": pi / 180 / 60,
    "byte": 1.0,
}


@cache
def shipped_settings() -> Settings:
    """Return every setting in SI [-]."""
    text = files("becket.settings").joinpath("settings.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    values: dict[str, Any] = {row["name"]: float(row["value"]) * IN_SI[row["unit"]] for row in rows}
    return Settings(**values)
