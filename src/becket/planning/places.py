"""Where a change can be made, how long it takes there, and why not elsewhere.

In:    a crane book, settings, a job sheet, the lifts before and after.
Out:   places of the planning model; for every place that is not one, a sentence.
Never: a place of which something is not stated; prices of jobs.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.jobs import Job, JobSheet
from becket.book.tackle import State
from becket.method.option import ChangeRoom, change_room, option_in
from becket.method.position import BoomPosition, find_position
from becket.method.site import Site
from becket.planning.crew_records import CrewRecords, crew_time
from becket.planning.daylight import latest_in_daylight, longest_daylight
from becket.planning.model import ChangePlace, Effort, grain_up
from becket.settings.values import Settings
from becket.verdict import Verdict

PEOPLE = 2  # an operator and a rigger: each has his own part of every step

Pair = tuple[State, State]


@dataclass(frozen=True, kw_only=True)
class Gap:
    """What lies before one group: where the crane comes from, where it goes."""

    job_before: int | None  # job of the group before; None: this is the first
    job: int
    boom_before: float | None  # [m]
    boom_after: float | None  # [m]
    least_before: Mapping[int, float]  # job -> minutes that are over when a change is made there, at the earliest [min]
    before: tuple[State, ...]  # the states that may come before
    after: tuple[State, ...]  # the states that may come after

    def pairs(self) -> Iterator[Pair]:
        """Give the changes that would be of use [-]."""
        return ((a, b) for a in self.before for b in self.after if a != b)


@dataclass(frozen=True, kw_only=True)
class Refusal:
    """A place where changes cannot be made."""

    where: str
    job: int
    why: str | None  # why no change at all; None: some cannot
    pairs: Mapping[Pair, str]  # change -> why not; shared, may hold changes that no lift here asks for

    def why_not(self, pair: Pair) -> str | None:
        """Return why a change cannot be made here; None: it can [-]."""
        return self.why if self.why is not None else self.pairs.get(pair)


class _Table:
    """The changes at one kind of place, as far as they were asked for."""

    def __init__(self) -> None:
        self.options: dict[tuple[str, str], Effort] = {}
        self.refused: dict[Pair, str] = {}
        self._asked: set[tuple[tuple[State, ...], tuple[State, ...]]] = set()

    def new_pairs(self, gap: Gap) -> Iterator[Pair]:
        """Give the changes that nobody has asked for yet [-]."""
        key = (gap.before, gap.after)
        if key not in self._asked:
            self._asked.add(key)
            for pair in gap.pairs():
                if pair not in self.refused and (str(pair[0]), str(pair[1])) not in self.options:
                    yield pair


class PlaceFinder:
    """Finds the places of one sheet; what is the same on two sites is worked out once."""

    def __init__(
        self,
        book: Book,
        settings: Settings,
        sheet: JobSheet,
        unproved: Mapping[Pair, str] | None = None,
        records: CrewRecords | None = None,
    ) -> None:
        self.book, self.settings, self.sheet = book, settings, sheet
        self._unproved, self._records = unproved or {}, records or {}
        self._rooms: dict[tuple[State, State, Site | BoomPosition], ChangeRoom] = {}
        self._tables: dict[tuple[object, ...], _Table] = {}

    def find(self, gap: Gap) -> tuple[tuple[ChangePlace, ...], tuple[Refusal, ...]]:
        """Return the places for a change before a group, and what was refused [min, money].

        Args:
            gap: what lies before the group

        Source: docs/theory/planning.md, "Places".
        """
        places: list[ChangePlace] = []
        refusals: list[Refusal] = []
        for where, job in _wanted(gap):
            place = self._yard(gap, refusals) if where == "Y" else self._site(where, job, gap, refusals)
            if place is not None and place.options:
                places.append(place)
        return tuple(places), tuple(refusals)

    def _site(self, where: str, number: int, gap: Gap, refusals: list[Refusal]) -> ChangePlace | None:
        job = self.sheet.jobs[number]
        why = _not_stated(job, self.sheet) or _site_forbids(job)
        latest = self._latest(job, gap.least_before.get(number, 0.0)) if why is None else None
        if why is None and latest is None:
            why = "It may still be dark then, or dark already."
        if why is not None:
            refusals.append(Refusal(where=where, job=number, why=why, pairs={}))
            return None
        site = Site(counterweight=job.counterweight, outriggers=job.outriggers, free_radius=job.free_radius)
        key = (site, gap.boom_before, gap.boom_after)
        table = self._tables.setdefault(key, _Table())
        for pair in table.new_pairs(gap):
            minutes, why_not = self._minutes(pair, site, gap, in_yard=False)
            if minutes is None:
                table.refused[pair] = why_not
            else:
                table.options[str(pair[0]), str(pair[1])] = Effort(grain_up(minutes), 0)
        refusals.append(Refusal(where=where, job=number, why=None, pairs=table.refused))
        return ChangePlace(where=where, job=number, latest=latest, options=table.options)

    def _latest(self, job: Job, least_before: float) -> float | None:
        if job.start is None or self.sheet.daylight is None:
            return None
        return latest_in_daylight(job.start, least_before, self.sheet.daylight)

    def _minutes(self, pair: Pair, site: Site, gap: Gap, *, in_yard: bool) -> tuple[float | None, str]:
        """Return the minutes of a change there, or why there is none [min]."""
        if pair in self._unproved:
            return None, self._unproved[pair]
        carried, why = self._carried(pair, in_yard=in_yard)
        if why is not None:
            return None, why
        option = option_in(
            self.settings,
            self._room(pair, site),
            boom_before=gap.boom_before,
            boom_after=gap.boom_after,
            carried=carried,
        )
        if option.verdict is not Verdict.PASS:
            return None, option.why
        own = crew_time(self.settings, self._records.get(pair, ()))
        return (own.median if own is not None and own.is_enough else option.minutes) / 60, option.why

    def _room(self, pair: Pair, site: Site) -> ChangeRoom:
        """Return the room of a change; two sites with the same position of the boom have the same room."""
        here = (*pair, site)
        if here not in self._rooms:
            position = find_position(self.book, self.settings, *pair, site).position
            there = (*pair, site if position is None else position)
            if there not in self._rooms:
                self._rooms[there] = change_room(self.book, self.settings, *pair, site)
            self._rooms[here] = self._rooms[there]
        return self._rooms[here]

    def _carried(self, pair: Pair, *, in_yard: bool) -> tuple[str | None, str | None]:
        """Return where the blocks of a change are kept, the one farthest off; or why the change cannot be [-]."""
        if pair[0].block == pair[1].block:
            return "crane", None
        kept = {state.block: self.sheet.carried.get(state.block) for state in pair}
        for block, place in kept.items():
            if place is None:
                return None, f"carried.{block} is not stated: where the block is kept when it is not on the rope."
            if place == "yard" and not in_yard:
                return None, f"Block {block} is kept in the yard."
        return ("lorry" if "lorry" in kept.values() else "crane"), None

    def _yard(self, gap: Gap, refusals: list[Refusal]) -> ChangePlace | None:
        longest, setup, why = self._yard_time(gap.job)
        if why is not None:
            refusals.append(Refusal(where="Y", job=gap.job, why=why, pairs={}))
            return None
        key = ("yard", longest, gap.boom_before, gap.boom_after)
        table = self._tables.setdefault(key, _Table())
        for pair in table.new_pairs(gap):
            minutes, why_not = self._yard_minutes(pair, gap)
            if minutes is None:
                table.refused[pair] = why_not
            elif minutes + setup > longest:
                taken = f"It takes {minutes + setup:.0f} min with setting up"
                table.refused[pair] = f"{taken}; {longest:.0f} min of daylight in one piece are free."
            else:
                whole = grain_up(minutes + setup)
                table.options[str(pair[0]), str(pair[1])] = Effort(whole, whole * 60 * (self.sheet.rates.own or 0.0))
        refusals.append(Refusal(where="Y", job=gap.job, why=None, pairs=table.refused))
        return ChangePlace(where="Y", job=None, latest=None, options=table.options)

    def _yard_time(self, number: int) -> tuple[float, float, str | None]:
        """Return the longest free daylight before a job and the time of setting up, or why there is no yard [min]."""
        yard, own, daylight = self.sheet.yard, self.sheet.rates.own, self.sheet.daylight
        if yard is None:
            return 0.0, 0.0, "yard is not stated."
        stated: dict[str, object] = {"yard.free_radius": yard.free_radius, "yard.setup": yard.setup}
        stated.update({"yard.people": yard.people, "rates.own": own, "daylight": daylight})
        stated["from"] = self.sheet.jobs[number].start
        before = self.sheet.jobs[number - 1] if number else None
        if before is not None:
            stated[f"leave_by of {before.name}"] = before.leave_by
        missing = [name for name, value in stated.items() if value is None]
        if missing:
            return 0.0, 0.0, f"{_and(missing)} {'is' if len(missing) == 1 else 'are'} not stated."
        if yard.people is not None and yard.people < PEOPLE:
            return 0.0, 0.0, f"yard.people is {yard.people}; a change needs {PEOPLE}."
        start = self.sheet.jobs[number].start
        if start is None or daylight is None or yard.setup is None:
            return 0.0, 0.0, "from is not stated."
        return longest_daylight(before.leave_by if before else None, start, daylight), yard.setup / 60, None

    def _yard_minutes(self, pair: Pair, gap: Gap) -> tuple[float | None, str]:
        """Return the fewest minutes with any counterweight and outriggers that the book permits [min]."""
        radius = self.sheet.yard.free_radius if self.sheet.yard else None
        set_ups = dict.fromkeys((row.counterweight, row.outriggers) for row in self.book.rereeve)
        answers = [
            self._minutes(pair, Site(counterweight=weight, outriggers=pads, free_radius=radius), gap, in_yard=True)
            for weight, pads in set_ups
        ]
        possible = [answer for answer in answers if answer[0] is not None]
        if possible:
            return min(possible, key=lambda answer: answer[0] or 0.0)
        return answers[0] if answers else (None, "rereeve: the book lists no position for re-reeving.")


def _wanted(gap: Gap) -> list[tuple[str, int]]:
    if gap.job_before == gap.job:
        return [("I", gap.job)]
    first = 0 if gap.job_before is None else gap.job_before
    return [*(("E", job) for job in range(first, gap.job)), ("S", gap.job), ("Y", gap.job)]


def _not_stated(job: Job, sheet: JobSheet) -> str | None:
    stated = {
        "from": job.start,
        "counterweight": job.counterweight,
        "outriggers": job.outriggers,
        "people": job.people,
        "free_radius": job.free_radius,
        "lines_near": job.lines_near,
        "daylight": sheet.daylight,
    }
    missing = [name for name, value in stated.items() if value is None]
    return f"{_and(missing)} {'is' if len(missing) == 1 else 'are'} not stated." if missing else None


def _site_forbids(job: Job) -> str | None:
    if job.lines_near:
        return "Overhead lines are near."
    if job.people is not None and job.people < PEOPLE:
        return f"{job.people} {'person is' if job.people == 1 else 'people are'} there; a change needs {PEOPLE}."
    return None


def _and(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
