"""The winch, the rope and the fitting on its end, as the manual and the certificates print them.

In:    SI figures: metre, kilogram, newton, second.
Out:   frozen records; a figure that is not on file is None.
Never: files, units, computing.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Drum:
    """The bare drum."""

    diameter: float  # [m]
    width: float  # between the flanges [m]
    flange: float | None  # flange diameter [m]
    grooved: bool | None
    pitch: float | None  # between turns side by side [m]


@dataclass(frozen=True, kw_only=True)
class Winch:
    """The main hoist. ``pull`` and ``speed`` by layer, layer 1 first; one entry: the book has layer 1 only."""

    name: str
    at_x: float | None  # drum shaft [m]
    at_z: float | None  # [m]
    lead_run: float | None  # drum to boom foot, where ``at`` is not on file [m]
    winds: str | None  # "over", "under"
    drum: Drum
    least_wraps: int | None
    pull: tuple[float, ...]  # [N]
    speed: tuple[float, ...]  # [m/s]
    guide_sheaves: int | None
    drag: float | None  # pull at the drum that turns it, empty [N]


@dataclass(frozen=True, kw_only=True)
class SecondLine:
    """What hangs on the other winch's rope; ``mass`` 0 and ``hangs`` None: the book says none."""

    hangs: str | None
    mass: float  # [kg]


@dataclass(frozen=True, kw_only=True)
class Rope:
    """The hoist rope as it is now."""

    construction: str | None
    type: str | None  # "I", "II", "III" of 29 CFR 1926.1414(e)(1)
    diameter: float  # nominal [m]
    length: float | None  # now, cuts taken off [m]
    length_source: str | None  # with its date
    mass: float | None  # [kg/m]
    breaking_force: float | None  # nominal [N]
    grade: float | None  # nominal wire grade, N/mm2 as printed [MPa]
    rotation_resistant: bool | None
    swivel: bool | None  # may run on a block or ball with a swivel
    torque_factor: float | None  # [-]
    design_factor: float | None  # [-]
    spooling_tension: float | None  # share of the breaking force [-]
    installed: str | None  # date
    found_worn: str | None = None  # date on which wear or damage was found that nobody has judged harmless since
    seen_turning: str | None = None  # date on which the falls were seen turning, the turns not taken out since


@dataclass(frozen=True, kw_only=True)
class DeadEnd:
    """The fitting on the rope's end."""

    fitting: str | None
    rope_diameter: float | None  # made for [m]
    efficiency: float | None  # [-]
    tail: float | None  # [m]
    goes_through_sheaves: bool | None
