"""Daylight against the minutes of a job.

In:    moments of the site's own clock, the daylight hours of the sheet.
Out:   minutes.
Never: the sun, the date's own daylight, time zones.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta

Daylight = tuple[time, time]


def latest_in_daylight(start: datetime, least_before: float, daylight: Daylight) -> float | None:
    """Return the job's minutes at which the daylight ends that a change there has; None: it may still be dark [min].

    A change comes after ``least_before`` minutes of the job at the earliest. It is only let in where it is light by
    then for sure; it has to end before the same day's light does.

    Args:
        start: of the job
        least_before: minutes of the job that are over at the earliest [min]
        daylight: from, to

    Source: docs/theory/planning.md, "Daylight".

    >>> latest_in_daylight(datetime(2031, 5, 5, 7), 0.0, (time(6), time(18)))
    660.0
    >>> latest_in_daylight(datetime(2031, 5, 5, 5), 30.0, (time(6), time(18))) is None
    True
    """
    least_day = (start + timedelta(minutes=least_before)).date()
    for opens, closes in _days(least_day, least_day + timedelta(days=1), daylight):
        if minutes_between(start, closes) > least_before:
            return minutes_between(start, closes) if minutes_between(start, opens) <= least_before else None
    return None


def longest_daylight(after: datetime | None, before: datetime, daylight: Daylight) -> float:
    """Return the longest daylight in one piece between two moments [min].

    Args:
        after: end of the job before; None: there was none, so the day before is free
        before: start of the job
        daylight: from, to

    Source: docs/theory/planning.md, "Daylight".

    >>> longest_daylight(datetime(2031, 5, 5, 15), datetime(2031, 5, 6, 7, 30), (time(6), time(18)))
    180.0
    """
    first = before - timedelta(days=2) if after is None else max(after, before - timedelta(days=2))
    pieces = (
        minutes_between(max(opens, first), min(closes, before))
        for opens, closes in _days(first.date(), before.date(), daylight)
    )
    return max(0.0, *pieces, 0.0)


def _days(first: date, last: date, daylight: Daylight) -> Iterator[tuple[datetime, datetime]]:
    day = first
    while day <= last:
        yield datetime.combine(day, daylight[0]), datetime.combine(day, daylight[1])
        day += timedelta(days=1)


def minutes_between(start: datetime, end: datetime) -> float:
    """Return the minutes from one moment to another [min]."""
    return (end - start).total_seconds() / 60
