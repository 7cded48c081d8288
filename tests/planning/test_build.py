"""From sheet to model: charges, groups, what is left out, what is said."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from becket.book.jobs import JobSheet
from becket.book.tackle import State
from becket.errors import OutOfRangeError
from becket.planning.build import Built, ModelBuilder, enter_lifts, missing_for_plan
from becket.planning.model import ModelJob
from tests.crane import invented_book, invented_settings
from tests.planning.jobs import first_job, pump, rafters, second_job, sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()
RIGGED = State(block="main", falls=2)


def build(sheet: JobSheet) -> Built:
    """Return the model of a sheet, the crane on two falls [min, money]."""
    return ModelBuilder(BOOK, SETTINGS, sheet, RIGGED).build(enter_lifts(BOOK, SETTINGS, sheet))


def test_a_job_is_charged_as_the_sheet_says() -> None:
    """07:00 to 15:30 booked, until 17:00; 480 an hour, steps of 15 min, overtime 120 an hour."""
    assert build(sheet_of()).model.jobs[0] == ModelJob(
        job="K-1", minimum=510, step=15, rate=8, booked=510, overtime=2, leave_by=600
    )


def test_the_minimum_is_the_greater_of_minimum_hire_and_booked_minutes() -> None:
    short = second_job(end=datetime(2031, 5, 6, 10, 0))
    assert build(sheet_of(first_job(), short)).model.jobs[1].minimum == 240
    assert build(sheet_of(first_job(), short)).model.jobs[1].booked == 120


def test_leave_by_or_overtime_that_is_not_stated_keeps_the_plan_in_booked_hours() -> None:
    built = build(sheet_of(first_job(leave_by=None), second_job()))
    assert built.model.jobs[0].leave_by == 510
    assert "K-1: leave_by is not stated, so nothing is planned past the booked hours." in built.notes
    sheet = sheet_of()
    built = build(replace(sheet, rates=replace(sheet.rates, overtime=None)))
    assert [job.leave_by for job in built.model.jobs] == [510, 240]
    assert "rates.overtime is not stated, so nothing is planned past the booked hours." in built.notes


def test_a_lift_that_no_state_can_do_is_left_out_of_the_model() -> None:
    built = build(sheet_of(first_job(lifts=(rafters(), pump(load=20000.0))), second_job()))
    assert built.kept == (0, 2)
    assert len(built.model.groups) == len(built.model.changes) == 2
    assert built.entries[1].minutes == {}
    assert built.entries[1].stopped_by == "chart"


def test_a_lift_whose_minutes_are_unknown_is_left_out() -> None:
    built = build(sheet_of(first_job(lifts=(rafters(handling=None),)), second_job()))
    assert built.kept == (1,)
    assert built.entries[0].stopped_by == "handling"
    assert built.entries[0].why == "handling: not stated, so how long the lift takes is unknown."


def test_counterweight_and_outriggers_are_those_of_the_job() -> None:
    """The lift's chart is for 7 t; with 0 t fitted it is another chart, whatever the lift record says."""
    entries = enter_lifts(BOOK, SETTINGS, sheet_of(first_job(counterweight=0.0), second_job()))
    assert entries[0].stopped_by == "chart"
    assert entries[0].lift.counterweight == 0.0


def test_the_earliest_moment_of_a_change_is_the_least_lifting_before_it() -> None:
    """From 04:00 the rafters take until 08:00 at least: light by then, so the site can be used at the end."""
    early = first_job(start=datetime(2031, 5, 5, 4, 0), lifts=(rafters(), rafters(name="more", count=1)))
    places = build(sheet_of(early, second_job())).model.changes
    assert {place.where for place in places[0]} == {"Y"}, "dark at 04:00"
    assert {place.where for place in places[1]} == {"I"}
    assert "E" in {place.where for place in places[2]}


def test_what_a_plan_cannot_do_without() -> None:
    sheet = sheet_of(first_job(start=None), second_job(end=None))
    sheet = replace(sheet, rates=replace(sheet.rates, customer=None, minimum=None))
    missing = ("rates.customer", "rates.minimum", "from of K-1", "to of K-2")
    assert missing_for_plan(sheet) == missing
    assert missing_for_plan(sheet_of()) == ()
    with pytest.raises(OutOfRangeError, match="everything that missing_for_plan asks for"):
        build(sheet)


def test_places_that_are_not_stated_are_said_once() -> None:
    built = build(sheet_of(first_job(people=None, lifts=(rafters(), pump(), rafters())), second_job(), yard=None))
    assert built.notes.count("K-1: no change is planned on site: people is not stated.") == 1
    assert "K-2: no change is planned in the yard before it: yard is not stated." in built.notes
