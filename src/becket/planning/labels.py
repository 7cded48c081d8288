"""Labels of the plan search: what a state may have cost so far.

In:    (money of the finished jobs, minutes so far in this job, trail) in whole numbers.
Out:   fronts: the labels of one state of which none is covered by another, money rising, minutes falling.
Never: models, cranes.

A label covers another that has no less money and no fewer minutes.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from operator import itemgetter
from typing import Any

from becket.planning.whole import NO_LIMIT

# None, or (trail before, group, place, state before, state after): the changes made so far, newest first
Trail = Any
Label = tuple[int, int, Trail]
Front = list[Label]
Point = tuple[int, int]  # money, minutes

MONEY = itemgetter(0)


def merge(first: Front, second: Front) -> Front:
    """Return the labels of both that none of them covers, money rising [-]."""
    front: Front = []
    least = NO_LIMIT
    for label in sorted([*first, *second], key=lambda label: label[:2]):
        if label[1] < least:
            front.append(label)
            least = label[1]
    return front


def insert(front: Front, label: Label) -> Front:
    """Return the front with one more label; the same list where the label is covered [-]."""
    money, minutes, _ = label
    for other_money, other_minutes, _ in front:
        if other_money > money:
            break
        if other_minutes <= minutes:
            return front
    kept = [other for other in front if other[0] < money or other[1] < minutes]
    kept.append(label)
    kept.sort(key=MONEY)
    return kept


def pareto(fronts: Mapping[int, Front]) -> list[Point]:
    """Return the points that no label of any state covers, money rising: no label is better than these."""
    points: list[Point] = []
    least = NO_LIMIT
    for money, minutes in sorted({(label[0], label[1]) for front in fronts.values() for label in front}):
        if minutes < least:
            points.append((money, minutes))
            least = minutes
    return points


def covers(front: Front, points: Iterable[Point], minutes: int, extra: int) -> bool:
    """Return whether every point, with so many minutes and so much money more, is covered by the front [-]."""
    for point_money, point_minutes in points:
        most_money, most_minutes = point_money + extra, point_minutes + minutes
        for label in front:
            if label[1] <= most_minutes:
                if label[0] > most_money:
                    return False
                break
        else:
            return False
    return True
