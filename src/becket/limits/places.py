"""Places of the falls that a limit needs, or why they are not there.

In:    one number of falls.
Out:   the places, or what is missing.
Never: a place that the book does not give.
"""

from __future__ import annotations

from becket.limits.case import Case
from becket.limits.figures import Missing, missing
from becket.mechanics.twist import Place
from becket.reeving.places import FallPlaces


def places_on_file(case: Case) -> FallPlaces | Missing:
    """Return the places of the falls; the pattern not on file: what is missing.

    Args:
        case: one number of falls
    """
    if case.places is None:
        return missing("patterns", f"{case.shared.block.name}:{case.falls}")
    return case.places


def plan_places(places: FallPlaces) -> tuple[tuple[Place, ...], tuple[Place, ...]] | Missing:
    """Return tops and lower ends in plan, each place sideways and along; one along missing: what is missing.

    Args:
        places: of the falls
    """
    tops = tuple((side, along) for side, along in places.tops if along is not None)
    lows = tuple((side, along) for side, along in places.lows if along is not None)
    if len(tops) < len(places.tops) or len(lows) < len(places.lows):
        return Missing(places.missing)
    return tops, lows
