"""The crew's own minutes: from closed changes in the store into the plan and the change, and not from anything else."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.errors import RefusedError
from becket.guide.event import Event
from becket.web.crew_minutes import learned_by_run
from becket.web.house import House
from tests.guide.play import Play
from tests.web.asking import demo_folder

MAIN_2, MAIN_4 = State(block="main", falls=2), State(block="main", falls=4)


@pytest.fixture
def house(tmp_path: Path) -> Iterator[House]:
    opened = House.open(demo_folder(tmp_path))
    yield opened
    opened.close()


def played(house: House, run: str) -> list[Event]:
    """A whole change, a minute an entry; the script is the one that the server keeps."""
    made = house.script_for(house.crane("hazel-70"), MAIN_2, MAIN_4)
    assert not isinstance(made, RefusedError)
    name, script = made
    play = Play(script=script, run=run)
    play.start(script=name)
    return play.upto(None).sign().events


def minutes(house: House) -> tuple[bool, float]:
    change = house.change(house.crane("hazel-70"), MAIN_2, MAIN_4)
    assert change.minutes is not None
    return change.minutes.from_records, change.minutes.total


def test_from_the_fifth_closed_change_on(house: House) -> None:
    from_records, by_settings = minutes(house)
    assert not from_records
    for number in range(1, 5):
        house.store.append(played(house, f"run-{number}"), "2026-11-25T12:00:00+00:00")
    assert minutes(house) == (False, by_settings)
    fifth = played(house, "run-5")
    house.store.append(fifth[:-1], "2026-11-25T12:00:00+00:00")
    assert minutes(house) == (False, by_settings), "it is not closed yet"
    house.store.append(fifth[-1:], "2026-11-25T12:00:00+00:00")
    from_records, learned = minutes(house)
    assert from_records
    assert learned == (len(fifth) - 1) * 60, "a minute from each event to the next"
    plan = house.plan(house.crane("hazel-70"))
    assert plan is not None
    own = [one.minutes for one in plan.changes if (one.before, one.after) == (MAIN_2, MAIN_4)]
    assert all(one == pytest.approx(len(fifth) - 1, abs=0.1) for one in own)


def test_another_crane_learns_nothing(house: House) -> None:
    for number in range(5):
        events = [replace(event, crane="rowan-30") for event in played(house, f"run-{number}")]
        house.store.append([replace(one, key=f"r{one.key}") for one in events], "2026-11-25T12:00:00+00:00")
    assert house.crew_records(house.crane("hazel-70")) == {}


def test_an_open_change_says_why_it_teaches_nothing(house: House) -> None:
    events = played(house, "run-1")[:-1]
    crane = house.crane("hazel-70")
    ((_, learned),) = learned_by_run(crane.settings, events, house.scripts(events)).values()
    assert learned.why == "not a closed change"
