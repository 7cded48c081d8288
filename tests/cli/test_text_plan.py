"""A plan as text, from records alone."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from becket.book.jobs import Job, JobSheet, Rates
from becket.book.tackle import State
from becket.cli.text_plan import plan_code, plan_text
from becket.planning.answer import NextBest, Plan, PlannedChange, PlannedGroup
from tests.cli.conftest import fits
from tests.crane import invented_book

TWO, FOUR = State(block="main", falls=2), State(block="main", falls=4)
BOOK = invented_book()


def job(name: str, day: int) -> Job:
    """Return a booking of a test."""
    return Job(
        name=name,
        site=None,
        start=datetime(2027, 3, day, 7),
        end=None,
        leave_by=None,
        counterweight=None,
        outriggers=None,
        people=None,
        free_radius=None,
        lines_near=None,
        lifts=(),
    )


SHEET = JobSheet(
    crane="Tallow 40",
    rigged=TWO,
    rates=Rates(currency="EUR", customer=None, own=None, overtime=None, billing_step=None, minimum=None),
    yard=None,
    daylight=None,
    carried={},
    jobs=(job("A", 1), job("B", 2)),
    fingerprint="",
)


def group(name: str, lift: str, state: State | None) -> PlannedGroup:
    """Return a planned lift of a test."""
    stopped = None if state else "chart"
    why = None if state else "Nothing is printed for this radius."
    return PlannedGroup(job=name, lift=lift, state=state, needed_falls=2, hours=1.01, stopped_by=stopped, why=why)


def change(where: str, whose: str | None) -> PlannedChange:
    """Return a change before the second lift."""
    return PlannedChange(
        before_group=1,
        before=TWO,
        after=FOUR,
        where=where,
        job=whose,
        minutes=45.2,
        minutes_left_in_job=20.9,
        customer_pays=0.0,
        we_pay=0.0,
        why="needed.",
    )


PLAN = Plan(
    cost=1000.2,
    currency="EUR",
    groups=(group("A", "first", TWO), group("B", "second", FOUR), group("B", "third", None)),
    changes=(change("E", "A"),),
    next_best=NextBest(cost=1100.0, states=(TWO, TWO, None)),
    why_no_plan=None,
    model=None,
    notes=("A note.",),
)


def test_the_whole_plan() -> None:
    assert plan_text(BOOK, SHEET, PLAN, "metric").splitlines() == [
        "1 change for Tallow 40, cost EUR 1 001. 1 lift left out.",
        "Lifts from Mon 1 Mar 2027 to Tue 2 Mar 2027.",
        "",
        "job  from             lift    needed  rig     hours",
        "A    Mon 1 Mar 07:00  first        2  main:2    1.1",
        "  ==> main:2 to main:4, 46 min, at the end of A, on its site",
        "B    Tue 2 Mar 07:00  second       2  main:4    1.1",
        "B    Tue 2 Mar 07:00  third        2  NONE      1.1",
        "",
        "Why there",
        "  main:2 to main:4: needed. Booked minutes still free in that job: 20.",
        "",
        "No state can do",
        "  B, third: chart. Nothing is printed for this radius.",
        "",
        "If it were elsewhere: the next best plan costs EUR 1 100, EUR 100 more. There: B",
        "second on main:2 instead of main:4.",
        "",
        "Notes",
        "  A note.",
    ]
    assert plan_code(PLAN) == 1


def test_places_are_said_in_words() -> None:
    words = {
        ("E", "A"): "at the end of A, on its site",
        ("I", "B"): "between the lifts of B",
        ("S", "B"): "at the start of B, on its site",
        ("Y", None): "in the yard, before B",
    }
    for (where, whose), text in words.items():
        assert f"46 min, {text}\n" in plan_text(BOOK, SHEET, replace(PLAN, changes=(change(where, whose),)), "metric")


@pytest.mark.parametrize(("left", "told"), [(0.0, "job: 0."), (-1e-9, "job: 0."), (-0.5, None), (-29.0, None)])
def test_minutes_that_are_not_there_are_not_called_free(left: float, told: str | None) -> None:
    over = replace(change("E", "A"), minutes_left_in_job=left)
    text = plan_text(BOOK, SHEET, replace(PLAN, changes=(over,)), "metric")
    assert ("Booked minutes still free" in text) == (told is not None)
    assert "main:2 to main:4: needed." in text
    assert told is None or told in text


def test_no_plan_says_why() -> None:
    text = plan_text(BOOK, SHEET, replace(PLAN, cost=None, why_no_plan="No place for a change.", changes=()), "metric")
    first = "NO PLAN for Tallow 40.\nLifts from Mon 1 Mar 2027 to Tue 2 Mar 2027.\n"
    assert text.startswith(f"{first}\nNo place for a change.")
    bare = replace(PLAN.groups[0], state=None, hours=None)
    text = plan_text(
        BOOK, SHEET, replace(PLAN, cost=None, why_no_plan="No place.", changes=(), groups=(bare,)), "metric"
    )
    assert "first       2  ?\n" in text
    assert "No state can do" not in text
    assert "NONE" not in text


def test_a_whole_plan_and_one_as_cheap() -> None:
    whole = replace(PLAN, groups=PLAN.groups[:2], next_best=NextBest(cost=1000.2, states=(FOUR, FOUR)))
    assert plan_code(whole) == 0
    assert "the next best plan costs the same. There: A first on main:4 instead of main:2." in " ".join(
        plan_text(BOOK, SHEET, whole, "metric").split()
    )


def test_no_lifts() -> None:
    text = plan_text(BOOK, SHEET, replace(PLAN, groups=(), changes=(), next_best=None), "metric")
    assert "No lifts on file." in text
    assert text.startswith("No change for Tallow 40")


def test_long_names_fit() -> None:
    long = replace(PLAN, groups=(replace(PLAN.groups[0], job="J" * 60, lift="L" * 90), *PLAN.groups[1:]))
    fits(plan_text(BOOK, SHEET, long, "metric"))
