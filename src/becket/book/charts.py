"""Load charts, the maker's falls table, permitted positions, what hangs on the boom.

In:    SI figures.
Out:   frozen records; a figure that is not on file is None.
Never: files, units, reading between figures.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class FallsTable:
    """The maker's falls table. ``loads`` empty with ``printed`` False: the manual prints none."""

    printed: bool
    counts: tuple[str, ...] | None  # of "load", "rigging", "block", "rope", "stowed"; None: not said
    layer: int | None
    page: str | None
    loads: Mapping[int, float]  # falls -> permitted mass [kg]


@dataclass(frozen=True, kw_only=True)
class Fleet:
    """Fleet angle limits."""

    sheave: float | None  # [rad]
    drum: float | None  # [rad]


@dataclass(frozen=True, kw_only=True)
class Stowed:
    """Something that hangs on the boom and is deducted from the chart."""

    name: str
    deduct: Mapping[float, float]  # boom length [m] -> mass [kg]


@dataclass(frozen=True, kw_only=True)
class Position:
    """One position in which the manual permits re-reeving, nothing but the empty block on the rope."""

    counterweight: float  # [kg]
    outriggers: str
    sector: str
    length: float  # [m]
    lowest: float  # [rad]
    highest: float  # [rad]
    rated: float | None  # [kg]
    wind: float | None  # [m/s]
    page: str | None


@dataclass(frozen=True, kw_only=True)
class ChartCounts:
    """What a chart counts as load."""

    rigging: bool
    block: bool
    rope: str  # "yes", "no" or "falls beyond need"
    stowed: bool


@dataclass(frozen=True, kw_only=True)
class ChartRow:
    """One boom length of a chart."""

    code: str
    sections: tuple[float, ...]  # [%]
    length: float  # [m]
    rated: Mapping[float, float]  # radius [m] -> mass [kg]


@dataclass(frozen=True, kw_only=True)
class Chart:
    """A load chart: the rows that were typed, for one configuration."""

    name: str
    counterweight: float | None  # [kg]
    outriggers: str | None
    sector: str | None  # "all round" holds for every sector
    page: str | None
    counts: ChartCounts | None
    rows: tuple[ChartRow, ...]
