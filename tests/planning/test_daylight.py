"""Daylight against the minutes of a job."""

from __future__ import annotations

from datetime import datetime, time

import pytest

from becket.planning.daylight import latest_in_daylight, longest_daylight, minutes_between

LIGHT = (time(6, 30), time(18, 0))


@pytest.mark.parametrize(
    ("start", "least_before", "latest"),
    [
        (datetime(2031, 5, 5, 7, 0), 0, 660),  # light from the start, until 18:00
        (datetime(2031, 5, 5, 7, 0), 600, 660),
        (datetime(2031, 5, 5, 7, 0), 660, None),  # dark just then
        (datetime(2031, 5, 5, 5, 0), 0, None),  # dark at 05:00, and nobody waits
        (datetime(2031, 5, 5, 5, 0), 89, None),
        (datetime(2031, 5, 5, 5, 0), 90, 780),
        (datetime(2031, 5, 5, 22, 0), 0, None),  # a night job
        (datetime(2031, 5, 5, 22, 0), 510, 1200),  # light again at 06:30
        (datetime(2031, 5, 5, 22, 0), 1200, None),
        (datetime(2031, 5, 5, 22, 0), 2000, 2640),  # the day after
    ],
)
def test_a_change_comes_in_the_light_for_sure_or_not_at_all(
    start: datetime, least_before: float, latest: float | None
) -> None:
    assert latest_in_daylight(start, least_before, LIGHT) == latest


@pytest.mark.parametrize(
    ("after", "before", "longest"),
    [
        (datetime(2031, 5, 5, 15, 0), datetime(2031, 5, 5, 16, 30), 90),  # the same day
        (datetime(2031, 5, 5, 15, 0), datetime(2031, 5, 6, 7, 30), 180),  # evening 180, morning 60
        (datetime(2031, 5, 5, 17, 30), datetime(2031, 5, 6, 8, 0), 90),  # not 30 and 90 together
        (datetime(2031, 5, 5, 15, 0), datetime(2031, 5, 7, 7, 0), 690),  # a whole day between
        (datetime(2031, 5, 1, 15, 0), datetime(2031, 5, 30, 7, 0), 690),
        (datetime(2031, 5, 5, 19, 0), datetime(2031, 5, 6, 5, 0), 0),  # one night
        (datetime(2031, 5, 6, 9, 0), datetime(2031, 5, 6, 8, 0), 0),  # the jobs overlap
        (None, datetime(2031, 5, 6, 7, 0), 690),  # no job before
    ],
)
def test_the_yard_has_one_piece_of_daylight(after: datetime | None, before: datetime, longest: float) -> None:
    assert longest_daylight(after, before, LIGHT) == longest


def test_minutes_between_count_nights() -> None:
    assert minutes_between(datetime(2031, 5, 5, 23, 0), datetime(2031, 5, 6, 1, 0)) == 120
