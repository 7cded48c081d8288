"""The model in whole numbers loses nothing."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from becket.planning.model import ChangePlace, Effort, Model, ModelGroup, ModelJob
from becket.planning.pricing import exact_charge
from becket.planning.search import Route, Search
from becket.planning.whole import whole_model
from tests.planning.sheets import small_model

# figures that no short binary fraction holds
ODD = ModelJob(job="K-1", minimum=240, step=15, rate=490 / 60, booked=240, overtime=0.1, leave_by=333.3)


def odd_model() -> Model:
    pair = ("main:2", "main:4")
    return Model(
        start="main:2",
        jobs=(ODD,),
        groups=(ModelGroup(job=0, states={"main:2": 0.1}), ModelGroup(job=0, states={"main:4": 239.9})),
        changes=((), (ChangePlace(where="I", job=0, latest=None, options={pair: Effort(47.3, 0.7)}),)),
    )


def test_money_of_odd_floats_is_exact() -> None:
    """The cost is what the floats say as fractions, to the last binary digit."""
    best = Search(odd_model()).cheapest()
    assert isinstance(best, Route)
    minutes = Fraction(0.1) + Fraction(47.3) + Fraction(239.9)
    assert best.cost == exact_charge(ODD, minutes) + Fraction(0.7)


@pytest.mark.parametrize("seed", range(20))
def test_whole_charges_are_the_models_charges(seed: int) -> None:
    model = small_model(seed)
    whole = whole_model(model)
    for number, job in enumerate(model.jobs):
        for minutes in (0.0, job.minimum, job.booked + 1, job.booked + 31):
            charge = whole.jobs[number].charge(int(minutes * whole.minute_scale))
            assert whole.money(charge) == exact_charge(job, Fraction(minutes))


def test_minutes_that_add_up_to_a_billing_step_are_not_one_step_more() -> None:
    """3,000 times the grain of a minute, with a billing step of one grain."""
    grain = 1 / 1024
    job = replace(ODD, step=grain, minimum=0)
    groups = tuple(ModelGroup(job=0, states={"main:2": grain}) for _ in range(3000))
    best = Search(Model(start="main:2", jobs=(job,), groups=groups, changes=((),) * 3000)).cheapest()
    assert isinstance(best, Route)
    assert best.cost == 3000 * Fraction(grain) * Fraction(job.rate)


def test_changes_and_minutes_never_reach_the_money() -> None:
    """Of equal cost: fewer changes first, then fewer minutes; the cost itself stays as it is."""
    job = replace(ODD, minimum=240, rate=1, overtime=0)
    table = {("a:2", "b:2"): Effort(5, 0), ("b:2", "a:2"): Effort(5, 0)}
    place = ChangePlace(where="I", job=0, latest=None, options=table)
    slow = ModelGroup(job=0, states={"a:2": 60.0, "b:2": 20.0})
    only_a = ModelGroup(job=0, states={"a:2": 10.0})
    model = Model(start="a:2", jobs=(job,), groups=(slow, only_a), changes=((place,), (place,)))
    best = Search(model).cheapest()
    assert isinstance(best, Route)
    assert best.cost == 240
    assert best.moves == (), "30 minutes less, but two changes more"
    ends_in_b = replace(model, groups=(slow, ModelGroup(job=0, states={"b:2": 10.0})))
    best = Search(ends_in_b).cheapest()
    assert isinstance(best, Route)
    assert [move.before_group for move in best.moves] == [0], "one change either way: where it saves minutes"
