"""The cheapest states for a row of lift groups, exactly, and the next best.

In:    a planning model.
Out:   a route: states, changes with their places, cost as an exact fraction; or where it is blocked.
Never: rounding, guessing, cranes.

Labels are (money of the finished jobs, minutes so far in this job, trail) for each state after each group. A label
that has no less money and no fewer minutes than another one in the same state is dropped: whatever comes, it
costs no less, because a job's charge never falls as its minutes rise. See docs/theory/planning.md.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from becket.planning.arrival import arrive, lift
from becket.planning.labels import MONEY, Front, Trail, merge
from becket.planning.model import Model, check_model
from becket.planning.whole import whole_model


@dataclass(frozen=True, kw_only=True)
class Move:
    """One change of a route."""

    before_group: int
    before: str
    after: str
    place: int  # which of the model's places before that group
    minutes: Fraction  # [min]
    cost: Fraction  # besides the minutes [money]


@dataclass(frozen=True, kw_only=True)
class Route:
    """One state for each group, and the changes between them."""

    cost: Fraction  # [money]
    states: tuple[str, ...]
    moves: tuple[Move, ...]


@dataclass(frozen=True, kw_only=True)
class Blocked:
    """No route: nothing gets past ``group``."""

    group: int
    because: str  # "change": no place for any change that is needed; "time": the job cannot end by its leave_by
    reached: tuple[str, ...]  # the states that were possible after the group before


class Search:
    """One model, compiled; asks for the cheapest route and for the next best."""

    def __init__(self, model: Model) -> None:
        check_model(model)
        self.model = model
        self.whole = whole_model(model)

    def cheapest(self) -> Route | Blocked:
        """Return the route of least cost; of those at equal cost one with fewest changes [money]."""
        fronts = self._first_fronts()
        for g, group in enumerate(self.whole.groups):
            arrived = arrive(self.whole, g, fronts, [state for state, _ in group.states])
            lifted = lift(self.whole, g, arrived)
            if not lifted:
                reached = tuple(self.whole.names[s] for s in fronts)
                return Blocked(group=g, because="time" if arrived else "change", reached=reached)
            fronts = lifted
        money, trail = self._finish(fronts)
        return self._route(money, trail)

    def next_best(self, best: Route) -> Route | None:
        """Return the cheapest route whose states differ from those of ``best``; None: there is no other [money]."""
        numbers = {name: i for i, name in enumerate(self.whole.names)}
        same, other = self._first_fronts(), dict[int, Front]()
        for g, group in enumerate(self.whole.groups):
            kept = numbers[best.states[g]]
            leaving = {**other}
            for state, front in same.items():
                leaving[state] = merge(other.get(state, []), front)
            elsewhere = [state for state, _ in group.states if state != kept]
            arrived = arrive(self.whole, g, leaving, elsewhere)
            arrived.update(arrive(self.whole, g, other, [kept]))
            same = lift(self.whole, g, arrive(self.whole, g, same, [kept]))
            other = lift(self.whole, g, arrived)
        if not other:
            return None
        return self._route(*self._finish(other))

    def _first_fronts(self) -> dict[int, Front]:
        return {0: [(self.whole.idle_charge, 0, None)]}

    def _finish(self, fronts: Mapping[int, Front]) -> tuple[int, Trail]:
        if not self.whole.groups:
            return self.whole.idle_charge, None
        job = self.whole.jobs[self.whole.groups[-1].job]
        return min(
            ((money + job.charge(minutes), trail) for front in fronts.values() for money, minutes, trail in front),
            key=MONEY,
        )

    def _route(self, money: int, trail: Trail) -> Route:
        moves: list[Move] = []
        while trail is not None:
            trail, g, place, before, after = trail
            pair = (self.whole.names[before], self.whole.names[after])
            effort = self.model.changes[g][place].options[pair]
            moves.append(
                Move(
                    before_group=g,
                    before=pair[0],
                    after=pair[1],
                    place=place,
                    minutes=Fraction(effort.minutes),
                    cost=Fraction(effort.cost),
                )
            )
        moves.reverse()
        after_change = {move.before_group: move.after for move in moves}
        states, state = [], self.model.start
        for g in range(len(self.model.groups)):
            state = after_change.get(g, state)
            states.append(state)
        return Route(cost=self.whole.money(money), states=tuple(states), moves=tuple(moves))
