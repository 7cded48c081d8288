"""From one lift group to the next: every change tried, then the lifting.

In:    the fronts of the states after the group before.
Out:   the fronts of the states before and after the lifting of a group.
Never: choosing a route.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from becket.planning.labels import MONEY, Front, Label, Source, Trail, best_labels, covers, every_label, front_of, merge
from becket.planning.whole import NO_LIMIT, Ways, WholeGroup, WholeJob, WholeModel, WholePlace

# before the first job: charges nothing
NO_JOB = WholeJob(minimum=0, step=1, rate=0, booked=0, overtime=0, leave_by=0)


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
    job_before = whole.jobs[whole.groups[g - 1].job] if g else NO_JOB
    return _arrive_between(g, group, job_before, fronts, states)


def _arrive_within(g: int, group: WholeGroup, fronts: Mapping[int, Front], states: Sequence[int]) -> dict[int, Front]:
    labels = every_label(fronts)
    best = best_labels(labels)
    arrived = {state: fronts[state] for state in states if state in fronts}
    for place in group.places:
        sources = _worth_changing(labels, place)
        for state in states:
            if ways := place.into.get(state):
                front = arrived.get(state, [])
                if not (front and covers(front, best, ways.least_minutes, ways.least_extra)):
                    front = _with_changes(g, front, sources, place, state, ways)
                if front:
                    arrived[state] = front
    return arrived


def _worth_changing(labels: list[Source], place: WholePlace) -> list[Source]:
    """Return the labels less those that a cheaper one is ahead of by more than any two changes differ."""
    sources: list[Source] = []
    limit = NO_LIMIT
    for label in labels:
        if label[1] <= limit and label[2] in place.members:
            sources.append(label)
            limit = min(limit, label[1] + place.spread)
    return sources


def _with_changes(g: int, front: Front, sources: list[Source], place: WholePlace, state: int, ways: Ways) -> Front:
    """Return the front of a state with the labels that change into it here; money rises along the sources."""
    if not ways.is_even:
        return merge(front, _changed_unevenly(g, sources, place, state, ways))
    taken, extra, latest = ways.minutes, ways.least_extra, place.latest
    both: Front = []
    least, kept, count = NO_LIMIT, 0, len(front)
    for money, minutes, before, trail in sources:
        total = minutes + taken[before]
        if total >= least or total > latest:
            continue
        money += extra
        while kept < count and front[kept][0] <= money:
            both.append(front[kept])
            least = front[kept][1]
            kept += 1
        if total < least:
            if both and both[-1][0] == money:
                both.pop()
            both.append((money, total, (trail, g, place.number, before, state)))
            least = total
            while kept < count and front[kept][1] >= least:
                kept += 1
    both.extend(front[kept:])
    return both


def _changed_unevenly(g: int, sources: list[Source], place: WholePlace, state: int, ways: Ways) -> Front:
    """Return the front of the labels that change into a state whose changes cost different sums of money."""
    return front_of(
        (money + ways.extras[before], minutes + ways.minutes[before], (trail, g, place.number, before, state))
        for money, minutes, before, trail in sources
        if minutes + ways.minutes[before] <= place.latest
    )


@dataclass(frozen=True, kw_only=True)
class _JobEnd:
    """The job before is over: its labels as they stood, and charged."""

    job: WholeJob
    fronts: Mapping[int, Front]
    charged: list[Source]  # one label a state, money rising, minutes 0


def _arrive_between(
    g: int, group: WholeGroup, job_before: WholeJob, fronts: Mapping[int, Front], states: Sequence[int]
) -> dict[int, Front]:
    charged = [
        (money, 0, state, trail) for state, front in fronts.items() for money, trail in [_charge(front, job_before)]
    ]
    end = _JobEnd(job=job_before, fronts=fronts, charged=sorted(charged))
    kept = {state: (money, 0, trail) for money, _, state, trail in end.charged}
    arrived: dict[int, Front] = {}
    for state in states:
        best = kept.get(state)
        for place in group.places:
            if place.kind in ("end", "free") and (ways := place.into.get(state)):
                best = (_change_at_end if place.kind == "end" else _change_freely)(g, best, end, place, state)
        front = [best] if best else []
        for place in group.places:
            if place.kind == "start" and (ways := place.into.get(state)):
                front = _with_changes(g, front, end.charged, place, state, ways)
        if front:
            arrived[state] = front
    return arrived


def _charge(front: Front, job: WholeJob) -> tuple[int, Trail]:
    return min(((money + job.charge(minutes), trail) for money, minutes, trail in front), key=MONEY)


def _change_at_end(g: int, best: Label | None, end: _JobEnd, place: WholePlace, state: int) -> Label | None:
    """Return the cheapest label of a state after every change into it whose minutes the job before is charged."""
    ways = place.into[state]
    latest = min(place.latest, end.job.leave_by)
    least = best[0] if best else NO_LIMIT
    for charged, _, before, _ in end.charged:
        if charged + ways.least_extra >= least:
            break
        for money, minutes, trail in end.fronts[before]:
            total = minutes + ways.minutes[before]
            if total <= latest:
                cost = money + end.job.charge(total) + ways.extras[before]
                if cost < least:
                    least, best = cost, (cost, 0, (trail, g, place.number, before, state))
    return best


def _change_freely(g: int, best: Label | None, end: _JobEnd, place: WholePlace, state: int) -> Label | None:
    """Return the cheapest label of a state after every change into it that takes no minutes of a job at hand."""
    ways = place.into[state]
    least = best[0] if best else NO_LIMIT
    for charged, _, before, trail in end.charged:
        if charged + ways.least_extra >= least:
            break
        cost = charged + ways.extras[before]
        if cost < least:
            least, best = cost, (cost, 0, (trail, g, place.number, before, state))
    return best
