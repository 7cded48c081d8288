"""The boom and its head, as the manual prints them.

In:    SI figures: metre, kilogram, radian.
Out:   frozen records; a figure that is not on file is None.
Never: files, units, computing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class BoomLength:
    """One length that the operator can dial."""

    length: float  # foot pin to head shaft along the axis [m]
    code: str  # how far each section is out, percent, inner section first
    sections: tuple[float, ...]  # the same as numbers [%]


@dataclass(frozen=True, kw_only=True)
class Boom:
    """The main boom. x is forward of the slewing axis, z above level ground [m]."""

    foot_x: float  # [m]
    foot_z: float  # [m]
    lengths: tuple[BoomLength, ...]  # as printed
    head_drop: float  # head shaft below the axis, square to it [m]
    sag: Mapping[float, float] | None  # boom length -> how much lower the head of the level boom hangs [m]
    lowest: Mapping[str, float]  # sector -> mechanical lowest angle [rad]
    highest: float  # [rad]


@dataclass(frozen=True, kw_only=True)
class Anchor:
    """A place for the dead end, from the shaft of its head or block."""

    side: float  # sideways from the middle [m]
    along: float | None  # forward of the shaft is + [m]
    below: float | None  # under the head shaft; of a block becket: minus ``above`` [m]


@dataclass(frozen=True, kw_only=True)
class Head:
    """The boom head."""

    sheave_diameter: float  # pitch diameter [m]
    rope_diameter: float | None  # the groove was made for [m]
    sheaves: Mapping[int, float]  # number -> sideways offset [m]
    numbered: str | None
    lead: str | None  # "over", "under"; None: not on file
    anchors: Mapping[str, Anchor]
