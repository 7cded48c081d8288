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
Source = tuple[int, int, int, Trail]  # money, minutes, state, trail

MONEY = itemgetter(0)


def front_of(labels: Iterable[Label]) -> Front:
    """Return the labels that no other of them covers, money rising [-]."""
    front: Front = []
    least = NO_LIMIT
    for label in sorted(labels, key=itemgetter(0, 1)):
        if label[1] < least:
            front.append(label)
            least = label[1]
    return front


def merge(first: Front, second: Front) -> Front:
    """Return the front of two fronts [-]."""
    return front_of([*first, *second]) if first and second else first or second


def every_label(fronts: Mapping[int, Front]) -> list[Source]:
    """Return the labels of all states, money rising, with their state [-]."""
    return sorted((money, minutes, state, trail) for state, front in fronts.items() for money, minutes, trail in front)


def best_labels(sources: Iterable[Source]) -> list[Source]:
    """Return the labels that no label of any state covers, money rising [-]."""
    best: list[Source] = []
    least = NO_LIMIT
    for source in sources:
        if source[1] < least:
            best.append(source)
            least = source[1]
    return best


def covers(front: Front, sources: Iterable[Source], minutes: int, extra: int) -> bool:
    """Return whether every source, with so many minutes and so much money more, is covered by the front [-]."""
    for source in sources:
        most_money, most_minutes = source[0] + extra, source[1] + minutes
        for label in front:
            if label[1] <= most_minutes:
                if label[0] > most_money:
                    return False
                break
        else:
            return False
    return True
