"""The job sheet: the lifts ahead of one crane.

In:    SI figures; moments of the site's own clock.
Out:   frozen records; a figure that is not given is None.
Never: files, units, computing.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, time

from becket.book.tackle import State


@dataclass(frozen=True, kw_only=True)
class Lift:
    """One entry of ``lifts``: a lift done ``count`` times. Also what ``becket falls`` asks about."""

    name: str
    count: int = 1
    load: float | None  # [kg]
    load_basis: str | None  # "weighed", "drawing", "estimate"
    rigging: float | None  # [kg]
    chart: str | None
    boom: float | None  # boom length [m]
    radius: tuple[float, float] | None  # least, greatest [m]
    top: float | None  # highest hook saddle above the ground at the crane [m]
    bottom: float | None  # lowest [m]
    handling: float | None  # time for one lift besides hoisting [s]
    sector: str | None = None
    code: str | None = None  # telescoping code, where two give the boom length
    kind: str | None = None  # "persons", "two cranes", ...: another rule book
    counterweight: float | None = None  # of its job [kg]
    outriggers: str | None = None  # of its job


@dataclass(frozen=True, kw_only=True)
class Job:
    """One booking."""

    name: str
    site: str | None
    start: datetime | None  # from
    end: datetime | None  # to
    leave_by: datetime | None
    counterweight: float | None  # [kg]
    outriggers: str | None
    people: int | None
    free_radius: float | None  # [m]
    lines_near: bool | None
    lifts: tuple[Lift, ...]


@dataclass(frozen=True, kw_only=True)
class Rates:
    """What an hour costs."""

    currency: str
    customer: float | None  # [1/s]
    own: float | None  # [1/s]
    overtime: float | None  # [1/s]
    billing_step: float | None  # [s]
    minimum: float | None  # [s]


@dataclass(frozen=True, kw_only=True)
class Yard:
    """The firm's own yard."""

    free_radius: float | None  # [m]
    setup: float | None  # setting up and packing up together [s]
    people: int | None


@dataclass(frozen=True, kw_only=True)
class JobSheet:
    """The coming jobs of one crane, in time order as given."""

    crane: str
    rigged: State | None
    rates: Rates
    yard: Yard | None
    daylight: tuple[time, time] | None
    carried: Mapping[str, str]  # block -> "crane", "lorry", "yard"
    jobs: tuple[Job, ...]
    fingerprint: str
