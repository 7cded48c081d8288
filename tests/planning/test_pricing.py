"""The price of a route, and of its changes at other places."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from becket.planning.model import ChangePlace, Effort, Model, ModelGroup, ModelJob, model_as_dict
from becket.planning.pricing import RoutePrice, Shares, exact_charge
from becket.planning.search import Move, Route, Search
from tests.planning.brute import cost_of
from tests.planning.sheets import small_model

JOB = ModelJob(job="A", minimum=120, step=15, rate=1, booked=120, overtime=0.5, leave_by=200)


def moved(model: Model, move: Move, place: int) -> Move:
    """Return a move at another place [-]."""
    effort = model.changes[move.before_group][place].options[move.before, move.after]
    return replace(move, place=place, minutes=Fraction(effort.minutes), cost=Fraction(effort.cost))


def test_every_other_place_costs_what_the_brute_force_says() -> None:
    """Each change of 300 seeded plans at each of its other places, the rest as it is."""
    compared = 0
    for seed in range(300):
        model = small_model(seed)
        best = Search(model).cheapest()
        if not isinstance(best, Route):
            continue
        data = model_as_dict(model)
        price = RoutePrice(model, best.states, best.moves)
        for move in best.moves:
            for place, other in enumerate(model.changes[move.before_group]):
                if (move.before, move.after) in other.options:
                    there = [moved(model, move, place) if m is move else m for m in best.moves]
                    cost = price.cost_with(moved(model, move, place))
                    expected = cost_of(data, best.states, options_of(data, model, there))
                    assert (float("inf") if cost is None else cost) == expected, f"seed {seed}"
                    compared += 1
    assert compared > 200


def options_of(data: dict[str, object], model: Model, moves: list[Move]) -> tuple[dict[str, object] | None, ...]:
    """Return the places of the moves as the brute force takes them [-]."""
    options: list[dict[str, object] | None] = [None] * len(model.groups)
    for move in moves:
        place = model.changes[move.before_group][move.place]
        options[move.before_group] = {
            "job": place.job,
            "minutes": float(move.minutes),
            "cost": float(move.cost),
            "latest": place.latest,
        }
    return tuple(options)


def test_minutes_by_job_and_a_limit_that_forbids() -> None:
    pair = ("a:2", "b:2")
    places = (ChangePlace(where="I", job=0, latest=90, options={pair: Effort(40, 0)}),)
    groups = (ModelGroup(job=0, states={"a:2": 50.0}), ModelGroup(job=0, states={"b:2": 50.0}))
    model = Model(start="a:2", jobs=(JOB,), groups=groups, changes=((), places))
    move = Move(before_group=1, before="a:2", after="b:2", place=0, minutes=Fraction(40), cost=Fraction(0))
    price = RoutePrice(model, ("a:2", "b:2"), [move])
    assert price.minutes[0] == 140
    assert price.cost == 150 + 10
    assert price.shares_of(move) == Shares(customer=Fraction(30), own=Fraction(10)), "150 less 120; 20 min over at 0.5"
    assert price.cost_with(replace(move, minutes=Fraction(41))) is None, "dark at 90"


def test_the_charge_of_a_third_of_a_minute_is_exact() -> None:
    assert exact_charge(JOB, Fraction(361, 3)) == 135 + Fraction(1, 6)


def test_a_change_in_the_yard_is_ours_whatever_the_job_after_it_is_charged() -> None:
    pair = ("a:2", "b:2")
    places = (ChangePlace(where="Y", job=None, latest=None, options={pair: Effort(95, 310)}),)
    groups = (ModelGroup(job=0, states={"a:2": 50.0}), ModelGroup(job=1, states={"b:2": 130.0}))
    model = Model(start="a:2", jobs=(JOB, replace(JOB, job="B")), groups=groups, changes=((), places))
    move = Move(before_group=1, before="a:2", after="b:2", place=0, minutes=Fraction(95), cost=Fraction(310))
    price = RoutePrice(model, ("a:2", "b:2"), [move])
    assert price.shares_of(move) == Shares(customer=Fraction(0), own=Fraction(310))
