"""What a given route costs: no search, plain sums of the model's terms.

In:    a planning model, states, the changes between them.
Out:   cost and minutes of every job, exact; None where the route cannot be done.
Never: choosing.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from becket.planning.model import Model, ModelJob
from becket.planning.search import Move


@dataclass(frozen=True, kw_only=True)
class Price:
    """What a route costs."""

    cost: Fraction  # [money]
    minutes: tuple[Fraction, ...]  # by job [min]


def price_route(model: Model, states: tuple[str, ...], moves: Iterable[Move]) -> Price | None:
    """Return what a route costs, None where a limit of time forbids it [money, min].

    Args:
        model: jobs, groups, places
        states: one for each group
        moves: the changes, with their places

    Source: docs/theory/planning.md, eq. 1.
    """
    minutes = [Fraction(0)] * len(model.jobs)
    cost = Fraction(0)
    by_group = {move.before_group: move for move in moves}
    for g, (group, state) in enumerate(zip(model.groups, states, strict=True)):
        move = by_group.get(g)
        if move is not None:
            place = model.changes[g][move.place]
            cost += move.cost
            if place.job is not None:
                minutes[place.job] += move.minutes
                if place.latest is not None and minutes[place.job] > place.latest:
                    return None
        minutes[group.job] += Fraction(group.states[state])
    if any(taken > job.leave_by for job, taken in zip(model.jobs, minutes, strict=True)):
        return None
    cost += sum(exact_charge(job, taken) for job, taken in zip(model.jobs, minutes, strict=True))
    return Price(cost=cost, minutes=tuple(minutes))


def exact_charge(job: ModelJob, minutes: Fraction) -> Fraction:
    """Return what a job of so many minutes costs, exactly [money].

    Args:
        job: how it is charged
        minutes: lifting and changes [min]

    Source: docs/theory/planning.md, eq. 1.
    """
    step = Fraction(job.step)
    billed = max(Fraction(job.minimum), ceil(minutes / step) * step)
    return billed * Fraction(job.rate) + max(Fraction(0), minutes - Fraction(job.booked)) * Fraction(job.overtime)
