"""The page Now: what is rigged, whether the next lift needs another, the next change.

In:    a crane as its files say, its plan, what the record says is rigged.
Out:   records of short texts.
Never: money; a load beside the falls; a ready state; a number of falls that nobody counted.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta

from becket.book.crane import Book
from becket.book.tackle import State
from becket.figures import percent
from becket.limits.table import falls_table, row_of
from becket.limits.wording import falls_in_words
from becket.planning.answer import Plan, PlannedChange
from becket.planning.clock import plan_clock
from becket.settings.values import Settings
from becket.verdict import Verdict
from becket.web.crane_files import CraneFile
from becket.web.present.lifts import SheetLift, lift_ahead, sheet_lifts
from becket.web.present.rigged import Rigged
from becket.web.present.trade import (
    Word,
    clock_of,
    day_of,
    limit_words,
    minutes_up,
    moment_of,
    state_words,
    was_at,
)

SHIFT = timedelta(hours=12)  # what was confirmed longer ago was confirmed in another shift


@dataclass(frozen=True, kw_only=True)
class LiftShown:
    """The lift that goes on or comes next. ``verdict`` None: what is rigged is not known."""

    number: int
    name: str
    when: str
    site: str
    is_now: bool
    needs: int | None
    needs_words: str
    verdict: str | None
    passing: tuple[str, ...]  # states on file on which every limit passes
    failing: tuple[str, ...]  # states on file on which one fails


@dataclass(frozen=True, kw_only=True)
class NextChange:
    """The next change of the plan."""

    before: State
    after: State
    words: str
    day: str
    clock: str
    where: str
    minutes: int
    why: str
    href: str


@dataclass(frozen=True, kw_only=True)
class Dated:
    """A moment and whose it is."""

    key: str
    when: str
    by: str
    falls: str


@dataclass(frozen=True, kw_only=True)
class NowShown:
    """The page Now. ``kind``: "known", "open" (a change or a count is), "not_known"."""

    kind: str
    falls: int | None
    block: str | None
    state: str | None
    indicator: str | None
    by: str
    since: str
    since_iso: str | None
    older_after: str | None  # ISO 8601: from then on the record is older than a shift
    is_old: bool
    differs: bool
    locked: Dated | None
    limit: Dated | None
    open_run: str | None
    open_words: str
    before: str | None
    after: str | None
    lift: LiftShown | None
    next: NextChange | None
    ahead: str | None  # said where no change is ahead
    has_patterns: bool


def now_shown(
    crane: CraneFile, plan: Plan | None, rigged: Rigged, word: Word, now: datetime, *, before: int = 0
) -> NowShown:
    """Return the page Now.

    Args:
        crane: as its files say
        plan: from what is rigged; None: there is none
        rigged: what the record says
        word: the catalogue
        now: with its offset
        before: lifts of the whole sheet that stand before those ahead
    """
    kind = "open" if rigged.open_run else "known" if rigged.state else "not_known"
    lifts = sheet_lifts(crane.sheet, plan, before)
    ahead = lift_ahead(lifts, now.replace(tzinfo=None))
    lift = _lift(crane, rigged.state if kind == "known" else None, ahead, word, now) if ahead else None
    may_change = kind == "known" and rigged.locked_what is None
    change = _next_change(crane, plan, word, now) if plan and may_change else None
    since = rigged.since
    old = since is not None and now - since > SHIFT
    return NowShown(
        kind=kind,
        falls=rigged.state.falls if rigged.state else None,
        block=rigged.state.block if rigged.state else None,
        state=str(rigged.state) if rigged.state else None,
        indicator=rigged.indicator_words,
        by=_and(rigged.by, word),
        since=moment_of(was_at(since), word) if since else "",
        since_iso=since.isoformat() if since else None,
        older_after=(since + SHIFT).isoformat() if since else None,
        is_old=old,
        differs=rigged.differs and kind == "known",
        locked=_dated(rigged.locked_what, rigged.locked_at, rigged.locked_by, word) if rigged.locked_what else None,
        limit=_limit(rigged, word) if kind == "known" else None,
        open_run=rigged.open_run,
        open_words=_open(rigged, word),
        before=_falls_or_state(rigged, rigged.open_before),
        after=_falls_or_state(rigged, rigged.open_after),
        lift=lift,
        next=change,
        ahead=None if change or not may_change else _ahead(crane, plan, rigged, lifts, ahead, word),
        has_patterns=crane.book is not None and bool(crane.book.patterns),
    )


def _falls_or_state(rigged: Rigged, state: State | None) -> str | None:
    if state is None:
        return None
    both = (rigged.open_before, rigged.open_after)
    return str(state.falls) if all(one and one.block == state.block for one in both) else state_words(state)


def _and(names: tuple[str, ...], word: Word) -> str:
    if len(names) < 2:
        return "".join(names) or "?"
    return word("now.and", first=", ".join(names[:-1]), last=names[-1])


def _dated(what: str, at: datetime | None, by: str, word: Word) -> Dated:
    key = what.replace(" ", "_").replace("-", "_")
    known = key if key in ("wrong_reeve", "two_block", "shock") else "other"
    return Dated(key=known, when=moment_of(was_at(at), word) if at else "?", by=by or "?", falls="")


def _limit(rigged: Rigged, word: Word) -> Dated | None:
    if rigged.limit_at is None or rigged.state is None:
        return None
    same_day = rigged.since is not None and rigged.since.date() == rigged.limit_at.date()
    when = clock_of(was_at(rigged.limit_at)) if same_day else moment_of(was_at(rigged.limit_at), word)
    return Dated(key="", when=when, by="", falls=falls_in_words(rigged.state.falls))


def _open(rigged: Rigged, word: Word) -> str:
    if rigged.open_run is None:
        return ""
    if rigged.counts_differ:
        return word("now.open.differ")
    if rigged.open_kind == "count":
        return word("now.open.count")
    if rigged.open_is_stopped:
        return word("now.open.stopped")
    if rigged.open_step is not None:
        return word("now.open.step", step=rigged.open_step)
    if rigged.open_pause is not None:
        return word("now.open.pause", pause=rigged.open_pause)
    return word("now.open.sign" if rigged.open_is_signing else "now.open.change")


def _lift(crane: CraneFile, state: State | None, one: SheetLift, word: Word, now: datetime) -> LiftShown | None:
    book, settings = crane.book, crane.settings
    if book is None:
        return None
    block = state.block if state else (one.state.block if one.state else next(iter(book.blocks), None))
    if block is None or block not in book.blocks:
        return None
    answer = falls_table(book, settings, block, one.lift)
    verdicts = {str(p.state): row_of(book, settings, p.state, one.lift).verdict for p in book.patterns}
    words = "no_load" if one.lift.load is None else "unproven" if answer.unproven else "none"
    moment = now.replace(tzinfo=None)
    return LiftShown(
        number=one.number,
        name=one.lift.name,
        when=moment_of(one.when, word) if one.when else "?",
        site=one.job.name,  # short: the place stands with the next change
        is_now=one.when is not None and one.when <= moment,
        needs=answer.recommended,
        needs_words="" if answer.recommended else word(f"now.needs.{words}"),
        verdict=str(row_of(book, settings, state, one.lift).verdict) if state else None,
        passing=tuple(name for name, verdict in verdicts.items() if verdict is Verdict.PASS),
        failing=tuple(name for name, verdict in verdicts.items() if verdict is Verdict.FAIL),
    )


def _next_change(crane: CraneFile, plan: Plan, word: Word, now: datetime) -> NextChange | None:
    if crane.sheet is None or crane.book is None or not plan.changes:
        return None
    change, moment = plan.changes[0], plan_clock(crane.sheet, plan).changes[0]
    same = change.before.block == change.after.block
    group = plan.groups[change.before_group]
    job = next((one for one in crane.sheet.jobs if one.name == (change.job or group.job)), None)
    return NextChange(
        before=change.before,
        after=change.after,
        words=word("now.next.falls", before=change.before.falls, after=change.after.falls)
        if same
        else word("now.next.blocks", before=state_words(change.before), after=state_words(change.after)),
        day=day_of(moment, word) if moment else "",
        clock=clock_of(moment) if moment else "",
        where=word(f"now.where.{change.where}", site=(job.site or job.name) if job else "?"),
        minutes=minutes_up(change.minutes),
        why=_why(crane.book, crane.settings, sheet_lifts(crane.sheet, plan)[change.before_group], change, word),
        href=f"/c/{crane.id}/change/{change.before}/{change.after}",
    )


def _why(book: Book, settings: Settings, one: SheetLift, change: PlannedChange, word: Word) -> str:
    """Why the change is made, in one sentence: what the lift behind it needs and what fails as rigged."""
    row = row_of(book, settings, change.before, one.lift)
    same = change.before.block == change.after.block
    before = falls_in_words(change.before.falls) if same else state_words(change.before)
    after = falls_in_words(change.after.falls) if same else state_words(change.after)
    if row.verdict is Verdict.PASS:
        return word("now.why.better", lift=one.lift.name, before=before, after=after)
    use = row.limit(row.governs).use
    key = "unknown" if row.verdict is Verdict.UNKNOWN else "fails" if use is not None else "fails.bare"
    return word(
        f"now.why.{key}",
        lift=one.lift.name,
        needs=after,
        before=before,
        limit=limit_words(row.governs),
        use=percent(use),
    )


def _ahead(
    crane: CraneFile,
    plan: Plan | None,
    rigged: Rigged,
    lifts: tuple[SheetLift, ...],
    ahead: SheetLift | None,
    word: Word,
) -> str | None:
    """What is said where there is no next change: why there is none."""
    if crane.book is None or rigged.state is None:
        return None
    if not lifts:
        return word("now.no_lifts")
    if plan is None or plan.cost is None:
        return word("now.no_plan")
    if ahead is None:
        return word("now.no_more_lifts")
    out = sum(one.state is None for one in lifts)
    if out:
        return word("now.no_change.left_out", number=out)
    return word("now.no_change", falls=falls_in_words(rigged.state.falls))
