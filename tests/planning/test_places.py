"""Where a change can be made: everything stated, everything there, or a sentence why not."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from typing import Any

import pytest

from becket.book.jobs import JobSheet, Yard
from becket.book.tackle import State
from becket.method.option import change_option
from becket.method.site import Site
from becket.planning.model import ChangePlace, grain_up
from becket.planning.places import Gap, PlaceFinder, Refusal
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings
from tests.planning.jobs import first_job, second_job, sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()
MAIN_2, MAIN_4, BALL = State(block="main", falls=2), State(block="main", falls=4), State(block="ball", falls=1)
OPEN = {"free_radius": 36.0}


def gap(**changes: Any) -> Gap:
    """Return the gap between the two jobs of the sheet [-]."""
    between = Gap(
        job_before=0,
        job=1,
        boom_before=24.2,
        boom_after=17.0,
        least_before={0: 250.0},
        before=(MAIN_2,),
        after=(MAIN_4,),
    )
    return replace(between, **changes)


def find(sheet: JobSheet, where: Gap) -> tuple[dict[str, ChangePlace], dict[str, Refusal]]:
    """Return places and refusals by their letter [-]."""
    places, refusals = PlaceFinder(BOOK, SETTINGS, sheet).find(where)
    return {place.where: place for place in places}, {refusal.where: refusal for refusal in refusals}


def test_all_three_places_between_two_jobs_and_their_minutes() -> None:
    """Minutes are those of the change on that site; the yard adds setting up and is paid at our own rate."""
    sheet = sheet_of(first_job(), second_job(**OPEN, start=datetime(2031, 5, 7, 8, 0), end=datetime(2031, 5, 7, 12, 0)))
    places, _ = find(sheet, gap())
    site = Site(counterweight=7000.0, outriggers="full", free_radius=36.0)
    option = change_option(BOOK, SETTINGS, MAIN_2, MAIN_4, site, boom_before=24.2, boom_after=17.0, carried="crane")
    assert option.verdict is Verdict.PASS
    minutes = grain_up(option.minutes / 60)
    assert set(places) == {"E", "S", "Y"}
    assert places["E"].options == {("main:2", "main:4"): (minutes, 0)}
    assert (places["E"].job, places["E"].latest) == (0, 630)
    assert places["S"].options == places["E"].options
    assert (places["S"].job, places["S"].latest) == (1, 570)
    yard = places["Y"].options["main:2", "main:4"]
    assert places["Y"].job is None
    assert yard.minutes <= minutes + 45 + 1 / 1024
    assert yard.cost == pytest.approx(yard.minutes / 60 * 180)


def test_between_the_lifts_of_one_job_there_is_only_its_site() -> None:
    places, refusals = find(sheet_of(), gap(job_before=0, job=0))
    assert set(places) == {"I"}
    assert set(refusals) <= {"I"}


def test_jobs_without_lifts_in_the_plan_offer_their_sites() -> None:
    sheet = sheet_of(first_job(), replace(first_job(), name="K-1b", start=datetime(2031, 5, 6, 7)), second_job())
    found, _ = PlaceFinder(BOOK, SETTINGS, sheet).find(gap(job=2))
    assert [(place.where, place.job) for place in found] == [("E", 0), ("E", 1)]


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"lines_near": True}, "Overhead lines are near."),
        ({"lines_near": None}, "lines_near is not stated."),
        ({"people": 1}, "1 person is there; a change needs 2."),
        ({"people": None}, "people is not stated."),
        ({"free_radius": None}, "free_radius is not stated."),
        ({"counterweight": None, "outriggers": None}, "counterweight and outriggers are not stated."),
        ({"start": datetime(2031, 5, 5, 6, 0)}, "It may still be dark then, or dark already."),
    ],
)
def test_a_site_that_says_no_or_does_not_say(change: dict[str, Any], why: str) -> None:
    places, refusals = find(sheet_of(first_job(**change), second_job()), gap(job_before=0, job=0, least_before={0: 0}))
    assert not places
    assert refusals["I"].why == why
    assert refusals["I"].why_not((MAIN_2, MAIN_4)) == why


def test_daylight_that_is_not_stated_is_no_daylight() -> None:
    places, refusals = find(sheet_of(daylight=None), gap())
    assert not places
    assert refusals["E"].why == "daylight is not stated."
    assert refusals["Y"].why == "daylight is not stated."


def test_no_room_is_told_with_what_is_missing() -> None:
    places, refusals = find(sheet_of(), gap())
    assert "S" not in places
    why = refusals["S"].why_not((MAIN_2, MAIN_4))
    assert why is not None
    assert "free radius 9.0 m" in why


def test_counterweight_that_the_book_does_not_list() -> None:
    places, refusals = find(sheet_of(first_job(counterweight=3500.0), second_job()), gap())
    assert "E" not in places
    why = refusals["E"].why_not((MAIN_2, MAIN_4))
    assert why is not None
    assert "counterweight 3.5 t with outriggers full: not a permitted position" in why


@pytest.mark.parametrize(
    ("carried", "site_why"),
    [
        ({"main": "crane", "ball": "crane"}, None),
        ({"main": "crane", "ball": "lorry"}, None),
        ({"main": "crane", "ball": "yard"}, "Block ball is kept in the yard."),
        ({"main": "yard", "ball": "crane"}, "Block main is kept in the yard."),
        ({"main": "crane"}, "carried.ball is not stated: where the block is kept when it is not on the rope."),
    ],
)
def test_the_block_has_to_be_at_hand(carried: dict[str, str], site_why: str | None) -> None:
    """The block that comes on and the one that comes off: each goes where it is kept."""
    next_day = second_job(start=datetime(2031, 5, 8, 8, 0), end=datetime(2031, 5, 8, 12, 0))
    places, refusals = find(sheet_of(first_job(), next_day, carried=carried), gap(before=(BALL,), after=(MAIN_4,)))
    assert ("E" in places) is (site_why is None)
    assert refusals["E"].why_not((BALL, MAIN_4)) == site_why
    assert ("Y" in places) is ("ball" in carried)


def test_a_block_on_its_lorry_takes_ten_minutes_more() -> None:
    ball_to_main = gap(before=(BALL,), after=(MAIN_4,))
    pair = ("ball:1", "main:4")
    near, _ = find(sheet_of(carried={"main": "crane", "ball": "crane"}), ball_to_main)
    lorry, _ = find(sheet_of(carried={"main": "crane", "ball": "lorry"}), ball_to_main)
    assert lorry["E"].options[pair].minutes - near["E"].options[pair].minutes == pytest.approx(10, abs=0.01)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"yard": None}, "yard is not stated."),
        ({"yard": Yard(free_radius=None, setup=None, people=2)}, "yard.free_radius and yard.setup are not stated."),
        ({"yard": Yard(free_radius=40.0, setup=2700.0, people=1)}, "yard.people is 1; a change needs 2."),
        ({"jobs": (first_job(leave_by=None), second_job())}, "leave_by of K-1 is not stated."),
    ],
)
def test_a_yard_that_says_no_or_does_not_say(change: dict[str, Any], why: str) -> None:
    places, refusals = find(replace(sheet_of(), **change), gap())
    assert "Y" not in places
    assert refusals["Y"].why == why


def test_the_yard_needs_its_time_in_one_piece() -> None:
    """17:00 to 17:30 in the evening, 07:00 to 08:00 in the morning; neither holds it, together they would."""
    places, refusals = find(sheet_of(), gap())
    assert "Y" not in places
    why = refusals["Y"].why_not((MAIN_2, MAIN_4))
    assert why is not None
    assert why.endswith("min with setting up; 60 min of daylight in one piece are free.")
    longer, _ = find(sheet_of(daylight=(time(5, 30), time(20, 0))), gap())
    assert "Y" in longer


def test_the_yard_before_the_first_job_has_a_day() -> None:
    places, _ = find(sheet_of(), gap(job_before=None, job=0, boom_before=None, least_before={}))
    assert set(places) == {"S", "Y"}


def test_what_is_the_same_on_two_sites_is_worked_out_once() -> None:
    """Equal sites share one table; the plan's size rests on it."""
    sheet = sheet_of(first_job(), second_job(**OPEN))
    finder = PlaceFinder(BOOK, SETTINGS, sheet)
    first, _ = finder.find(gap())
    again, _ = finder.find(gap(before=(MAIN_2, BALL)))
    assert first[0].options is again[0].options is first[1].options
    assert ("ball:1", "main:4") in first[0].options
