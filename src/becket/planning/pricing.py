"""What a given route costs: no search, plain sums of the model's terms.

In:    a planning model, states, the changes between them.
Out:   cost and minutes of every job, exact; None where the route cannot be done.
Never: choosing.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from becket.planning.model import Model, ModelJob
from becket.planning.search import Move


@dataclass(frozen=True, kw_only=True)
class Shares:
    """A sum of money, by who pays it."""

    customer: Fraction  # [money]
    own: Fraction  # we ourselves: overtime, and a change in the yard [money]

    @property
    def whole(self) -> Fraction:
        """Both together [money]."""
        return self.customer + self.own


class RoutePrice:
    """The price of one route; what other places for one of its changes cost is worked out from the jobs concerned."""

    def __init__(self, model: Model, states: tuple[str, ...], moves: Iterable[Move]) -> None:
        self.model, self.states = model, states
        self._moves = {move.before_group: move for move in moves}
        self._groups: dict[int, set[int]] = {}  # job -> groups in it, and groups whose change is charged to it
        for g, group in enumerate(model.groups):
            self._groups.setdefault(group.job, set()).add(g)
        for g, move in self._moves.items():
            job = self._job_of(move)
            if job is not None:
                self._groups.setdefault(job, set()).add(g)
        self._terms = [self._job(job, self._moves) for job in range(len(model.jobs))]
        self.minutes = tuple(minutes for minutes, _ in self._terms)  # by job [min]
        self.cost = self._sum()  # None: a limit of time forbids the route [money]

    def _sum(self) -> Fraction | None:
        cost = sum((move.cost for move in self._moves.values()), start=Fraction(0))
        for _, charge in self._terms:
            if charge is None:
                return None
            cost += charge
        return cost

    def cost_with(self, move: Move) -> Fraction | None:
        """Return what the route costs with this change in place of its own before the same group [money].

        Args:
            move: the same change at another place, or with other minutes
        """
        old = self._moves[move.before_group]
        moves = {**self._moves, move.before_group: move}
        cost = self.cost
        for job in {self._job_of(old), self._job_of(move)} - {None}:
            here = frozenset((move.before_group,))
            before, after = self._terms[job or 0][1], self._job(job or 0, moves, here)[1]
            if cost is None or before is None or after is None:
                return None
            cost += after - before
        return None if cost is None else cost + move.cost - old.cost

    def shares_of(self, move: Move) -> Shares:
        """Return what the route costs more for one of its changes, by who pays it [money].

        Args:
            move: the change, as it is in the route

        Source: docs/theory/planning.md, "Who pays".
        """
        number = self._job_of(move)
        if number is None:
            return Shares(customer=Fraction(0), own=move.cost)
        job, minutes = self.model.jobs[number], self.minutes[number]
        made, unmade = shares_of_job(job, minutes), shares_of_job(job, minutes - move.minutes)
        return Shares(customer=made.customer - unmade.customer, own=made.own - unmade.own + move.cost)

    def _job_of(self, move: Move) -> int | None:
        return self.model.changes[move.before_group][move.place].job

    def _job(
        self, number: int, moves: Mapping[int, Move], extra: frozenset[int] = frozenset()
    ) -> tuple[Fraction, Fraction | None]:
        """Return the minutes of a job and its charge, None where it cannot be done [min, money]."""
        minutes, possible = Fraction(0), True
        for g in sorted(self._groups.get(number, set()) | extra):
            move = moves.get(g)
            if move is not None and self._job_of(move) == number:
                minutes += move.minutes
                latest = self.model.changes[g][move.place].latest
                possible = possible and (latest is None or minutes <= latest)
            if self.model.groups[g].job == number:
                minutes += Fraction(self.model.groups[g].states[self.states[g]])
        job = self.model.jobs[number]
        possible = possible and minutes <= job.leave_by
        return minutes, exact_charge(job, minutes) if possible else None


def exact_charge(job: ModelJob, minutes: Fraction) -> Fraction:
    """Return what a job of so many minutes costs, exactly [money].

    Args:
        job: how it is charged
        minutes: lifting and changes [min]

    Source: docs/theory/planning.md, eq. 1.
    """
    return shares_of_job(job, minutes).whole


def shares_of_job(job: ModelJob, minutes: Fraction) -> Shares:
    """Return what a job of so many minutes costs, by who pays it, exactly [money].

    Args:
        job: how it is charged
        minutes: lifting and changes [min]

    Source: docs/theory/planning.md, eq. 1: its first term is the customer's, its second our own.
    """
    step = Fraction(job.step)
    billed = max(Fraction(job.minimum), ceil(minutes / step) * step)
    over = max(Fraction(0), minutes - Fraction(job.booked))
    return Shares(customer=billed * Fraction(job.rate), own=over * Fraction(job.overtime))
