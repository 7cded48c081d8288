"""A change as its page shows it before it begins: position, rope to leave, what comes out, minutes, steps to read.

In:    a change as worked out, the site that it was worked out for.
Out:   records of short texts.
Never: a step or a figure that the change does not have; a start where it does not pass.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from becket.book.crane import Book
from becket.book.tackle import State
from becket.drawing.side import draw_side
from becket.figures import said, window
from becket.method.change import Change
from becket.method.facts import Reason
from becket.method.step import Step
from becket.method.step_words import CAUTIONS
from becket.verdict import Verdict
from becket.web.change_site import KnownSite
from becket.web.present.pattern import page_svg
from becket.web.present.trade import figure, limit_words, sentence, state_words, typeset


@dataclass(frozen=True, kw_only=True)
class StepShown:
    """One step to read."""

    number: int
    who: str
    do: str
    look_for: str | None
    asks: str | None
    is_blind: bool


@dataclass(frozen=True, kw_only=True)
class PhaseShown:
    """Steps that belong together."""

    name: str
    steps: tuple[StepShown, ...]


@dataclass(frozen=True, kw_only=True)
class ChangeShown:
    """The page of one change. ``can_start``: it passes every rule and both patterns are confirmed."""

    before: State
    after: State
    before_words: str
    after_words: str
    is_same_block: bool
    verdict: str
    can_start: bool
    is_confirmed: bool
    minutes: int | None
    is_estimate: bool
    minutes_said: str | None  # what the crew's own records say; None: there are none of this kind
    not_counted: tuple[str, ...]
    reasons: tuple[tuple[str, str, str], ...]  # verdict, name, why
    position: tuple[tuple[str, str], ...]  # key, figure
    why_no_position: str | None
    leave: str | None  # shaft to shaft
    leave_angle: str | None
    leave_least: tuple[str, str] | None  # figure, because
    leave_most: tuple[str, str] | None
    leave_why: str | None
    keep: str
    draw_out: str
    thread: str
    keepers: str
    pulled: str
    asked: tuple[str, ...]  # site figures that the first pause asks
    on_the_way: tuple[tuple[str, str], ...]  # key, figure
    phases: tuple[PhaseShown, ...]
    rules: tuple[tuple[str, str, str], ...]  # verdict, name, why: those that do not pass
    cautions: tuple[str, ...]
    picture: str
    site_job: str | None
    site_name: str | None
    is_planned: bool


@dataclass(frozen=True, kw_only=True)
class OptionRow:
    """One possible change in the list."""

    before: State
    after: State
    before_words: str
    after_words: str
    verdict: str
    minutes: int | None
    why: str | None
    is_same_block: bool
    is_planned: bool


def change_shown(book: Book, change: Change, site: KnownSite, system: str, own: str | None = None) -> ChangeShown:
    """Return a change for its page.

    Args:
        book: the crane
        change: as worked out
        site: that it was worked out for
        system: "metric" or "us"
        own: what the crew's own records say of its minutes; None: there are none
    """
    leave, minutes = change.rope_to_leave, change.minutes
    return ChangeShown(
        before=change.before,
        after=change.after,
        before_words=state_words(change.before),
        after_words=state_words(change.after),
        is_same_block=change.before.block == change.after.block,
        verdict=str(change.verdict),
        can_start=change.verdict is Verdict.PASS and change.is_confirmed,
        is_confirmed=change.is_confirmed,
        minutes=None if minutes is None else whole_minutes(minutes.total),
        is_estimate=minutes is not None and not minutes.from_records,
        minutes_said=None if own is None else sentence(own, system),
        not_counted=minutes.not_counted if minutes and not minutes.from_records else (),
        reasons=tuple(
            (str(one.verdict), limit_words(one.name), sentence(one.why, system))
            for one in change.reasons
            if one.verdict is not Verdict.PASS
        ),
        position=_position(change, system),
        why_no_position=_no_position(change, system),
        leave=figure(leave.target, "length", system, "up") if leave and leave.target is not None else None,
        leave_angle=figure(leave.at_angle, "angle", system) if leave else None,
        leave_least=(figure(leave.least, "length", system, "up"), sentence(leave.least_because, system))
        if leave
        else None,
        leave_most=(figure(leave.most, "length", system, "down"), sentence(leave.most_because, system))
        if leave
        else None,
        leave_why=sentence(leave.why, system) if leave and leave.target is None else None,
        keep=_listed(change.keep),
        draw_out=_listed(change.draw_out),
        thread=_listed(change.thread),
        keepers=_listed(change.keepers),
        pulled=figure(change.rope_pulled, "length", system, "up"),
        asked=change.asked,
        on_the_way=_on_the_way(change, system),
        phases=_phases(change, system),
        rules=tuple(
            (str(one.verdict), limit_words(one.name), sentence(one.why, system) if one.why else "")
            for one in change.rules
            if one.verdict is not Verdict.PASS
        ),
        cautions=CAUTIONS[1:],
        picture=page_svg(draw_side(book, change, system=system)),
        site_job=site.job.name if site.job else None,
        site_name=site.job.site if site.job else None,
        is_planned=site.planned is not None,
    )


def option_row(change: Change, site: KnownSite, system: str) -> OptionRow:
    """Return a change as a row of the list.

    Args:
        change: as worked out
        site: that it was worked out for
        system: "metric" or "us"
    """
    first = next((one for one in change.reasons if one.verdict is not Verdict.PASS), None)
    return OptionRow(
        before=change.before,
        after=change.after,
        before_words=state_words(change.before),
        after_words=state_words(change.after),
        verdict=str(change.verdict),
        minutes=whole_minutes(change.minutes.total) if change.minutes else None,
        why=_shortly(first, system) if first else None,
        is_same_block=change.before.block == change.after.block,
        is_planned=site.planned is not None,
    )


def _shortly(reason: Reason, system: str) -> str:
    """The first thing that a reason says, with its name where the reason does not begin with one."""
    why = sentence(reason.why, system).split("; ")[0]
    return why if ": " in why else f"{limit_words(reason.name)}: {why}"


def whole_minutes(seconds: float) -> int:
    """Return a time in whole minutes, rounded up [min].

    >>> whole_minutes(2741.5434)
    46
    """
    return ceil(seconds / 60 - 1e-6)


def _listed(things: tuple[object, ...]) -> str:
    return ", ".join(map(str, things))


def _no_position(change: Change, system: str) -> str | None:
    if change.position is not None or any(one.name == "position" for one in change.reasons):
        return None
    return sentence(change.why_no_position, system) if change.why_no_position else None


def _position(change: Change, system: str) -> tuple[tuple[str, str], ...]:
    at = change.position
    if at is None:
        return ()
    low, high = at.head_window
    return (
        ("length", figure(at.length, "length", system)),
        ("code", at.code),
        ("angle", figure(at.angle, "angle", system)),
        ("sector", at.sector),
        ("radius", figure(at.radius, "length", system, "up")),
        ("room", figure(at.free_radius_needed, "length", system, "up")),
        ("head", figure(at.head_height, "length", system)),
        ("window", typeset(window(low, high, "length", system))),
        ("counterweight", figure(at.counterweight, "mass", system)),
        ("outriggers", at.outriggers),
        ("wind", "?" if at.wind is None else f"{at.wind:.1f} m/s"),
        ("page", at.page or "?"),
        *((("override", f"{at.override.stops}, {at.override.page or '?'}"),) if at.override else ()),
    )


def _on_the_way(change: Change, system: str) -> tuple[tuple[str, str], ...]:
    run = change.simulation
    if run is None:
        return ()
    reach = "?" if run.weight_window is None else typeset(window(*run.weight_window, "angle", system))
    return (
        ("touches", figure(run.touches_angle, "angle", system)),
        ("weight", reach),
        ("span", figure(run.span_at_low, "length", system, "down")),
        ("slack", figure(run.slack_at_low, "length", system, "up")),
        ("lead", figure(run.lead_change, "length", system, "up")),
        ("tight", figure(run.tight_angle, "angle", system)),
        ("lift_off", figure(run.lift_off_angle, "angle", system)),
        ("off_plumb", figure(run.off_plumb, "length", system, "up")),
        ("clearance", figure(run.least_head_clearance, "length", system, "down")),
        ("over_block", figure(run.clear_over_block, "length", system, "down")),
    )


def _phases(change: Change, system: str) -> tuple[PhaseShown, ...]:
    phases: list[tuple[str, list[StepShown]]] = []
    for step in change.steps:
        if not phases or phases[-1][0] != step.phase:
            phases.append((step.phase, []))
        phases[-1][1].append(_step(step, system))
    return tuple(PhaseShown(name=limit_words(name).capitalize(), steps=tuple(steps)) for name, steps in phases)


def _step(step: Step, system: str) -> StepShown:
    return StepShown(
        number=step.number,
        who=step.who,
        do=typeset(said(step.do, system)),
        look_for=typeset(said(step.look_for, system)) if step.look_for else None,
        asks=step.value_asked,
        is_blind=step.blind,
    )
