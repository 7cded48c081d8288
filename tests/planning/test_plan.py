"""The plan of a sheet, whole: worked out by hand, and every way in which there is none."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from becket.book.jobs import JobSheet
from becket.book.tackle import State
from becket.planning.answer import Plan, plan_as_dict
from becket.planning.model import model_as_dict, model_from_dict
from becket.planning.plan import plan_sheet
from becket.planning.search import Blocked, Search
from tests.crane import invented_book, invented_settings
from tests.planning.brute import every_cost
from tests.planning.jobs import first_job, pump, rafters, second_job, sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()


def plan(sheet: JobSheet) -> Plan:
    return plan_sheet(BOOK, SETTINGS, sheet)


def test_two_jobs_by_hand() -> None:
    """Rafters on two falls; the pump wants more; no room at its site: change at the end of the day, in booked hours.

    Both jobs end within their booked hours, so the cost is those: (510 + 240) min x 8.
    """
    found = plan(sheet_of())
    assert found.is_whole
    assert found.cost == 6000
    assert [str(group.state) for group in found.groups] == ["main:2", "main:3"]
    assert [group.needed_falls for group in found.groups] == [2, 3]
    (change,) = found.changes
    assert (change.before_group, str(change.before), str(change.after)) == (1, "main:2", "main:3")
    assert (change.where, change.job) == ("E", "K-1")
    lifting = (found.groups[0].hours or 0) * 60
    assert change.minutes_left_in_job == pytest.approx(510 - lifting - change.minutes)
    assert change.cost == 0


def test_hours_that_are_gone() -> None:
    """With 4 h 30 booked the rafters leave no time at the end of the day: the change costs steps and overtime there."""
    short = first_job(end=datetime(2031, 5, 5, 11, 30))
    found = plan(sheet_of(short, second_job(), yard=None))
    assert found.cost is not None
    (change,) = found.changes
    assert change.where == "E"
    assert change.minutes_left_in_job is not None
    assert change.minutes_left_in_job < 0
    over = -change.minutes_left_in_job
    steps = -(-(270 + over) // 15) * 15
    assert found.cost == pytest.approx(steps * 8 + over * 2 + 240 * 8, abs=1e-5)


def test_no_hours_at_all() -> None:
    """leave_by at the end of the lifting: no plan, and it says for which change there is no time."""
    full = first_job(end=datetime(2031, 5, 5, 11, 30), leave_by=datetime(2031, 5, 5, 11, 30))
    found = plan(sheet_of(full, second_job(), yard=None))
    assert found.cost is None
    assert not found.is_whole
    assert found.why_no_plan is not None
    assert found.why_no_plan.startswith("No plan: before pump (K-2) the change from main:2 to main:3 has no place.")
    assert "At the end of K-1: not in the time that there is." in found.why_no_plan
    assert "At the start of K-2: not possible: " in found.why_no_plan
    assert "In the yard before K-2: not possible: yard is not stated." in found.why_no_plan


def test_a_job_that_cannot_be_done_in_time() -> None:
    hurried = first_job(leave_by=datetime(2031, 5, 5, 9, 0), end=datetime(2031, 5, 5, 9, 0))
    found = plan(sheet_of(hurried, second_job()))
    assert found.why_no_plan == (
        "No plan: K-1 cannot be done by its leave_by, 2 h 0 min after its start, with rafters in it."
    )


def test_what_is_rigged_is_not_known() -> None:
    found = plan(sheet_of(rigged=None))
    assert found.cost is None
    assert found.model is None
    assert found.why_no_plan == (
        "No plan: rigged is not stated. Count the falls at the block and write down which block hangs on them."
    )
    assert [group.needed_falls for group in found.groups] == [1, 3]


def test_rates_that_are_not_stated() -> None:
    sheet = sheet_of()
    found = plan(replace(sheet, rates=replace(sheet.rates, customer=None, billing_step=None)))
    assert found.why_no_plan == "No plan: rates.customer, rates.billing_step: not stated, so the cost is unknown."


def test_a_lift_left_out_is_named_with_its_limit_and_the_rest_is_planned() -> None:
    found = plan(sheet_of(first_job(lifts=(rafters(), pump(name="vault door", load=20000.0))), second_job()))
    assert found.cost == 6000
    assert not found.is_whole
    out = found.groups[1]
    assert (out.state, out.needed_falls, out.hours, out.stopped_by) == (None, None, None, "chart")
    assert found.changes[0].before_group == 2, "counted over all groups of the plan"
    assert found.next_best is not None
    assert found.next_best.states[1] is None


def test_nothing_that_can_be_planned_costs_what_is_booked() -> None:
    found = plan(sheet_of(first_job(lifts=(pump(load=20000.0),)), second_job(lifts=())))
    assert found.cost == 6000
    assert found.changes == ()
    assert not found.is_whole


def test_the_json_model_solved_again_by_brute_force_costs_the_same() -> None:
    """Whoever reads only the JSON comes to the same plan and the same next best."""
    lifts = (rafters(count=10), pump(), rafters(name="battens", count=15))
    sheet = sheet_of(first_job(lifts=lifts), second_job(free_radius=36.0, lifts=(pump(), rafters(count=3))))
    found = plan(sheet)
    costs = every_cost(plan_as_dict(found)["model"])
    states = tuple(str(group.state) for group in found.groups)
    assert min(costs.values()) == pytest.approx(found.cost, abs=1e-5)
    assert costs[states] == pytest.approx(found.cost, abs=1e-5)
    assert found.next_best is not None
    others = min(cost for row, cost in costs.items() if row != states)
    assert others == pytest.approx(found.next_best.cost, abs=1e-5)
    assert found.model is not None
    again = Search(model_from_dict(model_as_dict(found.model))).cheapest()
    assert not isinstance(again, Blocked)
    assert float(again.cost) == pytest.approx(found.cost, abs=1e-5)


def test_a_light_lift_between_does_not_pay_for_two_changes() -> None:
    """One rafter between two pumps stays on the pump's falls."""
    sheet = sheet_of(first_job(lifts=(pump(), rafters(count=1), pump())), rigged=State(block="main", falls=4))
    found = plan(sheet)
    assert [str(group.state) for group in found.groups] == ["main:4"] * 3
    assert found.changes == ()


def test_a_start_that_nobody_has_a_pattern_for_gives_no_change_from_it() -> None:
    """main:8 is not on file: what it takes to change from it is unknown, so there is no plan."""
    found = plan(sheet_of(rigged=State(block="main", falls=8)))
    assert found.cost is None
    assert found.why_no_plan is not None
    assert "main:8" in found.why_no_plan
