"""Ways to a wrong pass in the plan: hours that are gone, a block in the yard, night, a site that says no."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from typing import Any

import pytest

from becket.book.jobs import Job, JobSheet, Lift, Rates, Yard
from becket.book.tackle import State
from becket.planning.answer import Plan
from becket.planning.plan import plan_sheet
from tests.crane import invented_book, invented_lift, invented_settings
from tests.dangers.asking import book_with

HEAVY = invented_lift(name="heavy", load=9000.0, handling=600.0)


def light() -> Lift:
    return invented_lift(name="light", load=2000.0, handling=600.0)


def job(name: str, day: int, lift: Lift, **changes: Any) -> Job:
    """Return a booking of eight hours [-]."""
    usual = Job(
        name=name,
        site=name,
        start=datetime(2026, 6, day, 7, 0),
        end=datetime(2026, 6, day, 15, 0),
        leave_by=datetime(2026, 6, day, 17, 0),
        counterweight=7000.0,
        outriggers="full",
        people=2,
        free_radius=45.0,
        lines_near=False,
        lifts=(lift,),
    )
    return replace(usual, **changes)


def plan(first: Job, second: Job, **changes: Any) -> Plan:
    """Return the plan of two jobs, the hook on two falls before them [-]."""
    sheet = JobSheet(
        crane="Tallow 40",
        rigged=State(block="main", falls=2),
        rates=Rates(currency="EUR", customer=0.1, own=0.05, overtime=0.03, billing_step=900.0, minimum=4 * 3600.0),
        yard=None,
        daylight=(time(6, 0), time(18, 0)),
        carried={"main": "crane", "ball": "yard", "light": "yard"},
        jobs=(first, second),
        fingerprint="0" * 16,
    )
    return plan_sheet(invented_book(), invented_settings(), replace(sheet, **changes))


def test_there_is_a_plan_before_anything_is_wrong() -> None:
    found = plan(job("A", 1, light()), job("B", 2, HEAVY))
    assert found.is_whole
    assert len(found.changes) == 1


@pytest.mark.parametrize(
    "wrong",
    [
        {"people": 1},
        {"people": None},
        {"free_radius": 9.0},
        {"free_radius": None},
        {"lines_near": True},
        {"lines_near": None},
        {"counterweight": None},
        {"outriggers": None},
    ],
    ids=lambda wrong: "-".join(f"{k} {v}" for k, v in wrong.items()),
)
def test_change_on_a_site_that_has_no_room_no_people_or_does_not_say(wrong: dict[str, Any]) -> None:
    found = plan(job("A", 1, light(), **wrong), job("B", 2, HEAVY, **wrong))
    assert not found.is_whole
    assert found.changes == ()


def test_plan_that_needs_hours_that_are_gone() -> None:
    """The lifts fill both jobs to the minute that the crane must leave: no change fits anywhere."""
    long_lift = replace(light(), count=1, handling=9.9 * 3600)
    heavy = replace(HEAVY, handling=9.9 * 3600)
    assert not plan(job("A", 1, long_lift), job("B", 2, heavy)).is_whole


def test_plan_that_needs_night() -> None:
    """At the hours of these jobs it is dark."""
    found = plan(job("A", 1, light()), job("B", 2, HEAVY), daylight=(time(18, 0), time(18, 30)))
    assert found.changes == ()
    assert not found.is_whole
    unsaid = plan(job("A", 1, light()), job("B", 2, HEAVY), daylight=None)
    assert unsaid.changes == ()


def test_plan_that_needs_a_block_in_the_yard() -> None:
    """The main block lies in the yard and there is no yard in the sheet: the ball stays on."""
    ball = plan(
        job("A", 1, light()),
        job("B", 2, HEAVY),
        rigged=State(block="ball", falls=1),
        carried={"main": "yard", "ball": "crane", "light": "yard"},
    )
    assert not ball.is_whole
    at_hand = plan(
        job("A", 1, light()),
        job("B", 2, HEAVY),
        rigged=State(block="ball", falls=1),
        carried={"main": "crane", "ball": "crane", "light": "yard"},
    )
    assert at_hand.is_whole


def test_yard_that_does_not_say_its_room() -> None:
    nowhere = {"people": 1}
    yard = Yard(free_radius=None, setup=2700.0, people=2)
    assert not plan(job("A", 1, light(), **nowhere), job("B", 2, HEAVY, **nowhere), yard=yard).is_whole
    good = replace(yard, free_radius=45.0)
    assert plan(job("A", 1, light(), **nowhere), job("B", 2, HEAVY, **nowhere), yard=good).is_whole


def test_unknown_is_never_planned() -> None:
    """One figure missing leaves no lift that is proven: none is in the plan."""
    sheet_book = book_with("rope", torque_factor=None)
    first = job("A", 1, light())
    sheet = JobSheet(
        crane="Tallow 40",
        rigged=State(block="main", falls=2),
        rates=Rates(currency="EUR", customer=0.1, own=0.05, overtime=0.03, billing_step=900.0, minimum=0.0),
        yard=None,
        daylight=(time(6, 0), time(18, 0)),
        carried={"main": "crane"},
        jobs=(first,),
        fingerprint="0" * 16,
    )
    found = plan_sheet(sheet_book, invented_settings(), sheet)
    assert [group.state for group in found.groups if group.state and group.state.falls > 1] == []
