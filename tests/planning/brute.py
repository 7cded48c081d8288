"""The cheapest plan by trying everything: every row of states, every place for every change.

In:    the JSON object of a planning model.
Out:   the cost of every row of states that can be done. Plain sums, no dropping, no bounds.
Never: the product's search, its labels or its records.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product
from typing import Any


def job_cost(job: dict[str, Any], minutes: float) -> float:
    """Return what a job is charged after so many minutes; beyond ``leave_by`` it cannot be done [money]."""
    if minutes > job["leave_by"]:
        return math.inf
    billed = max(job["minimum"], math.ceil(minutes / job["step"]) * job["step"])
    return float(billed * job["rate"] + max(0, minutes - job["booked"]) * job["overtime"])


def cost_of(model: dict[str, Any], states: tuple[str, ...], options: tuple[dict[str, Any] | None, ...]) -> float:
    """Return what a row of states costs with these places; infinite where it cannot be done [money]."""
    used = [0.0] * len(model["jobs"])
    cost = 0.0
    for group, state, option in zip(model["groups"], states, options, strict=True):
        if option is not None:
            cost += option["cost"]
            if option["job"] is not None:
                used[option["job"]] += option["minutes"]
                if option["latest"] is not None and used[option["job"]] > option["latest"]:
                    return math.inf
        used[group["job"]] += group["states"][state]["minutes"]
    return cost + sum(job_cost(job, minutes) for job, minutes in zip(model["jobs"], used, strict=True))


def every_choice(model: dict[str, Any]) -> Iterator[tuple[tuple[str, ...], tuple[dict[str, Any] | None, ...]]]:
    """Give every row of states with every choice of places [-]."""
    for states in product(*(group["states"] for group in model["groups"])):
        places: list[list[dict[str, Any] | None]] = []
        for before, after, changes in zip((model["start"], *states[:-1]), states, model["changes"], strict=True):
            places.append([None] if before == after else list(changes.get(f"{before}>{after}", [])))
        for options in product(*places):
            yield states, options


def every_cost(model: dict[str, Any]) -> dict[tuple[str, ...], float]:
    """Return the least cost of every row of states that can be done [money]."""
    least: dict[tuple[str, ...], float] = {}
    for states, options in every_choice(model):
        cost = cost_of(model, states, options)
        if cost < least.get(states, math.inf):
            least[states] = cost
    return least
