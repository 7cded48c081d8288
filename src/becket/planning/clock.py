"""When a plan lifts and changes, by the site's own clock.

In:    a job sheet, its plan.
Out:   the moment at which each group and each change begins, where the plan tells it.
Never: a moment for a change in the yard; a break, a delay or a lift that is left out counted in.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from becket.book.jobs import JobSheet
from becket.planning.answer import Plan, PlannedChange


@dataclass(frozen=True, kw_only=True)
class PlanClock:
    """Beginnings, one for each group and each change of the plan. None: the plan does not tell it."""

    groups: tuple[datetime | None, ...]
    changes: tuple[datetime | None, ...]


def plan_clock(sheet: JobSheet, plan: Plan) -> PlanClock:
    """Return when each group and each change of a plan begins, lifts and changes one after the other [-].

    Args:
        sheet: the coming jobs
        plan: of that sheet

    Source: docs/theory/planning.md, "Groups": the minutes of a job are its lifts and its changes.
    """
    starts = {job.name: job.start for job in sheet.jobs}
    used = dict.fromkeys(starts, 0.0)  # minutes of each job so far
    groups: list[datetime | None] = []
    changes: dict[int, datetime | None] = {}
    for number, group in enumerate(plan.groups):
        for at, change in enumerate(plan.changes):
            if change.before_group == number:
                changes[at] = _moment(starts, used, change.job)
                _use(used, change)
        groups.append(_moment(starts, used, group.job))
        used[group.job] += (group.hours or 0.0) * 60
    return PlanClock(groups=tuple(groups), changes=tuple(changes[at] for at in range(len(plan.changes))))


def _use(used: dict[str, float], change: PlannedChange) -> None:
    if change.job is not None:
        used[change.job] += change.minutes


def _moment(starts: dict[str, datetime | None], used: dict[str, float], job: str | None) -> datetime | None:
    start = None if job is None else starts[job]
    return None if start is None or job is None else start + timedelta(minutes=used[job])
