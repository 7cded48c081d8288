"""Planning models of any size for the benchmark: shaped like a year of one crane, invented.

In:    number of groups and states, a seed.
Out:   a planning model: three to eight lift groups a job, changes at E, I, S and Y.
Never: timing.
"""

from __future__ import annotations

from random import Random

from becket.planning.model import ChangePlace, Effort, Model, ModelGroup, ModelJob, grain_up

Table = dict[tuple[str, str], Effort]


def plan_model(groups: int, states: int, seed: int = 1) -> Model:
    """Return a model in which a state can do about four lifts in five, the last state all of them [min, money].

    Args:
        groups: lift groups [-]
        states: states of the crane, three blocks with as many falls each [-]
        seed: the same seed gives the same model
    """
    dice = Random(seed)
    names = [f"block {block}:{falls}" for block in "abc" for falls in range(1, states // 3 + 1)]
    on_site = [_table(dice, names, 0.0) for _ in range(6)]
    in_yard = _table(dice, names, 3.0)
    jobs: list[ModelJob] = []
    lifts: list[ModelGroup] = []
    changes: list[tuple[ChangePlace, ...]] = []
    site_before: Table | None = None
    while len(lifts) < groups:
        count = min(dice.randint(3, 8), groups - len(lifts))
        site = dice.choice([*on_site, None])
        number = len(jobs)
        of_job = [_group(dice, number, names) for _ in range(count)]
        jobs.append(_job(dice, of_job))
        changes.append(_between(dice, number, site_before, site, in_yard))
        latest = jobs[-1].leave_by - 60
        inside = () if site is None else (ChangePlace(where="I", job=number, latest=latest, options=site),)
        changes.extend([inside] * (count - 1))
        lifts.extend(of_job)
        site_before = site
    return Model(start=names[1], jobs=tuple(jobs), groups=tuple(lifts), changes=tuple(changes))


def _table(dice: Random, names: list[str], rate: float) -> Table:
    table: Table = {}
    for before in names:
        for after in names:
            if before != after:
                block = 0.0 if before.split(":")[0] == after.split(":")[0] else 14.0
                falls = abs(int(before.split(":")[1]) - int(after.split(":")[1]))
                minutes = grain_up(34 + block + 2.7 * falls + dice.uniform(0, 6))
                table[before, after] = Effort(minutes, minutes * rate + (135.0 if rate else 0.0))
    return table


def _group(dice: Random, job: int, names: list[str]) -> ModelGroup:
    able = [name for name in names if name == names[-1] or dice.random() < 0.8]
    count, handling, height = dice.randint(1, 14), dice.uniform(4, 20), dice.uniform(3, 25)
    return ModelGroup(
        job=job,
        states={name: grain_up(count * (handling + height * int(name.split(":")[1]) / 33)) for name in able},
    )


def _job(dice: Random, lifts: list[ModelGroup]) -> ModelJob:
    usual = sum(sorted(lift.states.values())[len(lift.states) // 2] for lift in lifts)
    booked = max(240, round(usual * dice.uniform(0.85, 1.25) / 30) * 30)
    return ModelJob(
        job=f"J-{lifts[0].job}",
        minimum=booked,
        step=15,
        rate=490 / 60,
        booked=booked,
        overtime=2,
        leave_by=booked + 60 * len(lifts) + 300,
    )


def _between(dice: Random, job: int, before: Table | None, here: Table | None, yard: Table) -> tuple[ChangePlace, ...]:
    places = [ChangePlace(where="Y", job=None, latest=None, options=yard)] if dice.random() < 0.5 else []
    if job and before is not None:
        places.append(ChangePlace(where="E", job=job - 1, latest=None, options=before))
    if here is not None:
        places.append(ChangePlace(where="S", job=job, latest=None, options=here))
    return tuple(places)
