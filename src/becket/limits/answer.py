"""What the falls table and the limits of a reeving answer.

In:    nothing.
Out:   frozen records in SI; a number that cannot be worked out is None, its ``why`` says why.
Never: computing, files.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from becket.book.tackle import State
from becket.verdict import Verdict


class Limit(NamedTuple):  # not a dataclass: hundreds are made for one table, and a tuple is made three times as fast
    """One limit of one number of falls. ``use`` is ``need`` over ``have``; 1 is at the limit."""

    name: str
    verdict: Verdict
    use: float | None  # share; None: nothing to divide [-]
    have: float | None  # what is there or permitted [unit]
    need: float | None  # what the lift asks for [unit]
    unit: str  # of have and need, SI
    where: str  # place of the lift where it is worst
    why: str  # a sentence for the crew


@dataclass(frozen=True, kw_only=True, slots=True)
class Row:
    """One number of falls."""

    falls: int
    verdict: Verdict
    governs: str  # name of the limit that decides
    hook_speed: float | None  # raising, at the slower layer of the lift [m/s]
    lead_line_pull: float | None  # at the drum, raising [N]
    dead_end_pull: float | None  # lowering [N]
    layer: int | None  # of the last turn on the drum, the greater of highest and lowest hook [-]
    rope_needed: float | None  # greatest rope out and the least wraps [m]
    wraps_left: float | None  # turns on the drum at the lowest hook [-]
    limits: tuple[Limit, ...]

    def limit(self, name: str) -> Limit:
        """Return the limit of that name [-]."""
        return next(limit for limit in self.limits if limit.name == name)


@dataclass(frozen=True, kw_only=True, slots=True)
class FurtherFall:
    """What one fall more costs against the row before."""

    falls: int
    hook_speed_less: float | None  # [m/s]
    rope_more: float | None  # [m]
    text: str


@dataclass(frozen=True, kw_only=True, slots=True)
class FallsAnswer:
    """The falls table of one lift with one block."""

    recommended: int | None  # fewest falls of which every limit passes
    unproven: int | None  # where nothing is recommended: the fewest falls of which none fails
    rows: tuple[Row, ...]
    further: tuple[FurtherFall, ...]  # from the second row on


@dataclass(frozen=True, kw_only=True, slots=True)
class RiggedAnswer:
    """What the reeving that is on can do at one boom length and radius."""

    state: State
    verdict: Verdict
    greatest_load: float | None  # on the hook, rigging counted, rounded down; None: see load_governs [kg]
    load_governs: str | None  # name of the limit
    lowest_hook: float | None  # hook saddle above the ground at the crane with the greatest load, rounded up [m]
    hook_governs: str | None  # name of the limit
    limits: tuple[Limit, ...]  # at the greatest load; where there is none, with nothing on the hook
