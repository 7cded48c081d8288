"""From one lift group to the next: every change tried, then the lifting.

In:    the fronts of the states after the group before.
Out:   the fronts of the states before and after the lifting of a group.
Never: choosing a route.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from becket.planning.labels import MONEY, Front, Label, Point, covers, insert, pareto
from becket.planning.whole import NO_LIMIT, WholeGroup, WholeJob, WholeModel, WholePlace

Ended = Mapping[int, Label]  # state -> its cheapest label once the job before is charged, minutes 0


def lift(whole: WholeModel, g: int, fronts: Mapping[int, Front]) -> dict[int, Front]:
    """Return the labels after the lifting of a group; those that cannot leave the job in time are gone [-]."""
    group = whole.groups[g]
    latest = whole.jobs[group.job].leave_by - group.rest
    lifted: dict[int, Front] = {}
    for state, minutes in group.states:
        if front := fronts.get(state):
            after = [(money, m + minutes, trail) for money, m, trail in front]
            if after[0][1] > latest:
                after = [label for label in after if label[1] <= latest]
            if after:
                lifted[state] = after
    return lifted


def arrive(whole: WholeModel, g: int, fronts: Mapping[int, Front], states: Sequence[int]) -> dict[int, Front]:
    """Return the labels before the lifting of a group, in the states asked for, every change tried [-]."""
    group = whole.groups[g]
    if not fronts:
        return {}
    if g and whole.groups[g - 1].job == group.job:
        return _arrive_within(g, group, fronts, states)
    job_before = whole.jobs[whole.groups[g - 1].job] if g else None
    return _arrive_between(g, group, job_before, fronts, states)


def _arrive_within(g: int, group: WholeGroup, fronts: Mapping[int, Front], states: Sequence[int]) -> dict[int, Front]:
    points = pareto(fronts)
    arrived: dict[int, Front] = {}
    for state in states:
        front = fronts.get(state, [])
        for place in group.places:
            front = _offer(g, front, place, state, fronts, points)
        if front:
            arrived[state] = front
    return arrived


def _offer(
    g: int, front: Front, place: WholePlace, state: int, fronts: Mapping[int, Front], points: list[Point]
) -> Front:
    """Return the front of a state after every way into it that this place gives."""
    for taken, extra, before, floor in place.into.get(state, ()):
        if front and covers(front, points, taken, floor):
            break
        for money, minutes, trail in fronts.get(before, ()):
            if minutes + taken <= place.latest:
                label = (money + extra, minutes + taken, (trail, g, place.number, before, state))
                front = insert(front, label)
    return front


def _arrive_between(
    g: int, group: WholeGroup, job_before: WholeJob | None, fronts: Mapping[int, Front], states: Sequence[int]
) -> dict[int, Front]:
    ended = {state: _end_job(front, job_before) for state, front in fronts.items()}
    cheapest = [(min(label[0] for label in ended.values()), 0)]
    ends = [_EndPlace(place, job_before, fronts) for place in group.places if place.kind == "end" and job_before]
    arrived: dict[int, Front] = {}
    for state in states:
        best = ended.get(state)
        for end in ends:
            best = end.improve(g, state, best, ended)
        front = [best] if best else []
        for place in group.places:
            if place.kind != "end":
                front = _offer_ended(g, front, place, state, ended, cheapest)
        if front:
            arrived[state] = front
    return arrived


def _end_job(front: Front, job: WholeJob | None) -> Label:
    if job is None:
        return front[0]
    charged = [(money + job.charge(minutes), 0, trail) for money, minutes, trail in front]
    return min(charged, key=MONEY)


def _offer_ended(g: int, front: Front, place: WholePlace, state: int, ended: Ended, cheapest: list[Point]) -> Front:
    """Return the front of a state after every way into it at the start of a job, in a yard or at an idle site."""
    for taken, extra, before, floor in place.into.get(state, ()):
        if front and covers(front, cheapest, taken, floor):
            break
        if before in ended and taken <= place.latest:
            money, _, trail = ended[before]
            front = insert(front, (money + extra, taken, (trail, g, place.number, before, state)))
    return front


class _EndPlace:
    """The end of a job as a place: its minutes are charged with that job's."""

    def __init__(self, place: WholePlace, job: WholeJob, fronts: Mapping[int, Front]) -> None:
        self.place, self.job, self.fronts = place, job, fronts
        self.latest = min(place.latest, job.leave_by)
        self.points = pareto(fronts)
        self._least: dict[int, int] = {}

    def least(self, taken: int) -> int:
        """Return what the cheapest label of any state costs if the job ends after so many minutes more [-]."""
        if taken not in self._least:
            self._least[taken] = min(
                (money + self.job.charge(m + taken) for money, m in self.points if m + taken <= self.latest),
                default=NO_LIMIT,
            )
        return self._least[taken]

    def improve(self, g: int, state: int, best: Label | None, ended: Ended) -> Label | None:
        """Return the cheapest label of a state after every way into it at the end of the job [-]."""
        least = best[0] if best else NO_LIMIT
        for taken, extra, before, floor in self.place.into.get(state, ()):
            if self.least(taken) + floor >= least:
                break
            if before not in ended or ended[before][0] + extra >= least:
                continue
            for money, minutes, trail in self.fronts[before]:
                if minutes + taken <= self.latest:
                    money += self.job.charge(minutes + taken) + extra
                    if money < least:
                        least, best = money, (money, 0, (trail, g, self.place.number, before, state))
        return best
