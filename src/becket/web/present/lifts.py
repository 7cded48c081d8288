"""The lifts of a job sheet in order, each with what the plan and the crane's limits say of it.

In:    a crane as its files say, its plan.
Out:   one record a lift: the lift itself, its job, when it is planned, the state that it is planned on.
Never: a lift that the sheet does not have; a moment that the plan does not tell.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from becket.book.jobs import Job, JobSheet, Lift
from becket.book.tackle import State
from becket.planning.answer import Plan
from becket.planning.clock import plan_clock


@dataclass(frozen=True, kw_only=True)
class SheetLift:
    """One entry of the sheet. ``number`` counts from 1 over all jobs: the page of the lift has it in its address."""

    number: int
    job: Job
    lift: Lift  # with counterweight and outriggers of its job
    when: datetime | None  # by the plan; else where its job begins
    ends: datetime | None
    state: State | None  # planned
    stopped_by: str | None
    why: str | None


def sheet_ahead(sheet: JobSheet, rigged: State | None, now: datetime) -> JobSheet:
    """Return the sheet from the first job on that is not over, with what the record says is rigged.

    Args:
        sheet: of the crane
        rigged: by the record; None: nothing is recorded, what the sheet says stays
        now: on the site's clock
    """
    past = 0
    for job in sheet.jobs:
        over = job.leave_by or job.end
        if over is None or over >= now:
            break
        past += 1
    return replace(sheet, rigged=rigged or sheet.rigged, jobs=sheet.jobs[past:])


def lifts_before(sheet: JobSheet, ahead: JobSheet) -> int:
    """Return how many lifts of a sheet stand before its part that is still ahead [-].

    Args:
        sheet: whole
        ahead: from the first job on that is not over
    """
    past = len(sheet.jobs) - len(ahead.jobs)
    return sum(len(job.lifts) for job in sheet.jobs[:past])


def sheet_lifts(sheet: JobSheet | None, plan: Plan | None, before: int = 0) -> tuple[SheetLift, ...]:
    """Return every lift of a sheet in order [-].

    Args:
        sheet: the coming jobs; None: none on file
        plan: of that sheet; None: there is none
        before: lifts of the whole sheet that stand before it
    """
    if sheet is None:
        return ()
    clock = plan_clock(sheet, plan) if plan is not None else None
    found = []
    number = 0
    for job in sheet.jobs:
        for lift in job.lifts:
            group = plan.groups[number] if plan is not None else None
            when = clock.groups[number] if clock is not None else job.start
            hours = group.hours if group is not None else None
            found.append(
                SheetLift(
                    number=before + number + 1,
                    job=job,
                    lift=replace(lift, counterweight=job.counterweight, outriggers=job.outriggers),
                    when=when,
                    ends=job.end if when is None or hours is None else when + timedelta(hours=hours),
                    state=group.state if group is not None else None,
                    stopped_by=group.stopped_by if group is not None else None,
                    why=group.why if group is not None else None,
                )
            )
            number += 1
    return tuple(found)


def lift_ahead(lifts: tuple[SheetLift, ...], now: datetime) -> SheetLift | None:
    """Return the lift that goes on at a moment or comes next; None: every lift is past [-].

    Args:
        lifts: of the sheet in order
        now: on the site's clock
    """
    return next((one for one in lifts if _is_ahead(one, now)), None)


def _is_ahead(one: SheetLift, now: datetime) -> bool:
    ends = one.ends or one.when
    return ends is None or ends >= now
