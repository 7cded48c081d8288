"""The planning model: everything that the cheapest plan depends on, in minutes and money.

In:    jobs, lift groups with the states that can do them, changes with their places.
Out:   frozen records; the same as a JSON object and back, so that anybody can solve it again.
Never: searching, cranes, limits, units.

The numbers of a model are taken as they stand: a float is an exact binary fraction. Whoever builds a model
rounds minutes up to ``MINUTE_GRAIN``, so that sums of minutes are exact in floats as well.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from becket.errors import OutOfRangeError

MINUTE_GRAIN = 1 / 1024  # [min]; a power of two: sums of such minutes are exact


class Effort(NamedTuple):
    """What one change takes at one place."""

    minutes: float  # charged to the job of the place [min]
    cost: float  # besides the minutes: a change in the yard [money]


@dataclass(frozen=True, kw_only=True)
class ModelJob:
    """How one booking is charged."""

    job: str
    minimum: float  # the greater of minimum hire and booked minutes [min]
    step: float  # billing step [min]
    rate: float  # [money/min]
    booked: float  # [min]
    overtime: float  # our own cost of a minute over the booked ones [money/min]
    leave_by: float  # nobody may be there longer, from the start of the job [min]


@dataclass(frozen=True, kw_only=True)
class ModelGroup:
    """One entry of ``lifts`` that at least one state can do."""

    job: int  # index into the model's jobs
    states: Mapping[str, float]  # STATE -> lifting minutes [min]


@dataclass(frozen=True, kw_only=True)
class ChangePlace:
    """A place for a change before a group. ``options`` may be shared between places."""

    where: str  # "E" end of the job before, "I" between lifts, "S" start of this job, "Y" yard
    job: int | None  # the job whose minutes it takes; None: no job's
    latest: float | None  # the job's minutes, this change included, may not pass this [min]
    options: Mapping[tuple[str, str], Effort]  # (from, to) -> what it takes


@dataclass(frozen=True, kw_only=True)
class Model:
    """The whole problem. ``changes`` has one entry for each group: the places for a change before it."""

    start: str
    jobs: tuple[ModelJob, ...]
    groups: tuple[ModelGroup, ...]
    changes: tuple[tuple[ChangePlace, ...], ...]


def grain_up(minutes: float) -> float:
    """Return the minutes rounded up to the grain of the model [min].

    >>> grain_up(10.0001)
    10.0009765625
    """
    return math.ceil(minutes / MINUTE_GRAIN) * MINUTE_GRAIN


def check_model(model: Model) -> None:
    """Return nothing; a model that no order of work fits is refused.

    Raises:
        OutOfRangeError: a number or a reference that means nothing, with its place.
    """
    if len(model.changes) != len(model.groups):
        raise OutOfRangeError("model.changes", len(model.changes), f"one entry for each of {len(model.groups)} groups")
    for i, job in enumerate(model.jobs):
        _check_job(f"model.jobs[{i}]", job)
    job_before = -1
    checked: set[int] = set()  # tables: many places share one
    for g, group in enumerate(model.groups):
        if not job_before <= group.job < len(model.jobs) or group.job < 0:
            raise OutOfRangeError(f"model.groups[{g}].job", group.job, "a job of the model, in the order of the jobs")
        _check_least(f"model.groups[{g}].states", group.states.values())
        for place in model.changes[g]:
            _check_place(f"model.changes[{g}]", place, job_before, group.job)
            if id(place.options) not in checked:
                checked.add(id(place.options))
                _check_least(f"model.changes[{g}].{place.where}", (x for e in place.options.values() for x in e))
        job_before = group.job


def _check_job(field: str, job: ModelJob) -> None:
    figures = (job.minimum, job.rate, job.booked, job.overtime, job.leave_by)
    _check_least(field, figures)
    if not (math.isfinite(job.step) and job.step > 0):
        raise OutOfRangeError(f"{field}.step", job.step, "over 0")


def _check_least(field: str, figures: Iterable[float]) -> None:
    for figure in figures:
        if not (math.isfinite(figure) and figure >= 0):
            raise OutOfRangeError(field, figure, "0 or more")


def _check_place(field: str, place: ChangePlace, job_before: int, job: int) -> None:
    if place.job is not None and not max(job_before, 0) <= place.job <= job:
        raise OutOfRangeError(f"{field}.job", place.job, f"the job before, job {job}, or one between them")


def job_charge(job: ModelJob, minutes: float) -> float:
    """Return what a job of so many minutes costs, ours and the customer's together [money].

    Args:
        job: how it is charged
        minutes: lifting and changes [min]

    Source: docs/theory/planning.md, eq. 1.

    >>> job = ModelJob(job="A", minimum=240, step=15, rate=8, booked=240, overtime=2, leave_by=300)
    >>> job_charge(job, 100), job_charge(job, 241)
    (1920, 2042)
    """
    billed = max(job.minimum, math.ceil(minutes / job.step) * job.step)
    return billed * job.rate + max(0, minutes - job.booked) * job.overtime


def model_as_dict(model: Model) -> dict[str, Any]:
    """Return the model as the JSON object of ``becket plan --json`` [min, money]."""
    return {
        "start": model.start,
        "jobs": [
            {
                "job": job.job,
                "minimum": job.minimum,
                "step": job.step,
                "rate": job.rate,
                "booked": job.booked,
                "overtime": job.overtime,
                "leave_by": job.leave_by,
            }
            for job in model.jobs
        ],
        "groups": [
            {"job": group.job, "states": {state: {"minutes": minutes} for state, minutes in group.states.items()}}
            for group in model.groups
        ],
        "changes": [_places_as_dict(model, g) for g in range(len(model.groups))],
    }


def _places_as_dict(model: Model, g: int) -> dict[str, list[dict[str, Any]]]:
    """Return the changes that may come before a group; tables shared with other groups hold more [-]."""
    states_before = model.groups[g - 1].states if g else {model.start: 0.0}
    entries: dict[str, list[dict[str, Any]]] = {}
    for place in model.changes[g]:
        for (before, after), effort in place.options.items():
            if before not in states_before or after not in model.groups[g].states:
                continue
            entries.setdefault(f"{before}>{after}", []).append(
                {
                    "where": place.where,
                    "job": place.job,
                    "minutes": effort.minutes,
                    "cost": effort.cost,
                    "latest": place.latest,
                }
            )
    return entries


def model_from_dict(data: Mapping[str, Any]) -> Model:
    """Return the model that a JSON object of ``becket plan --json`` holds [min, money].

    Args:
        data: the object under ``model``

    Raises:
        OutOfRangeError: a number or a reference that means nothing.
    """
    model = Model(
        start=data["start"],
        jobs=tuple(ModelJob(**job) for job in data["jobs"]),
        groups=tuple(
            ModelGroup(job=group["job"], states={state: entry["minutes"] for state, entry in group["states"].items()})
            for group in data["groups"]
        ),
        changes=tuple(_places_from_dict(entry) for entry in data["changes"]),
    )
    check_model(model)
    return model


def _places_from_dict(entry: Mapping[str, list[dict[str, Any]]]) -> tuple[ChangePlace, ...]:
    tables: dict[tuple[str, int | None, float | None, int], dict[tuple[str, str], Effort]] = {}
    for words, options in entry.items():
        before, _, after = words.partition(">")
        seen: dict[tuple[str, int | None, float | None], int] = {}
        for option in options:
            key = (option["where"], option["job"], option["latest"])
            seen[key] = seen.get(key, 0) + 1
            table = tables.setdefault((*key, seen[key]), {})
            table[before, after] = Effort(option["minutes"], option["cost"])
    return tuple(
        ChangePlace(where=where, job=job, latest=latest, options=table)
        for (where, job, latest, _), table in tables.items()
    )
