"""Every limit of the falls table, in the order in which it is shown.

In:    one number of falls of a lift.
Out:   all limits.
Never: a limit that is not in the list; main-boom figures for a lift of another rule book.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from becket.limits.answer import Limit
from becket.limits.block import block_rating, block_sheaves
from becket.limits.case import Case
from becket.limits.chart_limit import chart
from becket.limits.fleet import fleet_angle_limit
from becket.limits.groove import groove
from becket.limits.head import head_clearance, head_sheaves
from becket.limits.judging import without_figures
from becket.limits.line_pull import line_pull
from becket.limits.makers_table import makers_table
from becket.limits.overhaul import overhaul
from becket.limits.pattern_limit import pattern
from becket.limits.rope_length import rope_length, wraps
from becket.limits.strength import dead_end_strength, rope_strength
from becket.limits.tilt import tilt
from becket.limits.twist import twist
from becket.verdict import Verdict

LIMITS: Mapping[str, Callable[[Case], Limit]] = MappingProxyType(
    {
        "lead_line_pull": line_pull,
        "rope_strength": rope_strength,
        "dead_end": dead_end_strength,
        "makers_table": makers_table,
        "block_rating": block_rating,
        "block_sheaves": block_sheaves,
        "groove": groove,
        "head_sheaves": head_sheaves,
        "pattern": pattern,
        "rope_length": rope_length,
        "wraps": wraps,
        "overhaul": overhaul,
        "twist": twist,
        "fleet_angle": fleet_angle_limit,
        "tilt": tilt,
        "head_clearance": head_clearance,
        "chart": chart,
    }
)

# lifts that another rule book governs
OTHER_RULE_BOOKS = {
    "persons": "Persons on the hook",
    "two cranes": "Two cranes on one load",
    "pulling free": "Pulling a load free",
    "duty cycle": "Duty cycle work",
    "fly extension": "A lift on the fly extension",
    "second head": "A lift on the second head",
}


SAME_FOR_ALL_FALLS = ("block_rating", "groove", "head_clearance")  # the number of falls does not enter them


def work_out_same(case: Case) -> Mapping[str, Limit]:
    """Return the limits that are the same for all numbers of falls, by name [-].

    Args:
        case: any number of falls of the lift
    """
    return {name: LIMITS[name](case) for name in SAME_FOR_ALL_FALLS}


def work_out_limits(case: Case, same: Mapping[str, Limit]) -> tuple[Limit, ...]:
    """Return every limit of one number of falls, in the order of the registry [-].

    A lift of another rule book gets no figures: every limit is unknown, with the reason.

    Args:
        case: one number of falls
        same: those that are the same for all numbers of falls
    """
    kind = case.shared.lift.kind
    if kind is None:
        return tuple(same[name] if name in same else limit(case) for name, limit in LIMITS.items())
    what = OTHER_RULE_BOOKS.get(kind, f"A lift of the kind {kind}")
    why = f"{what}: another rule book governs it; main-boom figures would mislead, so none are given."
    return tuple(without_figures(name, Verdict.UNKNOWN, "everywhere", why) for name in LIMITS)
