"""From group to group: each kind of place does to a label what it should, and only that."""

from __future__ import annotations

from fractions import Fraction

import pytest

from becket.planning.model import ChangePlace, Effort, Model, ModelGroup, ModelJob
from becket.planning.search import Blocked, Route, Search

PAIR = ("main:2", "main:4")


def job(name: str, **changes: float) -> ModelJob:
    figures = {"minimum": 120.0, "step": 15.0, "rate": 1.0, "booked": 120.0, "overtime": 0.5, "leave_by": 200.0}
    return ModelJob(job=name, **{**figures, **changes})


def two_jobs(*places: ChangePlace, first: float = 100, second: float = 100, idle: bool = False) -> Model:
    """Return a model: one group on main:2, then in the last job one on main:4 [min]."""
    jobs = (job("A"), job("idle"), job("B")) if idle else (job("A"), job("B"))
    last = len(jobs) - 1
    groups = (ModelGroup(job=0, states={PAIR[0]: first}), ModelGroup(job=last, states={PAIR[1]: second}))
    return Model(start=PAIR[0], jobs=jobs, groups=groups, changes=((), places))


def place(where: str, at: int | None, minutes: float, cost: float = 0, latest: float | None = None) -> ChangePlace:
    return ChangePlace(where=where, job=at, latest=latest, options={PAIR: Effort(minutes, cost)})


def cost(model: Model) -> Fraction | str:
    best = Search(model).cheapest()
    return best.cost if isinstance(best, Route) else best.because


@pytest.mark.parametrize(
    ("places", "expected"),
    [
        ((place("E", 0, 20),), 240),  # in booked hours: nothing
        ((place("E", 0, 35),), 120 + 135 + 15 * 0.5),  # one step and 15 min of overtime
        ((place("E", 0, 101),), "change"),  # 201 min: past leave_by
        ((place("E", 0, 20, latest=119),), "change"),  # dark at 119
        ((place("E", 0, 20, latest=120),), 240),
        ((place("S", 1, 20),), 240),
        ((place("S", 1, 30),), 120 + 135 + 10 * 0.5),
        ((place("S", 1, 20, latest=19),), "change"),
        ((place("S", 1, 20, latest=20),), 240),
        ((place("S", 1, 101),), "time"),
        ((place("Y", None, 500, cost=33),), 240 + 33),  # nobody's minutes
        ((place("Y", None, 60, cost=33), place("E", 0, 35)), 240 + 22.5),  # the cheaper of two
        ((), "change"),
    ],
)
def test_a_place_between_two_jobs(places: tuple[ChangePlace, ...], expected: float | str) -> None:
    assert cost(two_jobs(*places)) == expected


def test_a_job_without_lifts_between_is_charged_and_its_site_can_be_used() -> None:
    assert cost(two_jobs(place("E", 1, 120), idle=True)) == 360
    assert cost(two_jobs(place("E", 1, 130), idle=True)) == 360 + 15 + 5
    assert cost(two_jobs(place("E", 1, 201), idle=True)) == "change"
    assert cost(two_jobs(place("E", 1, 60, latest=59), idle=True)) == "change"


@pytest.mark.parametrize(
    ("first", "taken", "latest", "expected"),
    [
        (50, 20, None, 120),
        (50, 31, None, 135 + 11 * 0.5),
        (50, 20, 69, "change"),
        (50, 20, 70, 120),
        (140, 20, None, "time"),
    ],
)
def test_between_the_lifts_of_a_job(first: float, taken: float, latest: float | None, expected: float | str) -> None:
    groups = (ModelGroup(job=0, states={PAIR[0]: first}), ModelGroup(job=0, states={PAIR[1]: 50}))
    inside = place("I", 0, taken, latest=latest)
    assert cost(Model(start=PAIR[0], jobs=(job("A"),), groups=groups, changes=((), (inside,)))) == expected


def test_a_start_that_can_do_nothing_and_has_no_place_is_blocked_at_the_first_group() -> None:
    model = Model(start="ball:1", jobs=(job("A"),), groups=(ModelGroup(job=0, states={PAIR[0]: 5}),), changes=((),))
    blocked = Search(model).cheapest()
    assert isinstance(blocked, Blocked)
    assert (blocked.group, blocked.because, blocked.reached) == (0, "change", ("ball:1",))


def test_minutes_saved_earlier_pay_for_a_change_later() -> None:
    """The dearer label with fewer minutes must survive: it alone ends the job in time."""
    fast, slow = "a:2", "b:2"
    table = {(slow, fast): Effort(10, 30), (fast, slow): Effort(10, 0)}
    places = (ChangePlace(where="I", job=0, latest=None, options=table),)
    groups = (
        ModelGroup(job=0, states={slow: 10.0}),
        ModelGroup(job=0, states={slow: 150.0, fast: 60.0}),
        ModelGroup(job=0, states={slow: 60.0}),
    )
    model = Model(start=slow, jobs=(job("A"),), groups=groups, changes=((), places, places))
    best = Search(model).cheapest()
    assert isinstance(best, Route)
    assert best.states == (slow, fast, slow)
    assert best.cost == 30 + 150 + 30 * 0.5
