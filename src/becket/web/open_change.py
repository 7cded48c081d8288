"""Whether a change is open: units and settings stay as they are until it is closed or stopped.

In:    the house; cranes.
Out:   yes or no.
Never: a count taken for a change.
"""

from __future__ import annotations

from collections.abc import Iterable

from becket.web.crane_files import CraneFile
from becket.web.house import House
from becket.web.present.rigged import rigged_of


def is_change_open(house: House, cranes: Iterable[CraneFile]) -> bool:
    """Return whether a change is open on one of the cranes [-].

    Args:
        house: with the store
        cranes: to look at
    """
    for one in cranes:
        events = house.events(one.id)
        rigged = rigged_of(events, house.scripts(events))
        if rigged.open_run is not None and rigged.open_kind != "count":
            return True
    return False
