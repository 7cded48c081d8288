"""What one closed change taught about the crew's minutes, beside all the others of its kind.

In:    nothing.
Out:   a frozen record.
Never: computing; words.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.planning.crew_records import CrewTime, Taken


@dataclass(frozen=True, kw_only=True)
class Taught:
    """What a closed change taught about the crew's minutes. ``taken`` None: nothing, and ``why`` says why not."""

    taken: Taken | None
    why: str
    place: int | None  # among the closed changes of its kind that teach, in the order in which they began
    time: CrewTime | None  # of all of its kind
    needed: int  # of its kind, before the plan uses them
