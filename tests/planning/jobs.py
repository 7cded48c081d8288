"""A job sheet of two jobs for the invented crane of the tests.

In:    changes to single figures.
Out:   records in SI, made anew at each call.
Never: files.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from typing import Any

from becket.book.jobs import Job, JobSheet, Lift, Rates, Yard
from becket.book.tackle import State
from tests.crane import invented_lift

HOUR = 3600.0


def rafters(**changes: Any) -> Lift:
    """Return forty light lifts, quickest on two falls [-]."""
    lift = invented_lift(name="rafters", count=40, load=1000.0, boom=24.2, radius=(7.0, 10.0), top=10.0, handling=360.0)
    return replace(lift, **changes)


def pump(**changes: Any) -> Lift:
    """Return one lift that wants four falls [-]."""
    return invented_lift(**{"name": "pump", "handling": 2700.0, **changes})


def first_job(**changes: Any) -> Job:
    """Return a day with rafters, room for a change, hours left over [-]."""
    job = Job(
        name="K-1",
        site="Barn",
        start=datetime(2031, 5, 5, 7, 0),
        end=datetime(2031, 5, 5, 15, 30),
        leave_by=datetime(2031, 5, 5, 17, 0),
        counterweight=7000.0,
        outriggers="full",
        people=2,
        free_radius=36.0,
        lines_near=False,
        lifts=(rafters(),),
    )
    return replace(job, **changes)


def second_job(**changes: Any) -> Job:
    """Return a morning with the pump and no room for a change [-]."""
    job = first_job(
        name="K-2",
        site="Pump house",
        start=datetime(2031, 5, 6, 8, 0),
        end=datetime(2031, 5, 6, 12, 0),
        leave_by=datetime(2031, 5, 6, 13, 0),
        free_radius=9.0,
        lifts=(pump(),),
    )
    return replace(job, **changes)


def sheet_of(*jobs: Job, **changes: Any) -> JobSheet:
    """Return a sheet of these jobs; none: both of above [-]."""
    sheet = JobSheet(
        crane="Tallow 40",
        rigged=State(block="main", falls=2),
        rates=Rates(
            currency="EUR",
            customer=480 / HOUR,
            own=180 / HOUR,
            overtime=120 / HOUR,
            billing_step=900.0,
            minimum=4 * HOUR,
        ),
        yard=Yard(free_radius=40.0, setup=2700.0, people=2),
        daylight=(time(7, 0), time(17, 30)),
        carried={"main": "crane", "light": "crane", "ball": "lorry"},
        jobs=jobs or (first_job(), second_job()),
        fingerprint="0" * 16,
    )
    return replace(sheet, **changes)
