"""The minutes of a run: how long it took, what of it was interruption, who pays, what the plan learns from it.

In:    what a record is told from, with what was learned.
Out:   one section of the record.
Never: a lesson from a run that is not a closed change; a score of a crew.
"""

from __future__ import annotations

from becket.cards.record_told import Line, Section
from becket.planning.crew_records import Taken, minutes_up
from becket.web.present.planned import mark_words
from becket.web.present.record_kept import RunKept, seconds_between
from becket.web.present.taught import Taught


def tell_minutes(run: RunKept) -> Section:
    """Return how long a run took and what it taught [-].

    Args:
        run: what the record is told from
    """
    started, ended, learned = run.state.started, run.state.ended, run.taught
    lines = []
    if started:
        lines.append(Line(label=run.word("record.began"), value=run.at(started)))
    if started and ended:
        lines.append(Line(label=run.word("record.ended"), value=run.at(ended)))
        lines.append(Line(label=run.word("record.took"), value=_minutes(run, seconds_between(started, ended))))
    if learned is not None and learned.taken is not None:
        lines.extend(_worked(run, learned.taken))
    if run.script.minutes is not None:
        lines.append(Line(label=run.word("record.estimate"), value=_minutes(run, run.script.minutes * 60)))
    title = "record.minutes"
    if run.script.kind == "change":
        title = "record.minutes_pays"
        lines.append(Line(label=run.word("record.plan"), value=_plan(run)))
    says = () if learned is None else _lesson(run, learned)
    return Section(name="minutes", title=run.word(title), says=says, lines=tuple(lines))


def _minutes(run: RunKept, seconds: float) -> str:
    return run.word("record.minutes_value", minutes=minutes_up(seconds))


def _plan(run: RunKept) -> str:
    """Return where the plan had it and who pays, as it was kept when the change began."""
    started = run.of_kind("run_started")
    why = started[0].event.entered.get("why") if started else None
    return mark_words(str(why), run.word) if why else run.word("record.plan.none")


def _worked(run: RunKept, taken: Taken) -> tuple[Line, Line]:
    """Return the time worked, and what was taken out: the two add up to the whole minutes that the run took."""
    out = minutes_up(taken.worked + taken.interrupted) - minutes_up(taken.worked)
    took = run.word("record.minutes_value", minutes=out) if out else run.word("record.under_a_minute")
    key = "none" if taken.stops == 0 else "once" if taken.stops == 1 else "times"
    interrupted = run.word(f"record.interrupted_{key}", minutes=took, times=taken.stops)
    return (
        Line(label=run.word("record.worked"), value=_minutes(run, taken.worked)),
        Line(label=run.word("record.interrupted"), value=interrupted),
    )


def _lesson(run: RunKept, taught: Taught) -> tuple[str, ...]:
    time = taught.time
    if taught.taken is None:
        return (run.word("record.taught_nothing", why=taught.why),)
    if taught.place is None or time is None:
        return ()
    if not time.is_enough:
        words = {"place": taught.place, "needed": taught.needed, "count": time.count}
        return (run.word("record.taught_before", **words),)
    spread = {"least": minutes_up(time.least), "greatest": minutes_up(time.greatest)}
    words = {"place": taught.place, "count": time.count, "median": minutes_up(time.median), **spread}
    return (run.word("record.taught_used", **words),)
