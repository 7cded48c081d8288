"""The crew's own minutes: a median from the fifth record on, and the plan that rests on it."""

from __future__ import annotations

import pytest

from becket.book.tackle import State
from becket.planning.crew_records import CrewRecords, Taken, crew_time, crew_words, records_said
from becket.planning.plan import plan_sheet
from tests.crane import invented_book, invented_settings
from tests.planning.jobs import sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()
KIND = (State(block="main", falls=2), State(block="main", falls=3))


def taken(*minutes: float, interrupted: float = 0.0) -> tuple[Taken, ...]:
    return tuple(Taken(worked=60 * one, interrupted=60 * interrupted) for one in minutes)


def test_no_record_is_no_time() -> None:
    assert crew_time(SETTINGS, ()) is None


def test_median_count_spread_and_interruption() -> None:
    """By hand: of 44, 50, 52, 63 and 71 the middle one is 52; 12 min in each were an interruption."""
    found = crew_time(SETTINGS, taken(63, 44, 52, 71, 50, interrupted=12))
    assert found is not None
    assert (found.median, found.count, found.least, found.greatest) == (52 * 60, 5, 44 * 60, 71 * 60)
    assert found.is_enough
    words = "52 min, the median of 5 own records (44 to 71 min); interruption, on average 12 min a change, is taken out"
    assert crew_words(found) == words


def test_one_record_is_no_median() -> None:
    """Every time is rounded up, as the minutes of a plan are: 20 min 6 s are 21 min."""
    assert (
        records_said(SETTINGS, taken(20.1))
        == "21 min, the only own record; counted from 5 on, until then the settings."
    )
    assert records_said(SETTINGS, ()) is None


def test_four_records_are_not_enough() -> None:
    found = crew_time(SETTINGS, taken(44, 50, 52, 63))
    assert found is not None
    assert not found.is_enough


def minutes_of_the_change(records: CrewRecords) -> tuple[float, tuple[str, ...]]:
    plan = plan_sheet(BOOK, SETTINGS, sheet_of(), records)
    (change,) = plan.changes
    return change.minutes, plan.notes


def test_plan_takes_the_crews_own_minutes_from_the_fifth_record_on() -> None:
    by_settings, silent = minutes_of_the_change({})
    four, said_four = minutes_of_the_change({KIND: taken(20, 21, 22, 23)})
    five, said_five = minutes_of_the_change({KIND: taken(20, 21, 22, 23, 24)})
    assert four == by_settings
    assert five == pytest.approx(22, abs=0.01)
    assert by_settings != pytest.approx(22, abs=1)
    assert not any("own records" in note for note in silent)
    assert (
        "main:2 to main:3: 22 min, the median of 4 own records (20 to 23 min); counted from 5 on, until then the "
        "settings." in said_four
    )
    assert "main:2 to main:3: 22 min, the median of 5 own records (20 to 24 min)." in said_five


def test_records_of_another_change_do_not_count() -> None:
    other = (KIND[1], KIND[0])
    assert minutes_of_the_change({other: taken(1, 1, 1, 1, 1)})[0] == minutes_of_the_change({})[0]


def test_records_never_make_a_change_possible() -> None:
    """A change that no place permits stays impossible, however often it was done elsewhere."""
    found = plan_sheet(BOOK, SETTINGS, sheet_of(yard=None, daylight=None), {KIND: taken(*[10] * 9)})
    assert found.cost is None
