"""Figures in the units that were asked for.

In:    SI floats, or None where a figure is not on file.
Out:   short text; ``?`` for what is not known; what is asked for rounds up, what is there rounds down.
Never: computing beyond rounding.
"""

from __future__ import annotations

import re
from math import ceil

from becket.units import show_quantity

KIND_OF_UNIT = {"m": "length", "kg": "mass", "N": "force", "m/s": "speed", "rad": "angle", "s": "time"}
UNKNOWN = "?"
ZERO_LENGTH = {"metric": "0 m", "us": "0 ft"}


def shown(value: float | None, kind: str, system: str, toward: str = "nearest") -> str:
    """Return a quantity with its unit [-].

    Args:
        value: in SI; None is not known
        kind: "length", "mass", "force", "speed", "angle", "time" [-]
        system: "metric" or "us" [-]
        toward: "nearest", "up" or "down" [-]
    """
    if value is None:
        return UNKNOWN
    if value == 0 and kind == "length":
        return ZERO_LENGTH[system]
    return show_quantity(value, kind, system=system, toward=toward)


def shown_in(value: float | None, unit: str, system: str, toward: str) -> str:
    """Return a quantity whose SI unit is named, or a plain number with two places [-].

    Args:
        value: in that unit; None is not known
        unit: "m", "kg", "N", "m/s", "rad", "s"; any other is a plain number [-]
        system: "metric" or "us" [-]
        toward: "nearest", "up" or "down" [-]
    """
    if value is None:
        return UNKNOWN
    if unit in KIND_OF_UNIT:
        return shown(value, KIND_OF_UNIT[unit], system, toward)
    step = {"up": 0.0049999, "down": -0.0049999}.get(toward, 0.0)
    return f"{value + step:.2f}".removesuffix(".00")


METRIC = re.compile(r"(?<![\w.,-])-?\d[\d ]*(?:\.\d+)? (kN|kg|t|m/min|m|cm|mm)(?![\w/^])")
METRIC_UNITS = {
    "kN": ("force", 1000.0),
    "kg": ("mass", 1.0),
    "t": ("mass", 1000.0),
    "m/min": ("speed", 1 / 60),
    "m": ("length", 1.0),
    "cm": ("length", 0.01),
    "mm": ("length", 0.001),
}


def said(sentence: str, system: str) -> str:
    """Return a sentence with US figures beside its metric ones where those were asked for [-].

    The metric figure stays: it is the one that was rounded toward safety.

    Args:
        sentence: as the core says it, metric
        system: "metric" or "us" [-]

    >>> said("The lead line pulls 96.8 kN at the drum.", "us")
    'The lead line pulls 96.8 kN (21 762 lbf) at the drum.'
    """
    if system == "metric":
        return sentence
    return METRIC.sub(lambda found: f"{found[0]} ({_customary(found[0], found[1])})", sentence)


def _customary(text: str, unit: str) -> str:
    kind, size = METRIC_UNITS[unit]
    return shown(float(text.removesuffix(unit).replace(" ", "")) * size, kind, "us")


def percent(use: float | None) -> str:
    """Return a use in whole percent, rounded up; 100 is at the limit [-].

    >>> percent(0.7801), percent(1.0), percent(1.0001), percent(None)
    ('79 %', '100 %', '101 %', '')
    """
    return "" if use is None else f"{ceil(100 * use - 1e-9)} %"


def whole_minutes(seconds: float | None) -> str:
    """Return a time in whole minutes, rounded up [-].

    >>> whole_minutes(3000.0)
    '50 min'
    """
    return UNKNOWN if seconds is None else f"{ceil(seconds / 60 - 1e-6)} min"


def joined_range(least: float | None, greatest: float | None, kind: str, system: str) -> str:
    """Return two quantities with "to" between them, one where they are the same [-].

    Args:
        least: in SI; None is not known
        greatest: in SI; None is not known
        kind: as for ``shown`` [-]
        system: "metric" or "us" [-]
    """
    low, high = shown(least, kind, system), shown(greatest, kind, system)
    return low if low == high else f"{low} to {high}"


def window(least: float, greatest: float, kind: str, system: str) -> str:
    """Return a window to stay in, rounded inward [-].

    Args:
        least: in SI
        greatest: in SI
        kind: as for ``shown`` [-]
        system: "metric" or "us" [-]
    """
    return f"{shown(least, kind, system, 'up')} to {shown(greatest, kind, system, 'down')}"
