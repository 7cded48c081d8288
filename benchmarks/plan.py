"""How long a plan takes: search against size, HiGHS on the same model, files to answer.

In:    --quick for small sizes.
Out:   seconds and ratios of this one run.
Never: a verdict on the numbers.
"""

from __future__ import annotations

import argparse
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from becket.intake.book import read_book
from becket.intake.jobs import read_jobs
from becket.intake.settings import read_settings
from becket.planning.model import Model, model_as_dict
from becket.planning.plan import plan_sheet
from becket.planning.search import Route, Search
from benchmarks.planning.files import write_book, write_jobs
from benchmarks.planning.milp import least_cost
from benchmarks.planning.models import plan_model

STATES = 36


def main() -> None:
    """Print every measurement."""
    parser = argparse.ArgumentParser(description="How long a plan takes.")
    parser.add_argument("--quick", action="store_true", help="small sizes, for a run that only shows that it runs")
    quick = parser.parse_args().quick
    for groups in (50, 200) if quick else (200, 2_000, 20_000):
        print_search(groups)
    print_against_highs(*((24, 6) if quick else (120, 12)))
    print_files(60 if quick else 2_000)


def print_search(groups: int) -> None:
    """Print the time of the search alone, the model compiled, and of the next best plan.

    Args:
        groups: lift groups [-]
    """
    model = plan_model(groups, STATES)
    seconds, route, search = _search(model)
    start = perf_counter()
    search.next_best(route)
    print(
        f"search: {groups} groups x {STATES} states: {seconds:.3f} s ({1e6 * seconds / groups:.0f} us a group), "
        f"{len(route.moves)} changes; next best plan {perf_counter() - start:.3f} s"
    )


def print_against_highs(groups: int, states: int) -> None:
    """Print the ratio to HiGHS on one model, at equal cost.

    Args:
        groups: lift groups [-]
        states: of the crane [-]
    """
    model = plan_model(groups, states)
    seconds, route, _ = min((_search(model) for _ in range(5)), key=lambda run: run[0])
    data = model_as_dict(model)
    start = perf_counter()
    cost = least_cost(data)
    highs = perf_counter() - start
    equal = cost is not None and abs(cost - float(route.cost)) < 1e-6 * cost
    print(
        f"HiGHS: {groups} groups x {states} states: {highs:.2f} s against {seconds:.4f} s, {highs / seconds:.0f} x; "
        f"cost {'equal' if equal else 'NOT EQUAL'}: {float(route.cost):.2f}"
    )


def print_files(groups: int) -> None:
    """Print the time from two files to the answer.

    Args:
        groups: lift groups [-]
    """
    with TemporaryDirectory() as name:
        book_path, jobs_path = write_book(Path(name)), write_jobs(Path(name), groups)
        start = perf_counter()
        settings = read_settings(Path(name))
        book = read_book(book_path, settings).book
        sheet = read_jobs(jobs_path, settings, book).sheet
        read = perf_counter()
        plan = plan_sheet(book, settings, sheet)
        done = perf_counter()
    model = plan.model
    able = sum(len(group.states) for group in model.groups) / max(1, len(model.groups)) if model else 0.0
    left_out = sum(group.state is None for group in plan.groups)
    print(
        f"files to answer: {groups} groups x {len(book.patterns)} states: {done - start:.2f} s (reading "
        f"{read - start:.2f} s); {able:.0f} states can do a lift on average, {left_out} lifts left out, "
        f"{len(plan.changes)} changes, cost {plan.cost}"
    )


def _search(model: Model) -> tuple[float, Route, Search]:
    start = perf_counter()
    search = Search(model)
    route = search.cheapest()
    seconds = perf_counter() - start
    if not isinstance(route, Route):
        raise SystemExit(f"the benchmark's own model is blocked at group {route.group}")
    return seconds, route, search


if __name__ == "__main__":
    main()
