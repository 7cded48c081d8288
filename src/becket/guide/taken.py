"""How long a closed change took: what the crew's own minutes are learned from.

In:    a closed run, its script, its events.
Out:   the time worked and the time interrupted; or why nothing is learned from it.
Never: a run that is not closed; a time over which two clocks disagree; one that was entered afterwards.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from becket.guide.event import Event, order_of
from becket.guide.moment import seconds_between
from becket.guide.run_state import RunState
from becket.guide.script import Script
from becket.planning.crew_records import Taken
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True)
class Learned:
    """What one run teaches. ``taken`` None: nothing, and ``why`` says why not."""

    taken: Taken | None
    why: str = ""


def time_taken(settings: Settings, script: Script, state: RunState, events: Iterable[Event]) -> Learned:
    """Return how long a change took, stops taken out [s].

    From the first event to the last signature, by the clock of the device that began; from each stop to going on again
    is interruption.

    Args:
        settings: how short a record may be to be believed
        script: of the run
        state: of the run
        events: of the run, in any order

    Source: docs/theory/method.md, "Minutes".
    """
    if script.kind != "change" or state.status != "closed" or state.started is None or state.ended is None:
        return Learned(taken=None, why="not a closed change")
    whole = seconds_between(state.started, state.ended)
    apart = {*state.late, *state.out_of_turn}
    stops = _stops(one for one in events if one.key not in apart)
    if whole is None or whole <= 0 or None in stops or any(stop is not None and stop < 0 for stop in stops):
        return Learned(taken=None, why="the clocks disagree, so the time is not known")
    interrupted = float(sum(stop for stop in stops if stop is not None))
    worked = whole - interrupted
    if script.minutes is not None and worked < settings.records_least_share * script.minutes * 60:
        share = f"under {settings.records_least_share:.0%} of the {script.minutes:.0f} min planned for it"
        return Learned(taken=None, why=f"{int(worked // 60)} min, {share}: entered afterwards")
    return Learned(taken=Taken(worked=worked, interrupted=interrupted, stops=len(stops)))


def _stops(events: Iterable[Event]) -> list[int | None]:
    """Return the length of every interruption that was ended; None: it cannot be told [s]."""
    left: str | None = None
    found: list[int | None] = []
    for event in sorted(events, key=order_of):
        if event.kind == "stopped" and left is None:
            left = event.at
        elif event.kind in ("resumed", "went_on_from_paper") and left is not None:
            found.append(seconds_between(left, event.at))
            left = None
    return found
