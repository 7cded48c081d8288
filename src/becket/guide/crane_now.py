"""What is known of a crane now: the state that was last closed, what is open, what locks it out.

In:    the events of one crane, in any order; the scripts of its runs by id.
Out:   a frozen record; the plain object that a phone makes of the same events.
Never: a state that no closed run found; a lock-out that ends by itself.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import asdict, dataclass

from becket.guide.closing import limit_tried
from becket.guide.compare import COUNTERS
from becket.guide.course import Course
from becket.guide.event import Event, Plain, order_of
from becket.guide.run import course_of, in_order
from becket.guide.script import Script


@dataclass(frozen=True, kw_only=True)
class CraneNow:
    """A crane as its events tell it."""

    state: str | None  # "main:4", of the run that was closed last; None: nobody has counted yet
    since: str | None
    by: tuple[str, ...]  # ids of the two who signed
    indicator: Plain | None  # what both read: {"falls", "block"}
    limit_tried: Plain | None  # {"at", "falls"}: the hoist limit on this state
    open_run: str | None  # id of a run that is begun and not closed
    locked: Plain | None  # {"what", "at", "by"}: until an inspection is entered
    differs: bool  # the counts of the open run differ


@dataclass(frozen=True, kw_only=True)
class Run:
    """One run of a crane, gone through. ``course`` None: its script is not at hand."""

    name: str
    start: Event
    course: Course | None

    @property
    def is_closed(self) -> bool:
        """Whether it was closed [-]."""
        return self.course is not None and self.course.closed_by is not None


def crane_now(events: Iterable[Event], scripts: Mapping[str, Script]) -> CraneNow:
    """Return what is known of a crane [-].

    Args:
        events: of this crane, and of the firm if they are at hand
        scripts: of its runs, by id; a run without its script counts as open

    Source: docs/theory/run.md, a crane.
    """
    ordered = in_order(events)
    runs = runs_of(ordered, scripts)
    since = last_lock_out_ended(ordered)
    counted = [run for run in runs if since is None or order_of(run.start) > order_of(since)]
    closed = [run.course for run in counted if run.course is not None and run.is_closed]
    last = max(closed, key=lambda course: order_of(_close_of(course)), default=None)
    now = open_run(ordered, runs)
    return CraneNow(
        state=last.result() if last else None,
        since=_close_of(last).at if last else None,
        by=tuple(str(last.people[role]) for role in COUNTERS) if last else (),
        indicator=_indicator(last) if last else None,
        limit_tried=_limit(last) if last else None,
        open_run=now.name if now else None,
        locked=lock_out(ordered),
        differs=now is not None and now.course is not None and now.course.differ is not None,
    )


def crane_now_as_dict(now: CraneNow) -> dict[str, object]:
    """Return it as the plain object that craneNow of fold.js makes of the same events [-].

    Args:
        now: of a crane
    """
    plain: dict[str, object] = json.loads(json.dumps(asdict(now)))
    return plain


def runs_of(ordered: Iterable[Event], scripts: Mapping[str, Script]) -> tuple[Run, ...]:
    """Return every run that was started, gone through, in the order in which they began [-].

    Args:
        ordered: events of one crane, in order
        scripts: by id
    """
    by_run: dict[str, list[Event]] = {}
    starts: dict[str, Event] = {}
    for event in ordered:
        if event.run is not None:
            by_run.setdefault(event.run, []).append(event)
            if event.kind == "run_started":
                starts.setdefault(event.run, event)
    found = []
    for name, start in starts.items():
        script = scripts.get(str(start.entered.get("script")))
        course = course_of(script, by_run[name]) if script else None
        found.append(Run(name=name, start=start, course=course))
    return tuple(found)


def open_run(ordered: Iterable[Event], runs: Iterable[Run]) -> Run | None:
    """Return the run that is begun and not closed; None: there is none [-].

    A run that began before an inspection was entered is given up with it. A count holds nothing up: the next run
    takes its place.

    Args:
        ordered: events of one crane, in order
        runs: of the same events, in order
    """
    inspected = [order_of(event) for event in ordered if ends_lock_out(event)]
    alive = [run for run in runs if not inspected or order_of(run.start) > inspected[-1]]
    changes = [run for run in alive if not run.is_closed and run.start.entered.get("kind") != "count"]
    if changes:
        return changes[-1]
    return alive[-1] if alive and not alive[-1].is_closed else None


def last_lock_out_ended(ordered: Iterable[Event]) -> Event | None:
    """Return the inspection that ended the last lock-out; None: none was ended [-].

    What hung before it is not known any more, and a run that began before it tells nothing: it is counted anew.

    Args:
        ordered: events of one crane, in order
    """
    ended, is_locked = None, False
    for event in ordered:
        if event.kind == "trouble_entered":
            is_locked = True
        elif is_locked and ends_lock_out(event):
            ended, is_locked = event, False
    return ended


def lock_out(ordered: Iterable[Event]) -> Plain | None:
    """Return what locks a crane out: {"what", "at", "by"}; None: nothing does [-].

    Args:
        ordered: events of one crane, in order
    """
    locked: Plain | None = None
    for event in ordered:
        if event.kind == "trouble_entered":
            locked = {"what": event.entered.get("what"), "at": event.at, "by": event.person}
        elif ends_lock_out(event):
            locked = None
    return locked


def ends_lock_out(event: Event) -> bool:
    """Return whether an event is an inspection that found the crane fit, with who and what was found [-].

    Args:
        event: any
    """
    told = [event.entered.get(name) for name in ("by_whom", "found")]
    is_told = all(isinstance(text, str) and text.strip(" \t\r\n") for text in told)
    return event.kind == "inspection_entered" and is_told and event.entered.get("fit") is True


def _close_of(course: Course) -> Event:
    if course.closed_by is None:
        raise ValueError("a run that is not closed has no close")
    return course.closed_by


def _indicator(course: Course) -> Plain | None:
    found = course.found()
    has_read = any(group.compare == "indicator" for group in course.script.groups)
    return {"falls": found.falls, "block": found.block} if found is not None and has_read else None


def _limit(course: Course) -> Plain | None:
    state, found = course.state(), course.found()
    item = limit_tried(course.script, state)
    if item is None or found is None:
        return None
    return {"at": state.items[item.id].at, "falls": found.falls}
