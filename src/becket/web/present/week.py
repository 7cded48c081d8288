"""The week of a crane: lift groups and changes in time order, why there, what else was possible.

In:    a crane as its files say, its plan.
Out:   records of short texts.
Never: money where it is not asked for; a lift that the plan leaves out drawn as planned.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from math import ceil, floor

from becket.book.crane import Book
from becket.book.jobs import JobSheet
from becket.figures import percent
from becket.limits.table import row_of
from becket.planning.answer import Plan, PlannedChange
from becket.planning.clock import plan_clock
from becket.planning.crew_records import CrewRecords, crew_time, records_note, records_said
from becket.settings.values import Settings
from becket.verdict import Verdict
from becket.web.present.lifts import SheetLift, sheet_lifts
from becket.web.present.trade import Word, limit_words, minutes_up, moment_of, sentence, state_words, was_at

_FAIL = re.compile(r"\bfail at\b")
_WEEK = timedelta(days=7)


@dataclass(frozen=True, kw_only=True)
class GroupPlate:
    """One lift group. ``kind``: "planned", "fail", "unknown" (left out, and why), "open" (there is no plan)."""

    kind: str
    number: int  # of the lift's page
    when: str
    site: str
    lift: str
    count: int
    state: str | None
    governs: str | None
    use: str
    stopped_by: str | None
    why: str | None


@dataclass(frozen=True, kw_only=True)
class Payer:
    """Who pays what the plan costs more for a change. ``who``: "none" (nobody more), "customer", "own", "both"."""

    who: str
    cost: str
    customer: str
    own: str


@dataclass(frozen=True, kw_only=True)
class ChangePlate:
    """One change of the plan."""

    kind: str  # "change"
    when: str
    where: str  # "E", "I", "S", "Y"
    job: str
    site: str
    before: str
    after: str
    before_falls: int
    after_falls: int
    is_same_block: bool
    minutes: int
    records: int | None  # own records whose median the minutes are; None: an estimate by the settings
    minutes_said: str | None  # what the own records say; None: there are none of this kind
    left: int | None  # booked minutes still free in that job, rounded down; None: none are, or nobody knows
    href: str
    why: str
    pays: Payer | None  # None: money is not shown


@dataclass(frozen=True, kw_only=True)
class WeekShown:
    """The page Week. ``span`` "week": all jobs begin within seven days; else "sheet"."""

    plates: tuple[GroupPlate | ChangePlate, ...]
    changes: tuple[ChangePlate, ...]
    span: str
    left_out: int
    unknown: int  # of those left out: how many for want of a figure
    why_no_plan: str | None
    made: str
    cost: str | None
    elsewhere: str | None  # "same", or what the next best plan costs more
    differing: tuple[tuple[str, str, str], ...]  # lift, on, instead of
    notes: tuple[str, ...]


def week_shown(crane: WeekFacts, word: Word, system: str, with_cost: bool) -> WeekShown:
    """Return the page Week of a crane with a job sheet [-].

    Args:
        crane: its book, settings, sheet and plan
        word: the catalogue
        system: "metric" or "us"
        with_cost: whether money is shown
    """
    plan = crane.plan
    lifts = sheet_lifts(crane.sheet, plan, crane.before)
    groups = [_group(crane, one, word, system) for one in lifts]
    changes = [_change(crane, at, word, system, with_cost) for at in range(len(plan.changes))]
    starts = [job.start for job in crane.sheet.jobs if job.start is not None]
    out = [group for group in groups if group.kind in ("fail", "unknown")]
    return WeekShown(
        plates=_in_order(plan, groups, changes),
        changes=tuple(changes),
        span="week" if starts and max(starts) - min(starts) < _WEEK else "sheet",
        left_out=len(out),
        unknown=sum(group.kind == "unknown" for group in out),
        why_no_plan=None if plan.why_no_plan is None else _capitals(sentence(plan.why_no_plan, system)),
        made=moment_of(was_at(datetime.fromisoformat(crane.made)), word),
        cost=money(plan.cost, plan.currency) if with_cost else None,
        elsewhere=_elsewhere(plan, with_cost),
        differing=_differing(plan, word),
        notes=tuple(_capitals(_without_cost(sentence(note, system), with_cost)) for note in _other_notes(crane)),
    )


@dataclass(frozen=True, kw_only=True)
class WeekFacts:
    """What the page Week is made from."""

    id: str
    book: Book
    settings: Settings
    sheet: JobSheet
    plan: Plan
    made: str  # ISO 8601
    before: int = 0  # lifts of the whole sheet that stand before those ahead
    records: CrewRecords = field(default_factory=dict)  # that the plan was made with


def money(cost: float | None, currency: str) -> str:
    """Return a sum with its currency, rounded up to whole units [-].

    >>> money(1234.2, "EUR")
    'EUR 1 235'
    """
    return "?" if cost is None else f"{currency} {ceil(cost - 1e-6):,}".replace(",", " ").strip()


def _in_order(plan: Plan, groups: list[GroupPlate], changes: list[ChangePlate]) -> tuple[GroupPlate | ChangePlate, ...]:
    plates: list[GroupPlate | ChangePlate] = []
    for number, group in enumerate(groups):
        plates += [plate for plate, one in zip(changes, plan.changes, strict=True) if one.before_group == number]
        plates.append(group)
    return tuple(plates)


def _group(crane: WeekFacts, one: SheetLift, word: Word, system: str) -> GroupPlate:
    row = None if one.state is None else row_of(crane.book, crane.settings, one.state, one.lift)
    return GroupPlate(
        kind=_kind(crane, one),
        number=one.number,
        when="?" if one.when is None else moment_of(one.when, word),
        site=one.job.site or one.job.name,
        lift=one.lift.name,
        count=one.lift.count,
        state=None if one.state is None else state_words(one.state),
        governs=limit_words(row.governs) if row else None,
        use=percent(row.limit(row.governs).use) if row and row.governs else "",
        stopped_by=limit_words(one.stopped_by) if one.stopped_by else None,
        why=_capitals(sentence(one.why, system)) if one.why else None,
    )


def _kind(crane: WeekFacts, one: SheetLift) -> str:
    """Whether a lift is left out for certain or for want of a figure: no state on file fails for certain there."""
    if one.state is not None:
        return "planned"
    if one.stopped_by is None:
        return "open"
    rows = (row_of(crane.book, crane.settings, pattern.state, one.lift) for pattern in crane.book.patterns)
    return "fail" if all(row.verdict is Verdict.FAIL for row in rows) else "unknown"


def _change(crane: WeekFacts, at: int, word: Word, system: str, with_cost: bool) -> ChangePlate:
    plan, change = crane.plan, crane.plan.changes[at]
    moment = plan_clock(crane.sheet, plan).changes[at]
    job = _job_of(crane, change)
    left, own = change.minutes_left_in_job, crane.records.get((change.before, change.after), ())
    time = crew_time(crane.settings, own)
    said = records_said(crane.settings, own)
    return ChangePlate(
        kind="change",
        when="" if moment is None else moment_of(moment, word),
        where=change.where,
        job=job,
        site=next((one.site or one.name for one in crane.sheet.jobs if one.name == job), job),
        before=state_words(change.before),
        after=state_words(change.after),
        before_falls=change.before.falls,
        after_falls=change.after.falls,
        is_same_block=change.before.block == change.after.block,
        minutes=minutes_up(change.minutes),
        records=time.count if time is not None and time.is_enough else None,
        minutes_said=None if said is None else sentence(said, system),
        left=None if left is None or left < -1e-6 else floor(left + 1e-6),
        href=f"/c/{crane.id}/change/{change.before}/{change.after}",
        why=_capitals(_without_cost(sentence(change.why, system), with_cost)),
        pays=_payer(change, plan.currency) if with_cost else None,
    )


def _payer(change: PlannedChange, currency: str) -> Payer:
    cost, customer, own = (money(sum_, currency) for sum_ in (change.cost, change.customer_pays, change.we_pay))
    return Payer(who=change.payer, cost=cost, customer=customer, own=own)


def _job_of(crane: WeekFacts, change: PlannedChange) -> str:
    """The job on whose site a change is made; the one that follows for a change in the yard."""
    return change.job or crane.plan.groups[change.before_group].job


def _other_notes(crane: WeekFacts) -> list[str]:
    """The notes of the plan without those on the crew's records: they stand with their change."""
    kinds = [(one.before, one.after) for one in crane.plan.changes]
    told = {records_note(crane.settings, kind, crane.records) for kind in kinds}
    return [note for note in crane.plan.notes if note not in told]


def _elsewhere(plan: Plan, with_cost: bool) -> str | None:
    if plan.next_best is None or plan.cost is None:
        return None
    more = plan.next_best.cost - plan.cost
    if not more:
        return "same"
    return money(more, plan.currency) if with_cost else "more"


def _differing(plan: Plan, word: Word) -> tuple[tuple[str, str, str], ...]:
    if plan.next_best is None:
        return ()
    pairs = zip(plan.groups, plan.next_best.states, strict=True)
    none = word("week.nothing")
    return tuple(
        (
            f"{group.job} {group.lift}",
            none if state is None else state_words(state),
            none if group.state is None else state_words(group.state),
        )
        for group, state in pairs
        if group.state != state
    )


_MONEY = re.compile(r" ?(?:\d[\d ]*\.\d\d [A-Z]{3}|[A-Z]{3} \d[\d ]*)")


def _without_cost(text: str, with_cost: bool) -> str:
    """A sentence that names a sum of money is left out where money is not shown."""
    if with_cost:
        return text
    return " ".join(part for part in re.split(r"(?<=[.]) (?=[A-Z])", text) if not _MONEY.search(part))


def _capitals(text: str) -> str:
    return _FAIL.sub("FAIL at", text)
