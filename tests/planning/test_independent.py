"""The search against other ways to the same cost: NetworkX on an expanded graph, SciPy's HiGHS as a programme.

Libraries: NetworkX (Dijkstra's shortest path), SciPy optimize.milp (HiGHS). Neither shares code with the search.
"""

from __future__ import annotations

from typing import Any

import networkx
import pytest

from becket.planning.model import model_as_dict
from becket.planning.search import Blocked, Search
from benchmarks.planning.milp import least_cost
from benchmarks.planning.models import plan_model
from tests.planning.brute import job_cost
from tests.planning.sheets import small_model

SINK = "sink"


def expanded_graph(data: dict[str, Any]) -> networkx.DiGraph:
    """Return every (group, state, minutes so far in the job) that can be reached, with what each step costs [money]."""
    graph = networkx.DiGraph()
    idle = sum(job_cost(job, 0) for i, job in enumerate(data["jobs"]) if all(g["job"] != i for g in data["groups"]))
    nodes = {(-1, data["start"], 0.0): idle}
    graph.add_node((-1, data["start"], 0.0))
    for g, group in enumerate(data["groups"]):
        reached: dict[tuple[int, str, float], float] = {}
        for node in nodes:
            for cost, target in steps(data, g, node, group):
                graph.add_edge(node, target, weight=cost if g else cost + idle)
                reached[target] = 0.0
        nodes = reached
    for node in nodes:
        graph.add_edge(node, SINK, weight=job_cost(data["jobs"][data["groups"][-1]["job"]], node[2]))
    return graph


def steps(data: dict[str, Any], g: int, node: tuple[int, str, float], group: dict[str, Any]) -> list[tuple[float, Any]]:
    """Return what leads on from a node: cost of the step and the node after the lifting [money]."""
    _, before, minutes = node
    job_before = data["groups"][g - 1]["job"] if g else None
    jobs = data["jobs"]
    found: list[tuple[float, Any]] = []
    for after, entry in group["states"].items():
        options = [None] if before == after else data["changes"][g].get(f"{before}>{after}", [])
        for option in options:
            taken = {
                job_before: minutes,
                group["job"]: 0.0,
                **({job_before: minutes} if job_before is not None else {}),
            }
            at = option["job"] if option else None
            if option and at is not None:
                idle_before = job_cost(jobs[at], 0) if at not in taken else 0.0
                taken[at] = taken.get(at, 0.0) + option["minutes"]
                if taken[at] > jobs[at]["leave_by"] or (option["latest"] is not None and taken[at] > option["latest"]):
                    continue
            cost = option["cost"] if option else 0.0
            if at is not None and at not in (job_before, group["job"]):
                cost += job_cost(jobs[at], taken[at]) - idle_before
            if job_before is not None and job_before != group["job"]:
                cost += job_cost(jobs[job_before], taken[job_before])
            total = taken[group["job"]] + entry["minutes"]
            if total <= jobs[group["job"]]["leave_by"]:
                found.append((cost, (g, after, total)))
    return found


@pytest.mark.parametrize("first", range(1000, 1200, 50))
def test_shortest_path_on_the_expanded_graph_costs_the_same(first: int) -> None:
    """NetworkX: Dijkstra over (group, state, minutes so far), 200 seeded sheets of up to 9 groups."""
    for seed in range(first, first + 50):
        model = small_model(seed, groups=9)
        graph = expanded_graph(model_as_dict(model))
        best = Search(model).cheapest()
        start = (-1, model.start, 0.0)
        if isinstance(best, Blocked):
            assert SINK not in graph or not networkx.has_path(graph, start, SINK), f"seed {seed}"
        else:
            assert networkx.dijkstra_path_length(graph, start, SINK) == best.cost, f"seed {seed}"


def test_highs_finds_the_same_optimum_on_small_sheets() -> None:
    """SciPy's HiGHS, 60 seeded sheets; its cost agrees to a millionth, a blocked sheet is infeasible for it too."""
    for seed in range(2000, 2060):
        model = small_model(seed, groups=8)
        best = Search(model).cheapest()
        cost = least_cost(model_as_dict(model))
        if isinstance(best, Blocked):
            assert cost is None, f"seed {seed}"
        else:
            assert cost == pytest.approx(float(best.cost), rel=1e-6), f"seed {seed}"


def test_highs_finds_the_same_optimum_on_a_month_of_lifts() -> None:
    """SciPy's HiGHS on one model of 24 groups with 6 states, shaped like the benchmark."""
    model = plan_model(24, 6, seed=5)
    best = Search(model).cheapest()
    assert not isinstance(best, Blocked)
    assert least_cost(model_as_dict(model), time_limit=60) == pytest.approx(float(best.cost), rel=1e-6)
