"""Seeded small planning models, for tests.

In:    a seed.
Out:   models whose every number is a small binary fraction, so that sums in floats are exact.
Never: searching.
"""

from __future__ import annotations

from random import Random

from becket.planning.model import ChangePlace, Effort, Model, ModelGroup, ModelJob


def small_model(seed: int, *, jobs: int = 4, groups: int = 7, states: int = 4) -> Model:
    """Return a model of at most so many jobs, groups and states [min, money].

    Args:
        seed: the same seed gives the same model
        jobs: most jobs, some of them without a lift [-]
        groups: most groups [-]
        states: most states [-]
    """
    dice = Random(seed)
    names = [f"main:{2 * i + 2}" for i in range(dice.randint(min(3, states), states))]
    bookings = tuple(_job(dice, i) for i in range(dice.randint(1, jobs)))
    of_job = sorted(dice.randrange(len(bookings)) for _ in range(dice.randint(groups - 3, groups)))
    lifts = tuple(_group(dice, job, names) for job in of_job)
    before = [-1, *of_job[:-1]]
    changes = tuple(_places(dice, b, job, names) for b, job in zip(before, of_job, strict=True))
    return Model(start=dice.choice(names), jobs=bookings, groups=lifts, changes=changes)


def _job(dice: Random, number: int) -> ModelJob:
    booked = dice.choice([120, 180, 240])
    return ModelJob(
        job=f"J-{number}",
        minimum=max(booked, dice.choice([60, 150, 240])),
        step=dice.choice([15, 30, 60]),
        rate=dice.choice([4, 8.25, 6.5]),
        booked=booked,
        overtime=dice.choice([0, 1.5, 3]),
        leave_by=booked + dice.choice([0, 45, 90, 240, 360]),
    )


def _group(dice: Random, job: int, names: list[str]) -> ModelGroup:
    able = [name for name in names if dice.random() < 0.85] or [dice.choice(names)]
    base = dice.randint(10, 70)
    return ModelGroup(job=job, states={name: base + dice.randint(0, 80) / 2 for name in able})


def _places(dice: Random, job_before: int, job: int, names: list[str]) -> tuple[ChangePlace, ...]:
    if job_before == job:
        return (_place(dice, "I", job, names),)
    wanted: list[tuple[str, int | None]] = [("S", job), ("Y", None)]
    wanted.extend(("E", earlier) for earlier in range(max(job_before, 0), job))
    return tuple(_place(dice, where, at, names) for where, at in wanted if dice.random() < 0.75)


def _place(dice: Random, where: str, job: int | None, names: list[str]) -> ChangePlace:
    pairs = [(a, b) for a in names for b in names if a != b and dice.random() < 0.8]
    cost = 40.0 if where == "Y" else 0.0
    options = {pair: Effort(dice.randint(15, 55), cost * dice.randint(1, 8)) for pair in pairs}
    latest = dice.choice([None, None, 150, 200, 260]) if job is not None else None
    return ChangePlace(where=where, job=job, latest=latest, options=options)
