"""The model: to JSON and back, what it refuses, what a job is charged."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.errors import OutOfRangeError
from becket.planning.model import (
    MINUTE_GRAIN,
    ChangePlace,
    Effort,
    Model,
    ModelJob,
    grain_up,
    job_charge,
    model_as_dict,
    model_from_dict,
)
from becket.planning.search import Blocked, Search
from tests.planning.sheets import small_model

JOB = ModelJob(job="K-1", minimum=240, step=15, rate=8, booked=240, overtime=2, leave_by=300)


def test_to_json_and_back_has_the_same_plan() -> None:
    """Through text, so that nothing but JSON is left in it; the same cost, states and next best."""
    for seed in range(60):
        model = small_model(seed)
        again = model_from_dict(json.loads(json.dumps(model_as_dict(model))))
        first, second = Search(model), Search(again)
        best, best_again = first.cheapest(), second.cheapest()
        if isinstance(best, Blocked) or isinstance(best_again, Blocked):
            assert isinstance(best, Blocked)
            assert isinstance(best_again, Blocked)
            continue
        assert best.cost == best_again.cost
        next_best, next_again = first.next_best(best), second.next_best(best)
        assert (next_best is None) == (next_again is None)
        assert next_best is None or next_again is None or next_best.cost == next_again.cost


def test_json_has_the_keys_of_the_documented_model() -> None:
    """Exactly these keys: others rely on them to solve it again."""
    data = model_as_dict(small_model(3))
    assert set(data) == {"start", "jobs", "groups", "changes"}
    assert set(data["jobs"][0]) == {"job", "minimum", "step", "rate", "booked", "overtime", "leave_by"}
    assert set(data["groups"][0]) == {"job", "states"}
    assert {key for state in data["groups"][0]["states"].values() for key in state} == {"minutes"}
    assert len(data["changes"]) == len(data["groups"])
    options = [o for entry in data["changes"] for offered in entry.values() for o in offered]
    assert {key for option in options for key in option} == {"where", "job", "minutes", "cost", "latest"}


def test_json_leaves_out_changes_between_states_that_cannot_follow_each_other() -> None:
    """A table is shared between gaps; a gap shows what may come before and after it."""
    model = small_model(3)
    states = [[model.start], *(list(group.states) for group in model.groups)]
    for before, after, entry in zip(states, states[1:], model_as_dict(model)["changes"], strict=False):
        for words in entry:
            a, b = words.split(">")
            assert a in before
            assert b in after


def test_two_options_of_one_place_survive_json() -> None:
    """Two ways at one place with the same limits stay two."""
    model = small_model(3)
    data = model_as_dict(model)
    entry = next(e for e in data["changes"] if e)
    words, options = next(iter(entry.items()))
    options.append({**options[0], "minutes": options[0]["minutes"] + 5})
    again = model_as_dict(model_from_dict(data))
    assert [len(e.get(words, [])) for e in again["changes"]] == [len(e.get(words, [])) for e in data["changes"]]


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"step": 0}, "model.jobs[0].step: 0; over 0"),
        ({"leave_by": -1}, "model.jobs[0]: -1; 0 or more"),
        ({"rate": float("nan")}, "model.jobs[0]: nan; 0 or more"),
        ({"overtime": float("inf")}, "model.jobs[0]: inf; 0 or more"),
    ],
)
def test_a_job_that_means_nothing_is_refused(change: dict[str, Any], message: str) -> None:
    model = small_model(3)
    jobs = (replace(model.jobs[0], **change), *model.jobs[1:])
    with pytest.raises(OutOfRangeError) as refused:
        Search(replace(model, jobs=jobs))
    assert str(refused.value) == message


def test_references_and_order_are_checked() -> None:
    model = small_model(3)
    out_of_order = (replace(model.groups[0], job=len(model.jobs)), *model.groups[1:])
    with pytest.raises(
        OutOfRangeError, match=r"model.groups\[0\].job: .*; a job of the model, in the order of the jobs"
    ):
        Search(replace(model, groups=out_of_order))
    with pytest.raises(OutOfRangeError, match=r"model.changes: .*; one entry for each of"):
        Search(replace(model, changes=model.changes[1:]))
    stray = ChangePlace(where="E", job=model.groups[-1].job + 1, latest=None, options={})
    with pytest.raises(OutOfRangeError, match=r"model.changes\[\d+\].job: .*; the job before"):
        Search(replace(model, changes=(*model.changes[:-1], (stray,))))


def test_efforts_below_nothing_are_refused() -> None:
    """A change that gives minutes back would break what the search relies on."""
    model = small_model(3)
    pair = (model.start, next(iter(model.groups[0].states)))
    for effort in (Effort(-1, 0), Effort(1, -0.5)):
        place = ChangePlace(where="S", job=model.groups[0].job, latest=None, options={pair: effort})
        with pytest.raises(OutOfRangeError, match=r"model.changes\[0\].S: -\S+; 0 or more"):
            Search(replace(model, changes=((place,), *model.changes[1:])))


@pytest.mark.parametrize(
    ("minutes", "charge"),
    [(0, 1920), (240, 1920), (240.5, 255 * 8 + 0.5 * 2), (255, 255 * 8 + 15 * 2), (256, 270 * 8 + 16 * 2)],
)
def test_a_job_is_charged_minimum_steps_and_overtime(minutes: float, charge: float) -> None:
    assert job_charge(JOB, minutes) == charge


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.floats(0, 600), st.floats(0, 600))
def test_more_minutes_never_cost_less(minutes: float, more: float) -> None:
    assert job_charge(JOB, minutes + more) >= job_charge(JOB, minutes)


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.floats(0, 1e5))
def test_minutes_are_rounded_up_and_hardly(minutes: float) -> None:
    assert minutes <= grain_up(minutes) <= minutes + MINUTE_GRAIN


def test_an_empty_sheet_has_a_plan_that_costs_what_is_booked() -> None:
    best = Search(Model(start="main:2", jobs=(JOB,), groups=(), changes=())).cheapest()
    assert not isinstance(best, Blocked)
    assert best.cost == 1920
    assert best.states == ()
    assert best.moves == ()
