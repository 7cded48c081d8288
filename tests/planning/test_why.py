"""The sentences of a plan: full text."""

from __future__ import annotations

from datetime import datetime, time
from fractions import Fraction

import pytest

from becket.book.jobs import JobSheet
from becket.book.tackle import State
from becket.planning.plan import plan_sheet
from becket.planning.why import money_words, time_words, words_for_place
from tests.crane import invented_book, invented_settings
from tests.planning.jobs import first_job, pump, rafters, second_job, sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()
LONG_LIGHT = (time(5, 0), time(21, 0))


def why(sheet: JobSheet) -> list[str]:
    """Return the reasons of every change of the plan [-]."""
    return [change.why for change in plan_sheet(BOOK, SETTINGS, sheet).changes]


def test_in_booked_hours_it_says_how_many_are_left_and_what_elsewhere_would_cost() -> None:
    (text,) = why(sheet_of(first_job(), second_job(free_radius=36.0), daylight=LONG_LIGHT))
    assert text == (
        "pump: main:2 does not do (fail at lead line pull); main:3 passes every limit. "
        "At the end of K-1 it costs nothing: 3 h 22 min of the booked hours are left after it. "
        "At the start of K-2: at the same cost. "
        "In the yard before K-2: 260.92 EUR more."
    )


def test_past_the_booked_hours_it_says_what_it_costs_and_how_far_over() -> None:
    short = first_job(end=datetime(2031, 5, 5, 11, 30))
    (text,) = why(sheet_of(short, second_job(), yard=None))
    assert (
        "At the end of K-1 it costs 435.62 EUR, of which the customer pays 360.00 EUR and we 75.62 EUR: "
        "K-1 is then 37 min over the booked hours."
    ) in text


def test_who_pays_past_the_booked_hours_by_hand() -> None:
    """307.81 min in K-1 where 270 are booked: 45 more are billed at 8 EUR, 37.81 are overtime at 2 EUR."""
    short = first_job(end=datetime(2031, 5, 5, 11, 30))
    (change,) = plan_sheet(BOOK, SETTINGS, sheet_of(short, second_job(), yard=None)).changes
    minutes = 270 - (change.minutes_left_in_job or 0.0)
    assert 300 < minutes <= 315
    assert minutes - change.minutes <= 270, "without the change nothing is billed beyond what is booked"
    assert (change.customer_pays, change.payer) == (45 * 8, "both")
    assert change.we_pay == pytest.approx((minutes - 270) * 2, abs=1e-6)


def test_the_yard_says_whose_money_it_is() -> None:
    """Setting up 45 min and the change 39.67 min at 180 EUR an hour: 254.02 EUR."""
    no = "not possible: Overhead lines are near."
    (text,) = why(sheet_of(first_job(lines_near=True), second_job(lines_near=True), daylight=LONG_LIGHT))
    assert text == (
        "rafters: main:2 would do for it; main:3 is better for the plan as a whole. "
        "In the yard before K-1 it costs 254.02 EUR at our own rate, setting up and packing up included, which we pay. "
        f"At the start of K-1: {no}"
    )


def test_a_change_that_no_limit_asks_for_says_so() -> None:
    """Two hundred lifts on six falls take far longer than the hours booked: going down to fewer falls pays."""
    day = first_job(end=datetime(2031, 5, 5, 11, 0), lifts=(pump(load=4000.0, count=200, handling=90.0),))
    (text,) = why(sheet_of(day, rigged=State(block="main", falls=6)))
    assert text.startswith("pump: main:6 would do for it; main:2 is better for the plan as a whole. ")


def test_the_change_between_lifts_stands_between_lifts() -> None:
    (text,) = why(sheet_of(first_job(lifts=(rafters(), pump())), second_job(lifts=())))
    assert "Between the lifts of K-1 it costs nothing: 2 h " in text


def test_words_of_places_time_and_money() -> None:
    assert words_for_place("I", "K-1") == "between the lifts of K-1"
    assert words_for_place("S", "K-1") == "at the start of K-1"
    assert words_for_place("Y", "K-1") == "in the yard before K-1"
    assert time_words(59.9) == "59 min"
    assert time_words(60) == "1 h 0 min"
    assert money_words(Fraction(-1, 2), "USD") == "-0.50 USD"
