"""From a crane book and a job sheet to the planning model.

In:    a crane book, settings, a job sheet.
Out:   the model; which lift each of its groups is; what was left out and why.
Never: searching; a figure in place of one that is not stated.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from becket.book.crane import Book
from becket.book.jobs import Job, JobSheet, Lift
from becket.book.tackle import State
from becket.errors import OutOfRangeError
from becket.planning.crew_records import CrewRecords
from becket.planning.daylight import minutes_between
from becket.planning.feasible import Ability, lifting_minutes, missing_of
from becket.planning.model import Model, ModelGroup, ModelJob, grain_up
from becket.planning.places import Gap, Pair, PlaceFinder, Refusal
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True)
class Entry:
    """One entry of ``lifts``. ``minutes`` empty: it is left out, ``stopped_by`` and ``why`` say what stops it."""

    job: int
    lift: Lift
    minutes: dict[State, float]  # state that can do it -> lifting minutes [min]
    stopped_by: str | None
    why: str | None


@dataclass(frozen=True, kw_only=True)
class Built:
    """The model of a sheet, and the way back from it."""

    entries: tuple[Entry, ...]
    kept: tuple[int, ...]  # group of the model -> entry
    model: Model
    refusals: tuple[tuple[Refusal, ...], ...]  # by group of the model
    notes: tuple[str, ...]
    unproved: Mapping[Pair, str]  # changes left out because no method of them passes, with what stops them


def missing_for_plan(sheet: JobSheet) -> tuple[str, ...]:
    """Return the figures without which there is no plan of a sheet [-].

    Args:
        sheet: the coming jobs
    """
    figures: dict[str, object] = {
        "rates.customer": sheet.rates.customer,
        "rates.billing_step": sheet.rates.billing_step,
        "rates.minimum": sheet.rates.minimum,
    }
    for job in sheet.jobs:
        figures[f"from of {job.name}"] = job.start
        figures[f"to of {job.name}"] = job.end
    return tuple(name for name, value in figures.items() if value is None)


def enter_lifts(book: Book, settings: Settings, sheet: JobSheet) -> tuple[Entry, ...]:
    """Return every entry of ``lifts`` with the states that can do it [min].

    Args:
        book: the crane
        settings: in force
        sheet: the coming jobs

    Source: docs/theory/planning.md, "Groups".
    """
    ability = Ability(book, settings)
    return tuple(
        _entry(ability, settings, number, job, lift) for number, job in enumerate(sheet.jobs) for lift in job.lifts
    )


def _entry(ability: Ability, settings: Settings, number: int, job: Job, lift: Lift) -> Entry:
    fitted = replace(lift, counterweight=job.counterweight, outriggers=job.outriggers)
    able = ability.able(fitted)
    stopped_by, why = able.stopped_by, able.why
    minutes: dict[State, float] = {}
    for state, speed in able.speeds.items():
        taken = lifting_minutes(fitted, speed, settings)
        if taken is not None:
            minutes[state] = taken
    if able.speeds and not minutes:
        stopped_by = missing_of(fitted)[0]
        why = f"{', '.join(missing_of(fitted))}: not stated, so how long the lift takes is unknown."
    return Entry(job=number, lift=fitted, minutes=minutes, stopped_by=stopped_by, why=why)


class ModelBuilder:
    """Builds the models of one sheet; places that two of them share are worked out once."""

    def __init__(
        self,
        book: Book,
        settings: Settings,
        sheet: JobSheet,
        rigged: State,
        unproved: Mapping[Pair, str] | None = None,
        records: CrewRecords | None = None,
    ) -> None:
        self.sheet, self.rigged, self.unproved = sheet, rigged, unproved or {}
        self._finder = PlaceFinder(book, settings, sheet, self.unproved, records)

    def build(self, entries: tuple[Entry, ...]) -> Built:
        """Return the planning model of a sheet from which nothing of ``missing_for_plan`` is missing [min, money].

        Args:
            entries: as ``enter_lifts`` gives them

        Source: docs/theory/planning.md.
        """
        kept = tuple(i for i, entry in enumerate(entries) if entry.minutes)
        found = [self._finder.find(gap) for gap in _gaps([entries[i] for i in kept], self.rigged)]
        refusals = tuple(refused for _, refused in found)
        model = Model(
            start=str(self.rigged),
            jobs=tuple(_model_job(self.sheet, job) for job in self.sheet.jobs),
            groups=tuple(_model_group(entries[i]) for i in kept),
            changes=tuple(places for places, _ in found),
        )
        return Built(
            entries=entries,
            kept=kept,
            model=model,
            refusals=refusals,
            notes=_notes(self.sheet, refusals),
            unproved=self.unproved,
        )


def _model_group(entry: Entry) -> ModelGroup:
    return ModelGroup(job=entry.job, states={str(state): minutes for state, minutes in entry.minutes.items()})


def _gaps(entries: list[Entry], rigged: State) -> list[Gap]:
    gaps: list[Gap] = []
    over: dict[int, float] = {}
    for i, entry in enumerate(entries):
        before = entries[i - 1] if i else None
        states = (rigged,) if before is None else tuple(before.minutes)
        gaps.append(
            Gap(
                job_before=None if before is None else before.job,
                job=entry.job,
                boom_before=None if before is None else before.lift.boom,
                boom_after=entry.lift.boom,
                least_before=dict(over) if before is None or before.job != entry.job else {entry.job: over[entry.job]},
                before=states,
                after=tuple(entry.minutes),
            )
        )
        if before is None or before.job != entry.job:
            over = {entry.job: 0.0}
        over[entry.job] += min(entry.minutes.values())
    return gaps


def _model_job(sheet: JobSheet, job: Job) -> ModelJob:
    rates = sheet.rates
    if (
        job.start is None
        or job.end is None
        or rates.customer is None
        or rates.billing_step is None
        or rates.minimum is None
    ):
        raise OutOfRangeError("rates or hours of a job", None, "everything that missing_for_plan asks for")
    booked = minutes_between(job.start, job.end)
    leave_by = booked if job.leave_by is None else minutes_between(job.start, job.leave_by)
    if rates.overtime is None:
        leave_by = min(leave_by, booked)
    return ModelJob(
        job=job.name,
        minimum=max(grain_up(rates.minimum / 60), booked),
        step=rates.billing_step / 60,
        rate=rates.customer * 60,
        booked=booked,
        overtime=(rates.overtime or 0.0) * 60,
        leave_by=leave_by,
    )


def _notes(sheet: JobSheet, refusals: tuple[tuple[Refusal, ...], ...]) -> tuple[str, ...]:
    notes = [
        f"{job.name}: leave_by is not stated, so nothing is planned past the booked hours."
        for job in sheet.jobs
        if job.leave_by is None
    ]
    if sheet.rates.overtime is None:
        notes.append("rates.overtime is not stated, so nothing is planned past the booked hours.")
    for refusal in (refusal for refused in refusals for refusal in refused):
        if refusal.why is not None and "not stated" in refusal.why:
            place = "the yard" if refusal.where == "Y" else "site"
            notes.append(f"{sheet.jobs[refusal.job].name}: no change is planned on {place}: {refusal.why}")
    return tuple(dict.fromkeys(note.replace("on the yard", "in the yard before it") for note in notes))
