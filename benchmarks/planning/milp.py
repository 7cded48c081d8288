"""The planning model as a mixed-integer programme, solved by HiGHS: an independent way to the same cost.

In:    a planning model as its JSON object.
Out:   the least cost.
Never: the product's search.

Flow over (group, from, to, place) with whole billing steps. Formulation: a textbook path flow with side sums,
no source; solver: HiGHS through scipy.optimize.milp.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

Option = dict[str, Any]
Terms = dict[int, float]  # variable -> factor


@dataclass
class _Programme:
    """Variables and rows as they come."""

    cost: list[float] = field(default_factory=list)
    whole: list[int] = field(default_factory=list)
    most: list[float] = field(default_factory=list)
    rows: list[Terms] = field(default_factory=list)
    low: list[float] = field(default_factory=list)
    high: list[float] = field(default_factory=list)

    def variable(self, cost: float, whole: int, most: float = np.inf) -> int:
        self.cost.append(cost)
        self.whole.append(whole)
        self.most.append(most)
        return len(self.cost) - 1

    def row(self, terms: Terms, low: float, high: float) -> None:
        self.rows.append(terms)
        self.low.append(low)
        self.high.append(high)

    def solve(self, time_limit: float | None) -> float | None:
        entries = [(r, v, factor) for r, terms in enumerate(self.rows) for v, factor in terms.items()]
        shape = (len(self.rows), len(self.cost))
        index = ([r for r, _, _ in entries], [v for _, v, _ in entries])
        matrix = csr_array(([f for _, _, f in entries], index), shape=shape)
        answer = milp(
            c=np.array(self.cost),
            constraints=LinearConstraint(matrix, np.array(self.low), np.array(self.high)),
            integrality=np.array(self.whole),
            bounds=Bounds(np.zeros(len(self.most)), np.array(self.most)),
            options={"mip_rel_gap": 0.0, "time_limit": np.inf if time_limit is None else time_limit},
        )
        return float(answer.fun) if answer.success else None


def least_cost(model: dict[str, Any], time_limit: float | None = None) -> float | None:
    """Return the least cost of a planning model; None: it cannot be done, or not in the time given [money].

    Args:
        model: JSON object of the model
        time_limit: of the solver; None: none [s]
    """
    programme = _Programme()
    flows = _flows(programme, model)
    if any(not of_group for of_group in flows):
        return None
    _conserve(programme, model, flows)
    minutes = _charge_jobs(programme, model, flows)
    _limit_places(programme, model, flows, minutes)
    return programme.solve(time_limit)


Flow = tuple[str, str, Option | None, int]  # from, to, place, variable


def _flows(programme: _Programme, model: dict[str, Any]) -> list[list[Flow]]:
    flows: list[list[Flow]] = []
    before = [model["start"]]
    for group, changes in zip(model["groups"], model["changes"], strict=True):
        here: list[Flow] = []
        for a in before:
            for b in group["states"]:
                options: list[Option | None] = [None] if a == b else list(changes.get(f"{a}>{b}", []))
                here.extend((a, b, o, programme.variable(o["cost"] if o else 0.0, 1, 1)) for o in options)
        flows.append(here)
        before = list(group["states"])
    return flows


def _conserve(programme: _Programme, model: dict[str, Any], flows: list[list[Flow]]) -> None:
    programme.row({v: 1.0 for *_, v in flows[0]}, 1, 1)
    for g in range(1, len(flows)):
        for state in model["groups"][g - 1]["states"]:
            terms = {v: 1.0 for _, b, _, v in flows[g - 1] if b == state}
            terms.update({v: -1.0 for a, _, _, v in flows[g] if a == state})
            programme.row(terms, 0, 0)


def _charge_jobs(programme: _Programme, model: dict[str, Any], flows: list[list[Flow]]) -> list[Terms]:
    minutes: list[Terms] = [{} for _ in model["jobs"]]
    for group, here in zip(model["groups"], flows, strict=True):
        for _, b, option, v in here:
            minutes[group["job"]][v] = minutes[group["job"]].get(v, 0.0) + group["states"][b]["minutes"]
            if option and option["job"] is not None:
                minutes[option["job"]][v] = minutes[option["job"]].get(v, 0.0) + option["minutes"]
    for job, terms in zip(model["jobs"], minutes, strict=True):
        billed = programme.variable(job["rate"], 0)
        steps = programme.variable(0.0, 1)
        over = programme.variable(job["overtime"], 0)
        programme.row({billed: 1.0}, job["minimum"], np.inf)
        programme.row({billed: 1.0, steps: -job["step"]}, 0, np.inf)
        programme.row({steps: job["step"], **{v: -m for v, m in terms.items()}}, 0, np.inf)
        programme.row({over: 1.0, **{v: -m for v, m in terms.items()}}, -job["booked"], np.inf)
        programme.row(dict(terms), -np.inf, job["leave_by"])
    return minutes


def _limit_places(programme: _Programme, model: dict[str, Any], flows: list[list[Flow]], minutes: list[Terms]) -> None:
    """Ties a place's latest minutes to what the job has taken by then, the change included."""
    so_far: list[Terms] = [{} for _ in model["jobs"]]
    for group, here in zip(model["groups"], flows, strict=True):
        limited = {(o["job"], o["latest"]) for _, _, o, _ in here if o and o["latest"] is not None}
        for job, latest in limited:
            used = [(v, o["minutes"]) for _, _, o, v in here if o and (o["job"], o["latest"]) == (job, latest)]
            big = model["jobs"][job]["leave_by"]
            programme.row({**so_far[job], **{v: m + big for v, m in used}}, -np.inf, latest + big)
        for _, b, option, v in here:
            for job in range(len(so_far)):
                taken = group["states"][b]["minutes"] if job == group["job"] else 0.0
                taken += option["minutes"] if option and option["job"] == job else 0.0
                if taken:
                    so_far[job][v] = taken
    assert so_far == [{v: m for v, m in terms.items() if m} for terms in minutes]
