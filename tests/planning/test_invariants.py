"""What holds for every plan, whatever the sheet (Hypothesis over seeds of small sheets)."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from becket.planning.model import Effort, Model, ModelGroup, model_as_dict
from becket.planning.pricing import RoutePrice
from becket.planning.search import Route, Search
from tests.planning.brute import cost_of
from tests.planning.sheets import small_model

SEEDS = st.integers(0, 10**9)
often = settings(derandomize=True, deadline=None, max_examples=150)


def best_of(model: Model) -> Route:
    """Return the cheapest route; sheets without one are not asked [money]."""
    best = Search(model).cheapest()
    assume(isinstance(best, Route))
    assert isinstance(best, Route)
    return best


def cost_or_none(model: Model) -> Fraction | None:
    """Return the least cost, None where there is no plan [money]."""
    best = Search(model).cheapest()
    return best.cost if isinstance(best, Route) else None


@often
@given(SEEDS, st.integers(0, 3))
def test_a_plan_never_costs_more_than_staying_in_any_state_that_can_do_all(seed: int, number: int) -> None:
    """The crane comes with that state on it; every group is given it, with minutes of its own."""
    model = small_model(seed)
    names = sorted({name for group in model.groups for name in group.states})
    stay = names[number % len(names)]
    groups = tuple(
        ModelGroup(job=g.job, states={**g.states, stay: g.states.get(stay, max(g.states.values()) + 3)})
        for g in model.groups
    )
    model = replace(model, start=stay, groups=groups)
    staying = cost_of(model_as_dict(model), (stay,) * len(groups), (None,) * len(groups))
    assume(staying < float("inf"))
    best = best_of(model)
    assert best.cost <= Fraction(staying)
    assert best.cost < Fraction(staying) or not best.moves, "at equal cost nothing is changed"


@often
@given(SEEDS, st.integers(0, 5), st.integers(1, 60))
def test_longer_lifting_never_makes_a_plan_cheaper(seed: int, number: int, more: int) -> None:
    model = small_model(seed)
    best = best_of(model)
    g = number % len(model.groups)
    slower = ModelGroup(job=model.groups[g].job, states={s: m + more for s, m in model.groups[g].states.items()})
    after = cost_or_none(replace(model, groups=(*model.groups[:g], slower, *model.groups[g + 1 :])))
    assert after is None or after >= best.cost


@often
@given(SEEDS, st.integers(0, 5))
def test_another_state_for_a_lift_never_makes_a_plan_dearer(seed: int, number: int) -> None:
    model = small_model(seed)
    best = best_of(model)
    g = number % len(model.groups)
    wider = ModelGroup(job=model.groups[g].job, states={**model.groups[g].states, "ball:1": 5.0})
    after = cost_or_none(replace(model, groups=(*model.groups[:g], wider, *model.groups[g + 1 :])))
    assert after is not None
    assert after <= best.cost


@often
@given(SEEDS, st.integers(0, 5))
def test_fewer_places_never_make_a_plan_cheaper(seed: int, number: int) -> None:
    model = small_model(seed)
    best = best_of(model)
    g = number % len(model.groups)
    after = cost_or_none(replace(model, changes=(*model.changes[:g], (), *model.changes[g + 1 :])))
    assert after is None or after >= best.cost


@often
@given(SEEDS)
def test_more_time_on_site_never_makes_a_plan_dearer(seed: int) -> None:
    model = small_model(seed)
    best = best_of(model)
    jobs = tuple(replace(job, leave_by=job.leave_by + 100) for job in model.jobs)
    after = cost_or_none(replace(model, jobs=jobs))
    assert after is not None
    assert after <= best.cost


@often
@given(SEEDS)
def test_the_next_best_is_another_row_of_states_and_not_cheaper(seed: int) -> None:
    search = Search(small_model(seed))
    best = search.cheapest()
    assume(isinstance(best, Route))
    assert isinstance(best, Route)
    second = search.next_best(best)
    if second is not None:
        assert second.states != best.states
        assert second.cost >= best.cost


@often
@given(SEEDS)
def test_a_route_costs_what_its_terms_add_up_to(seed: int) -> None:
    """RoutePrice shares no code with the search."""
    model = small_model(seed)
    best = best_of(model)
    price = RoutePrice(model, best.states, best.moves)
    assert price.cost == best.cost
    for move in best.moves:
        shares = price.shares_of(move)
        assert shares.customer >= 0
        assert shares.own >= 0
        unmade = price.cost_with(replace(move, minutes=Fraction(0), cost=Fraction(0)))
        assert unmade == best.cost - shares.whole


@often
@given(SEEDS)
def test_every_move_stands_in_the_model(seed: int) -> None:
    model = small_model(seed)
    state = model.start
    best = best_of(model)
    moves = {move.before_group: move for move in best.moves}
    for g, after in enumerate(best.states):
        assert after in model.groups[g].states
        if after != state:
            move = moves.pop(g)
            assert (move.before, move.after) == (state, after)
            effort = model.changes[g][move.place].options[state, after]
            assert effort == Effort(float(move.minutes), float(move.cost))
        state = after
    assert not moves
