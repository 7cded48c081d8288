"""What a plan answers.

In:    nothing.
Out:   frozen records. Money in the sheet's currency; hours and minutes where a field says so.
Never: computing, files.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from becket.book.tackle import State
from becket.planning.model import Model, model_as_dict


@dataclass(frozen=True, kw_only=True)
class PlannedGroup:
    """One entry of ``lifts``. ``state`` None: it is left out, ``stopped_by`` and ``why`` say what stops it."""

    job: str
    lift: str
    state: State | None
    needed_falls: int | None  # the fewest falls of the planned block that every limit passes
    hours: float | None  # of lifting, in that state [h]
    stopped_by: str | None  # name of the limit
    why: str | None


@dataclass(frozen=True, kw_only=True)
class PlannedChange:
    """One change of the plan, before a group."""

    before_group: int  # index into the plan's groups
    before: State
    after: State
    where: str  # "E", "I", "S" or "Y"
    job: str | None  # the job whose minutes it takes; None: the yard
    minutes: float  # [min]
    minutes_left_in_job: float | None  # booked minutes that no lift and no change of this plan uses [min]
    customer_pays: float  # of what the plan costs more for this change [money]
    we_pay: float  # of the same: overtime, or a change in the yard [money]
    why: str

    @property
    def cost(self) -> float:
        """What the plan costs more for this change [money]."""
        return self.customer_pays + self.we_pay

    @property
    def payer(self) -> str:
        """Who pays that: "none" (it costs nothing more), "customer", "own" or "both" [-]."""
        if self.customer_pays and self.we_pay:
            return "both"
        return "customer" if self.customer_pays else "own" if self.we_pay else "none"


@dataclass(frozen=True, kw_only=True)
class NextBest:
    """The cheapest plan with other states."""

    cost: float  # [money]
    states: tuple[State | None, ...]  # one for each group of the plan


@dataclass(frozen=True, kw_only=True)
class Plan:
    """The coming lifts with their states, where to change, what it costs and why."""

    cost: float | None  # None: no plan [money]
    currency: str
    groups: tuple[PlannedGroup, ...]
    changes: tuple[PlannedChange, ...]
    next_best: NextBest | None
    why_no_plan: str | None
    model: Model | None  # None: what is missing is in ``why_no_plan``
    notes: tuple[str, ...]  # what was not stated and therefore not used; what one other load would do

    @property
    def is_whole(self) -> bool:
        """Whether there is a plan and every lift is in it [-]."""
        return self.cost is not None and all(group.state is not None for group in self.groups)


def plan_as_dict(plan: Plan) -> dict[str, Any]:
    """Return the plan as the JSON object of ``becket plan --json`` [min, h, money].

    Args:
        plan: the plan
    """
    return {
        "cost": plan.cost,
        "currency": plan.currency,
        "groups": [_group_as_dict(group) for group in plan.groups],
        "changes": [_change_as_dict(change) for change in plan.changes],
        "next_best": _next_as_dict(plan.next_best) if plan.next_best else None,
        "why_no_plan": plan.why_no_plan,
        "notes": list(plan.notes),
        "model": model_as_dict(plan.model) if plan.model else None,
    }


def _group_as_dict(group: PlannedGroup) -> dict[str, Any]:
    return {
        "job": group.job,
        "lift": group.lift,
        "state": _words(group.state),
        "needed_falls": group.needed_falls,
        "hours": group.hours,
        "stopped_by": group.stopped_by,
        "why": group.why,
    }


def _change_as_dict(change: PlannedChange) -> dict[str, Any]:
    return {
        "before_group": change.before_group,
        "from": str(change.before),
        "to": str(change.after),
        "where": change.where,
        "job": change.job,
        "minutes": change.minutes,
        "minutes_left_in_job": change.minutes_left_in_job,
        "pays": {"customer": change.customer_pays, "own": change.we_pay},
        "why": change.why,
    }


def _next_as_dict(next_best: NextBest) -> dict[str, Any]:
    return {"cost": next_best.cost, "states": [_words(state) for state in next_best.states]}


def _words(state: State | None) -> str | None:
    return None if state is None else str(state)
