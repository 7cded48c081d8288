"""What the log of a crane gives instead of everything: the same answers, from few events."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from random import Random

import pytest
from sqlalchemy.event import listen

from becket.guide.crane_now import crane_now
from becket.guide.event import FIRM, Event
from becket.guide.legal import why_refused
from becket.records.store import Store
from becket.web import crane_log
from becket.web.crane_log import CraneLog
from tests.guide.play import CRANE, PEOPLE, SCRIPT, Play
from tests.guide.small import small_change

NOON = "2026-11-30T12:00:00+01:00"
SCRIPTS = {SCRIPT: small_change()}
LOST = "fedcba9876543210"  # a script that is not kept


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    """Yield a store that does not wait for the disk."""
    with Store.open(str(tmp_path / "a.sqlite")) as found:
        engine = found.database.engine
        engine.dispose()
        listen(engine, "connect", lambda connection, record: connection.execute("PRAGMA synchronous = OFF"))
        yield found


def log_of(store: Store, crane: str = CRANE) -> CraneLog:
    """Return a log that has read nothing; it finds the scripts that are kept."""
    return CraneLog(
        store,
        crane,
        lambda events: {name: SCRIPTS[name] for one in events if (name := str(one.entered.get("script"))) in SCRIPTS},
    )


def crew() -> list[Event]:
    play = Play(small_change(), run="crew")
    for person in PEOPLE.values():
        play.write("person_added", {"id": person, "name": person}, person=person)
    return [replace(event, crane=FIRM, run=None) for event in play.events]


def a_run(number: int, chance: Random) -> list[Event]:
    """Return a change or a count, whole or broken off, with what may come between; ticks of two runs overlap."""
    play = Play(small_change(), run=f"run-{number}", tick=number * chance.randint(3, 30), device=f"phone-{number % 3}")
    kind = chance.choice(["change", "change", "count"])
    play.start(kind=kind, script=chance.choice([SCRIPT] * 5 + [LOST]))
    play.upto(chance.choice([None, None, None, "f1", "a1"]))
    if chance.random() < 0.3:
        play.write("count_again", {})
    if chance.random() < 0.8:
        play.sign()
    if chance.random() < 0.4:
        play.write("noted", {"text": "the wind rose"})
    if chance.random() < 0.2:
        play.write("trouble_entered", {"what": "shock", "note": ""})
    if chance.random() < 0.2:
        play.write("inspection_entered", {"by_whom": "Ada Able", "found": "nothing", "fit": True})
    return play.events


def story(chance: Random) -> list[list[Event]]:
    """Return deliveries: each run in its order, runs in between one another, some parts long after the rest."""
    runs = [a_run(number, chance) for number in range(1, 8)]
    other = [replace(event, crane="rowan-30", key=f"o{event.key}") for event in a_run(9, chance)]
    strange = replace(runs[0][0], crane=FIRM, key="strange", kind="noted", entered={"text": "x"}, tick=500)
    queues = [crew(), *runs, other, [strange]]
    deliveries = []
    while any(queues):
        queue = chance.choice([one for one in queues if one])
        size = chance.choice([1, 3, 10, 40])
        deliveries.append(queue[:size])
        del queue[:size]
    if chance.random() < 0.5:
        chance.shuffle(deliveries)
    return deliveries


def probes(chance: Random) -> list[Event]:
    """Return events that are about to come in: of a run that is there, of a new one, of no run."""
    new = Play(small_change(), run="run-new", tick=chance.randint(1, 300), device="phone-9")
    late = Play(small_change(), run=f"run-{chance.randint(1, 7)}", tick=chance.randint(1, 2_000_000), device="phone-9")
    late.enter("a1")
    late.write("run_started", {"kind": "change", "script": SCRIPT, **PEOPLE})
    return [new.start().events[0], *[replace(one, key=f"late.{one.key}") for one in late.events]]


@pytest.mark.parametrize("seed", range(12))
def test_the_same_answers_as_from_all_events_whatever_comes_in_and_when(
    seed: int, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(crane_log, "_AT_ONCE", 7)
    chance = Random(seed)
    log, firm = log_of(store), log_of(store, FIRM)
    for delivery in story(chance):
        store.append(delivery, NOON)
        if chance.random() < 0.3:
            continue  # the log reads several at once
        log.bring_up_to_date()
        every = [one.event for one in store.news(CRANE).kept]
        assert crane_now(log.events(), SCRIPTS) == crane_now(every, SCRIPTS)
        for probe in probes(chance):
            stands = log.events([str(probe.run)])
            assert why_refused(probe, stands, SCRIPTS) == why_refused(probe, every, SCRIPTS)
    log.bring_up_to_date()
    firm.bring_up_to_date()
    again = log_of(store)
    again.bring_up_to_date()
    assert again.events() == log.events()
    assert (again.runs, again.read, again.newest) == (log.runs, log.read, log.newest)
    assert {one.key for one in firm.events()} == {one.event.key for one in store.read(FIRM)}


def test_what_is_past_is_not_held_and_comes_when_it_is_asked_for(store: Store) -> None:
    store.append(crew(), NOON)
    log, lengths = log_of(store), []
    runs = [Play(small_change(), run=f"run-{number}", tick=number * 100).whole().events for number in range(1, 31)]
    for events in runs:
        store.append(events, NOON)
        log.bring_up_to_date()
        lengths.append(len(log.events()))
    assert lengths == [lengths[0]] * 30, "two people and the last run"
    first = log.events(["run-1", "run-2", "run-nobody"])
    assert [one for one in first if one.run == "run-1"] == runs[0]
    assert len(first) == lengths[0] + len(runs[0]) + len(runs[1])
    assert len(log.events()) == lengths[0]
    assert log.last_runs(3) == ("run-28", "run-29", "run-30")
    assert [run for run, _ in log.closed_runs()] == [f"run-{number}" for number in range(1, 31)]


def test_counts_that_nobody_finished_are_not_held_for_ever(store: Store) -> None:
    log = log_of(store)
    for number in range(1, 20):
        count = Play(small_change(), run=f"run-{number}", tick=number * 100).start(kind="count").upto("f1")
        store.append(count.events, NOON)
        log.bring_up_to_date()
    assert {one.run for one in log.events()} == {"run-19"}


def test_a_late_event_opens_a_closed_run_again(store: Store) -> None:
    """Somebody without signal was still counting when the two had signed: his events sort before their signatures."""
    log = log_of(store)
    first = Play(small_change(), run="run-1", tick=10).start().upto("f1")
    late = first.enter("f1", {"sheaves": [1], "ends_on": "head"})
    closed = Play(small_change(), run="run-2", tick=500).whole().events
    store.append([*first.events[:-1], *closed], NOON)
    log.bring_up_to_date()
    before = log.runs["run-2"].last
    note = replace(late, key="note", run="run-2", kind="noted", entered={"text": "rope was twisted"}, tick=1)
    store.append([late, note], NOON)
    log.bring_up_to_date()
    assert late in log.events()
    assert log.runs["run-2"].last == before + 2
    assert note in log.events(["run-2"])


def test_the_greatest_order_number_counts_also_when_its_run_is_past(store: Store) -> None:
    log = log_of(store)
    store.append(crew(), NOON)
    for number, tick in ((1, 10), (2, 900_000)):
        store.append(Play(small_change(), run=f"run-{number}", tick=tick).whole().events, NOON)
    note = replace(Play(small_change(), run="run-1").write("noted", {"text": "x"}), key="n", tick=1_800_000)
    store.append([note, *Play(small_change(), run="run-3", tick=910_000).whole().events], NOON)
    log.bring_up_to_date()
    assert note in log.events()
    start = Play(small_change(), run="run-4", tick=2_700_000).start().events[0]
    assert why_refused(start, log.events(), SCRIPTS) is None


def test_who_goes_through_the_runs_is_not_disturbed_by_what_comes_in(store: Store) -> None:
    """A page in one thread lists the runs while a delivery in another begins a new one."""
    log = log_of(store)
    for number in (1, 2):
        store.append(Play(small_change(), run=f"run-{number}", tick=number * 100).start().events, NOON)
    log.bring_up_to_date()
    going = iter(log.runs.items())
    assert next(going)[0] == "run-1"
    store.append(Play(small_change(), run="run-3", tick=300).start().events, NOON)
    log.bring_up_to_date()
    assert [run for run, _ in going] == ["run-2"]
    assert log.last_runs(2) == ("run-2", "run-3")
