"""The state of one run, made of its script and its events.

In:    the script of the run and the set of its events, in any order, some of them more than once.
Out:   a frozen record; the plain object that a phone makes of the same events.
Never: the time now; a value of a blind count that is not complete; a change to an event.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict

from becket.guide.course import Course
from becket.guide.event import Event, order_of
from becket.guide.run_rules import take
from becket.guide.run_state import RunState as RunState
from becket.guide.script import Script


def fold_run(script: Script, events: Iterable[Event]) -> RunState:
    """Return the state of a run [-].

    Args:
        script: of the run
        events: of this run alone, in any order; one that was delivered twice counts once

    Raises:
        ValueError: the events are of more than one run.

    Source: docs/theory/run.md.
    """
    return course_of(script, events).state()


def course_of(script: Script, events: Iterable[Event]) -> Course:
    """Return a run gone through, event by event [-].

    Args:
        script: of the run
        events: of this run alone, in any order; one that was delivered twice counts once

    Raises:
        ValueError: the events are of more than one run.
    """
    ordered = in_order(events)
    runs = sorted({str(event.run) for event in ordered})
    if len(runs) > 1:
        raise ValueError(f"events of one run are wanted, these are of {', '.join(runs)}")
    course = Course(script)
    for event in ordered:
        take(course, event)
    return course


def in_order(events: Iterable[Event]) -> tuple[Event, ...]:
    """Return every event once, in the one order of all devices [-].

    Args:
        events: in any order, some of them more than once; of an entry that is there sealed and open the open one counts
    """
    once: dict[str, Event] = {}
    for event in events:
        if event.key not in once or once[event.key].entered.get("sealed") is True:
            once[event.key] = event
    return tuple(sorted(once.values(), key=order_of))


def run_as_dict(state: RunState) -> dict[str, object]:
    """Return a state as the plain object that foldRun of fold.js makes of the same events [-].

    Args:
        state: of a run
    """
    plain: dict[str, object] = json.loads(json.dumps(asdict(state)))
    return plain


def events_of_run(events: Iterable[Event], run: str) -> tuple[Event, ...]:
    """Return the events of one run [-].

    Args:
        events: of any run, crane, firm
        run: id of the run
    """
    return tuple(event for event in events if event.run == run)
