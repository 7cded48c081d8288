"""The time of a closed change: stops taken out, clocks that disagree and records entered afterwards not believed."""

from __future__ import annotations

from dataclasses import replace

from becket.guide.event import Event
from becket.guide.run_state import RunState
from becket.guide.script import Script
from becket.guide.taken import Learned, time_taken
from tests.crane import invented_settings

SETTINGS = invented_settings()
SCRIPT = Script(
    kind="change",
    crane="c",
    crane_name="C",
    manual="M",
    issue=None,
    book="0",
    before="main:2",
    after="main:4",
    minutes=40.0,
    facts=(),
    warnings=(),
    expects=(),
    keepers_out=None,
    clips_out=None,
    items=(),
    groups=(),
    pictures={},
)
CLOSED = RunState(
    status="closed",
    at=None,
    round=None,
    screen="closed",
    order=(),
    items={},
    rounds={},
    differ=None,
    rounds_kept=(),
    people={},
    stop=None,
    resume=None,
    signed={},
    missing=(),
    devices=(),
    one_device=False,
    out_of_turn=(),
    late=(),
    started="2031-05-05T10:00:00+02:00",
    ended="2031-05-05T11:10:00+02:00",
    result="main:4",
)


def event(kind: str, time: str, tick: int) -> Event:
    return Event(
        key=f"k{tick}",
        crane="c",
        run="r",
        kind=kind,
        person="p",
        role="operator",
        device="d",
        at=f"2031-05-05T{time}+02:00",
        tick=tick,
        shown={},
        entered={},
    )


def learned(*events: Event, state: RunState = CLOSED, script: Script = SCRIPT) -> Learned:
    return time_taken(SETTINGS, script, state, events)


def test_seventy_minutes() -> None:
    found = learned().taken
    assert found is not None
    assert (found.worked, found.interrupted) == (70 * 60, 0)


def test_stop_is_taken_out_and_told() -> None:
    """Stopped from 10:20 to 10:35: 55 of the 70 minutes were work. The order of delivery does not matter."""
    stop, go = event("stopped", "10:20:00", 5), event("resumed", "10:35:00", 6)
    for order in ((stop, go), (go, stop)):
        found = learned(*order).taken
        assert found is not None
        assert (found.worked, found.interrupted) == (55 * 60, 15 * 60)


def test_two_stops_and_one_from_paper() -> None:
    found = learned(
        event("stopped", "10:10:00", 2),
        event("resumed", "10:12:00", 3),
        event("stopped", "10:20:00", 4),
        event("went_on_from_paper", "10:30:00", 5),
    ).taken
    assert found is not None
    assert (found.interrupted, found.stops) == (12 * 60, 2)


def test_clock_set_back_teaches_nothing() -> None:
    found = learned(event("stopped", "10:20:00", 5), event("resumed", "10:15:00", 6))
    assert found.taken is None
    assert "clocks disagree" in found.why
    assert learned(state=replace(CLOSED, ended="2031-05-05T09:00:00+02:00")).taken is None


def test_entered_afterwards_teaches_nothing() -> None:
    """Half of 40 min is 20 min: 20 min are believed, 19 are not."""
    assert learned(state=replace(CLOSED, ended="2031-05-05T10:20:00+02:00")).taken is not None
    found = learned(state=replace(CLOSED, ended="2031-05-05T10:19:59+02:00"))
    assert found.taken is None
    assert found.why == "19 min, under 50% of the 40 min planned for it: entered afterwards"


def test_open_run_and_count_teach_nothing() -> None:
    assert learned(state=replace(CLOSED, status="open")).taken is None
    assert learned(script=replace(SCRIPT, kind="count")).taken is None


def test_stop_that_came_after_the_close_takes_nothing_out() -> None:
    late = (event("stopped", "12:00:00", 90), event("resumed", "12:30:00", 91))
    found = learned(*late, state=replace(CLOSED, late=("k90", "k91"))).taken
    assert found is not None
    assert (found.worked, found.interrupted, found.stops) == (70 * 60, 0, 0)
