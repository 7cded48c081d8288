"""A planning model in whole numbers, so that the search is exact.

In:    a model; its floats are exact binary fractions.
Out:   the same model with every minute and every sum of money a whole number, changes sorted by what they take.
Never: rounding, searching.

Money is counted in a finer unit, with changes and minutes behind it: of two plans at equal cost the one with fewer
changes is less, of two with equally many the one with fewer minutes; then the end of a job before the next one's start.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from becket.planning.model import ChangePlace, Effort, Model, ModelJob

NO_LIMIT = 1 << 5000  # more than any sum of floats
FAR = 1 << 5001  # minutes of a change that there is not


class Ways(NamedTuple):
    """Every change into one state, by the state that it comes from; ``FAR`` where there is none."""

    minutes: tuple[int, ...]
    extras: tuple[int, ...]  # money, the change itself, and minutes that no job at hand is charged
    least_minutes: int
    least_extra: int
    is_even: bool  # every extra is the same


@dataclass(frozen=True, kw_only=True)
class WholeJob:
    """How one booking is charged, in whole numbers."""

    minimum: int
    step: int
    rate: int
    booked: int
    overtime: int
    leave_by: int

    def charge(self, minutes: int) -> int:
        """Return what the job costs after so many minutes, the minutes behind it [-]."""
        billed = -(-minutes // self.step) * self.step
        charge = (billed if billed > self.minimum else self.minimum) * self.rate
        if minutes > self.booked:
            charge += (minutes - self.booked) * self.overtime
        return charge + minutes


@dataclass(frozen=True, kw_only=True)
class WholePlace:
    """A place with the ways into each state.

    ``kind`` says what a way does to a label: "within" adds minutes to the job that goes on, "end" to the job
    that is about to be charged, "start" to the job that begins; "free" takes no minutes of either, its
    ``extra`` holds all that it costs.
    """

    kind: str
    number: int  # which of the model's places before this group
    latest: int
    into: Mapping[int, Ways]
    spread: int  # no way into a state takes so much longer than another into it; FAR where some way is missing
    members: frozenset[int]  # the states that its ways join


@dataclass(frozen=True, kw_only=True)
class WholeGroup:
    """One group: its job, its states with minutes, the places before it."""

    job: int
    states: tuple[tuple[int, int], ...]  # (state, lifting minutes)
    rest: int  # least lifting minutes of the groups after it in its job
    places: tuple[WholePlace, ...]


@dataclass(frozen=True, kw_only=True)
class WholeModel:
    """The whole problem; ``names`` gives a state its words."""

    names: tuple[str, ...]
    jobs: tuple[WholeJob, ...]
    groups: tuple[WholeGroup, ...]
    idle_charge: int  # of the jobs that have no group
    minute_scale: int
    money_scale: int  # of one unit of the model's money
    ties: int  # of the least unit of money; changes and minutes together stay below it

    def minutes(self, whole: int) -> Fraction:
        """Return the minutes of a whole number [min]."""
        return Fraction(whole, self.minute_scale)

    def money(self, whole: int) -> Fraction:
        """Return the money of a whole number, changes and minutes dropped [money]."""
        return Fraction(whole // self.ties * self.ties, self.money_scale)


def whole_model(model: Model) -> WholeModel:
    """Return the model in whole numbers; the start is state 0 [-]."""
    tables = list({id(place.options): place.options for places in model.changes for place in places}.values())
    rates = [rate for job in model.jobs for rate in (job.rate, job.overtime)]
    rates.extend(effort.cost for table in tables for effort in table.values())
    minute_scale, rate_scale = _scale(_every_minute(model, tables)), _scale(rates)
    change = _more_than_all_minutes(model, tables, minute_scale)
    ties = change * (len(model.groups) + 1)
    numbers = _number_states(model, tables)
    jobs = tuple(_whole_job(job, minute_scale, rate_scale * ties) for job in model.jobs)
    writer = _PlaceWriter(numbers, jobs, minute_scale, minute_scale * rate_scale * ties, change)
    busy = {group.job for group in model.groups}
    return WholeModel(
        names=tuple(numbers),
        jobs=jobs,
        groups=_whole_groups(model, writer),
        idle_charge=sum(job.charge(0) for i, job in enumerate(jobs) if i not in busy),
        minute_scale=minute_scale,
        money_scale=writer.money_scale,
        ties=ties,
    )


def _more_than_all_minutes(model: Model, tables: Iterable[Mapping[tuple[str, str], Effort]], minute_scale: int) -> int:
    """Return a number that no plan's minutes, lifting and changes together, reach [-]."""
    longest_change = max((effort.minutes for table in tables for effort in table.values()), default=0.0)
    lifting = sum(max(group.states.values(), default=0.0) for group in model.groups)
    return int((lifting + longest_change * len(model.groups)) * 2 + 1) * minute_scale


def _whole_groups(model: Model, writer: _PlaceWriter) -> tuple[WholeGroup, ...]:
    groups: list[WholeGroup] = []
    rest, job_after = 0, -1
    for g in reversed(range(len(model.groups))):
        group, job_before = model.groups[g], model.groups[g - 1].job if g else -1
        states = tuple((writer.numbers[name], int(m * writer.minute_scale)) for name, m in group.states.items())
        rest = rest if group.job == job_after else 0
        places = tuple(writer.write(i, place, job_before, group.job) for i, place in enumerate(model.changes[g]))
        groups.append(WholeGroup(job=group.job, states=states, rest=rest, places=places))
        rest += min((minutes for _, minutes in states), default=0)
        job_after = group.job
    return tuple(reversed(groups))


Table = Mapping[tuple[int, int], tuple[int, int]]  # (from, to) -> minutes, extra


class _PlaceWriter:
    """Writes places in whole numbers; a table that several places share is written once."""

    def __init__(
        self, numbers: Mapping[str, int], jobs: tuple[WholeJob, ...], minute_scale: int, money_scale: int, change: int
    ) -> None:
        self.numbers, self.jobs = numbers, jobs
        self.minute_scale, self.money_scale, self.change = minute_scale, money_scale, change
        self._written: dict[tuple[int, str, int | None, int], tuple[Mapping[int, Ways], int, frozenset[int]]] = {}

    def write(self, number: int, place: ChangePlace, job_before: int, job: int) -> WholePlace:
        """Return a place before a group of ``job``; the group before is one of ``job_before`` [-]."""
        latest = NO_LIMIT if place.latest is None else int(place.latest * self.minute_scale)
        if place.job == job:
            return self._place("within" if job_before == job else "start", number, place, latest)
        if place.job == job_before:
            return self._place("end", number, place, latest)
        return self._place("free", number, place, latest)

    def _place(self, kind: str, number: int, place: ChangePlace, latest: int) -> WholePlace:
        free = kind == "free"
        key = (id(place.options), kind, place.job if free else None, latest if free else 0)
        if key not in self._written:
            table = self._free_table(place, latest) if free else self._table(place, later=kind == "start")
            self._written[key] = self._ways(table)
        into, spread, members = self._written[key]
        latest = NO_LIMIT if free else latest
        return WholePlace(kind=kind, number=number, latest=latest, into=into, spread=spread, members=members)

    def _table(self, place: ChangePlace, *, later: bool = False) -> Table:
        """Return the changes; of two places that are equal in everything else the later one is a hair dearer."""
        return {
            (self.numbers[before], self.numbers[after]): (
                int(effort.minutes * self.minute_scale),
                _whole(effort.cost, self.money_scale) + self.change + later,
            )
            for (before, after), effort in place.options.items()
            if before != after
        }

    def _free_table(self, place: ChangePlace, latest: int) -> Table:
        """Return the changes that take no minutes of the jobs at hand: in the yard, or at an idle job's site."""
        table = self._table(place)
        if place.job is None:
            return {pair: (0, extra + minutes) for pair, (minutes, extra) in table.items()}
        job = self.jobs[place.job]
        latest = min(latest, job.leave_by)
        return {
            pair: (0, extra + job.charge(minutes) - job.charge(0))
            for pair, (minutes, extra) in table.items()
            if minutes <= latest
        }

    def _ways(self, table: Table) -> tuple[Mapping[int, Ways], int, frozenset[int]]:
        by_target: dict[int, dict[int, tuple[int, int]]] = {}
        for (before, after), way in table.items():
            by_target.setdefault(after, {})[before] = way
        members = frozenset(state for pair in table for state in pair)
        into: dict[int, Ways] = {}
        spread = 0
        for after, ways in by_target.items():
            minutes = [way[0] for way in ways.values()]
            spread = max(spread, max(minutes) - min(minutes))
            extras = {way[1] for way in ways.values()}
            row = [ways.get(before, (FAR, FAR)) for before in range(len(self.numbers))]
            into[after] = Ways(
                minutes=tuple(way[0] for way in row),
                extras=tuple(way[1] for way in row),
                least_minutes=min(minutes),
                least_extra=min(extras),
                is_even=len(extras) == 1,
            )
        is_whole = len(table) == len(members) * (len(members) - 1)
        return into, spread if is_whole else FAR, members


def _every_minute(model: Model, tables: Iterable[Mapping[tuple[str, str], Effort]]) -> set[float]:
    minutes = {m for group in model.groups for m in group.states.values()}
    minutes.update(e.minutes for table in tables for e in table.values())
    minutes.update(p.latest for places in model.changes for p in places if p.latest is not None)
    for job in model.jobs:
        minutes.update((job.minimum, job.step, job.booked, job.leave_by))
    return minutes


def _scale(figures: Iterable[float]) -> int:
    """Return the least power of two that makes every figure whole: floats are binary fractions [-]."""
    return max((figure.as_integer_ratio()[1] for figure in set(figures)), default=1)


def _number_states(model: Model, tables: Iterable[Mapping[tuple[str, str], Effort]]) -> dict[str, int]:
    names = {model.start: 0}
    for group in model.groups:
        for name in group.states:
            names.setdefault(name, len(names))
    for table in tables:
        for pair in table:
            for name in pair:
                names.setdefault(name, len(names))
    return names


def _whole_job(job: ModelJob, minute_scale: int, rate_scale: int) -> WholeJob:
    minimum, step, booked, leave_by = (int(x * minute_scale) for x in (job.minimum, job.step, job.booked, job.leave_by))
    rate, overtime = (_whole(x, rate_scale) for x in (job.rate, job.overtime))
    return WholeJob(minimum=minimum, step=step, rate=rate, booked=booked, overtime=overtime, leave_by=leave_by)


def _whole(figure: float, scale: int) -> int:
    over, under = figure.as_integer_ratio()
    return over * scale // under
