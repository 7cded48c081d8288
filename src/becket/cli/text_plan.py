"""The plan of the coming lifts, as text.

In:    a job sheet, its plan.
Out:   title, the lifts in order with the changes between them, why, what else was possible.
Never: computing a cost.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil

from becket.book.crane import Book
from becket.book.jobs import Job, JobSheet
from becket.book.tackle import State
from becket.cli.lines import clipped, listed, plain_name, table, wrapped
from becket.figures import said
from becket.planning.answer import NextBest, Plan, PlannedChange, PlannedGroup

PLACES = {
    "E": "at the end of {before}, on its site",
    "I": "between the lifts of {before}",
    "S": "at the start of {job}, on its site",
    "Y": "in the yard, before {job}",
}


def plan_text(book: Book, sheet: JobSheet, plan: Plan, system: str) -> str:
    """Return the whole answer, at most 80 columns wide [-].

    Args:
        book: the crane
        sheet: the coming jobs
        plan: as found
        system: "metric" or "us"
    """
    parts = [
        "\n".join(part for part in (_title(book, plan), _days(sheet)) if part),
        _why_no_plan(plan),
        _lifts(sheet, plan),
        _changes(plan, system),
        _left_out(plan, system),
        _next_best(plan),
        _notes(plan, system),
    ]
    return "\n\n".join(part for part in parts if part)


def plan_code(plan: Plan) -> int:
    """Return 0 where every lift is in the plan, else 1 [-]."""
    return 0 if plan.is_whole else 1


def money(cost: float | None, currency: str) -> str:
    """Return a sum with its currency, rounded up to whole units [-].

    >>> money(1234.2, "EUR")
    'EUR 1 235'
    """
    return "unknown" if cost is None else f"{currency} {ceil(cost - 1e-6):,}".replace(",", " ")


def _title(book: Book, plan: Plan) -> str:
    if plan.cost is None:
        return f"NO PLAN for {book.crane}."
    count = len(plan.changes)
    changes = "No change" if count == 0 else f"{count} change{'s' * (count != 1)}"
    out = sum(_is_left_out(group) for group in plan.groups)
    left = f" {out} lift{'s' * (out != 1)} left out." if out else ""
    return wrapped(f"{changes} for {book.crane}, cost {money(plan.cost, plan.currency)}.{left}")


def _days(sheet: JobSheet) -> str:
    """The one place where the year stands."""
    starts = sorted(job.start for job in sheet.jobs if job.start)
    if not starts:
        return ""
    first, last = (f"{one:%a} {one.day} {one:%b %Y}" for one in (starts[0], starts[-1]))
    return f"Lifts of {first}." if first == last else f"Lifts from {first} to {last}."


def _why_no_plan(plan: Plan) -> str:
    return wrapped(plan.why_no_plan) if plan.why_no_plan else ""


def _lifts(sheet: JobSheet, plan: Plan) -> str:
    if not plan.groups:
        return "No lifts on file."
    head = ("job", "from", "lift", "needed", "rig", "hours")
    rows = [
        (
            clipped(group.job, 10),
            _start(sheet, group.job),
            clipped(group.lift, 20),
            "?" if group.needed_falls is None else str(group.needed_falls),
            _rig(group),
            "" if group.hours is None else f"{ceil(group.hours * 10 - 1e-6) / 10:.1f}",
        )
        for group in plan.groups
    ]
    lines = table(head, rows, left=(0, 1, 2, 4)).splitlines()
    for change in sorted(plan.changes, key=lambda one: -one.before_group):
        lines.insert(1 + change.before_group, _arrow(change, plan))
    return "\n".join(lines)


def _rig(group: PlannedGroup) -> str:
    """The state; NONE where none can do it, ? where there is no plan."""
    if group.state is None:
        return "NONE" if _is_left_out(group) else "?"
    return clipped(str(group.state), 12)


def _is_left_out(group: PlannedGroup) -> bool:
    return group.state is None and group.stopped_by is not None


def _start(sheet: JobSheet, name: str) -> str:
    job = _job(sheet, name)
    return f"{job.start:%a} {job.start.day} {job.start:%b %H:%M}" if job and job.start else "?"


def _job(sheet: JobSheet, name: str) -> Job | None:
    return next((job for job in sheet.jobs if job.name == name), None)


def _arrow(change: PlannedChange, plan: Plan) -> str:
    return wrapped(f"{change.before} to {change.after}, {_minutes(change.minutes)}, {_where(change, plan)}", "  ==> ")


def _where(change: PlannedChange, plan: Plan) -> str:
    group = plan.groups[change.before_group]
    return PLACES.get(change.where, change.where).format(job=group.job, before=change.job or group.job)


def _minutes(minutes: float) -> str:
    return f"{ceil(minutes - 1e-6)} min"


def _changes(plan: Plan, system: str) -> str:
    lines = []
    for change in plan.changes:
        why = f"{said(change.why, system)}{_spare(change.minutes_left_in_job)}"
        lines.append(wrapped(f"{change.before} to {change.after}: {why}", "  ", "    "))
    return "\n".join(["Why there", *lines]) if lines else ""


def _spare(left: float | None) -> str:
    """The booked minutes that stay free; nothing where the change runs over them."""
    return "" if left is None or left < -1e-6 else f" Booked minutes still free in that job: {int(left + 1e-6)}."


def _left_out(plan: Plan, system: str) -> str:
    lines = [
        wrapped(
            f"{group.job}, {group.lift}: {plain_name(group.stopped_by or 'unknown')}. {said(group.why or '', system)}",
            "  ",
            "    ",
        )
        for group in plan.groups
        if _is_left_out(group)
    ]
    return "\n".join(["No state can do", *lines]) if lines else ""


def _next_best(plan: Plan) -> str:
    if plan.next_best is None or plan.cost is None:
        return ""
    more = plan.next_best.cost - plan.cost
    costs = f"{money(plan.next_best.cost, plan.currency)}, {money(more, plan.currency)} more" if more else "the same"
    head = f"If it were elsewhere: the next best plan costs {costs}."
    differing = [
        f"{group.job} {group.lift} on {_state(state)} instead of {_state(group.state)}"
        for group, state in _differing(plan, plan.next_best)
    ]
    return wrapped(head + (f" There: {listed(differing)}." if differing else ""))


def _differing(plan: Plan, other: NextBest) -> Iterator[tuple[PlannedGroup, State | None]]:
    return ((group, state) for group, state in zip(plan.groups, other.states, strict=True) if group.state != state)


def _state(state: State | None) -> str:
    return "nothing" if state is None else str(state)


def _notes(plan: Plan, system: str) -> str:
    return (
        "\n".join(["Notes", *(wrapped(said(note, system), "  ", "    ") for note in plan.notes)]) if plan.notes else ""
    )
