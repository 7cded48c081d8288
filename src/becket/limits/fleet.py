"""Limit of the fleet angle at head, block and drum.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import atan2

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Figure, Impossible, on_file, worked_out
from becket.limits.judging import judge, troubled
from becket.limits.wording import angle_asked, angle_there
from becket.mechanics.fleet import fleet_angle
from becket.verdict import worst

NAME = "fleet_angle"


def fleet_angle_limit(case: Case) -> Limit:
    """Return whether the rope runs straight enough onto sheaves and drum [rad].

    At head and block: the angle of each fall at each end that is a sheave, hook at its highest, once with the
    block hanging free and once held in the middle; the greater counts. At the drum: half its width and the offset
    of the first head sheave over the straight rope to the head. Each has its own limit in the book; the one with
    the greater use is shown.

    Fail: one angle is over its limit. Unknown: a limit of the book, the sag or the pattern is missing.

    Args:
        case: one number of falls

    Source: docs/theory/fleet.md, eq. 1 to 3.
    """
    if case.lacking is not None:
        return troubled(NAME, "rad", "at head, block and drum", case.lacking)
    at_sheave, at_drum = _at_sheaves(case), _at_drum(case)
    known = at_sheave.use, at_drum.use
    if known[0] is not None and known[1] is not None:
        return (at_sheave if known[0] >= known[1] else at_drum).judged()
    limits = at_sheave.judged(), at_drum.judged()
    verdict = worst(limit.verdict for limit in limits)
    return next(limit for limit in limits if limit.verdict is verdict)


@dataclass(frozen=True, slots=True)
class _Place:
    """One of the two places, before it is judged."""

    where: str
    sentence: str
    need: Figure  # [rad]
    have: Figure  # [rad]

    @property
    def use(self) -> float | None:
        need, have = self.need, self.have
        return need / have if isinstance(need, float) and isinstance(have, float) and have > 0 else None

    def judged(self) -> Limit:
        return judge(
            NAME,
            "rad",
            self.where,
            need=self.need,
            have=self.have,
            said=lambda angle, there: self.sentence.format(angle_asked(angle), angle_there(there)),
        )


def _at_sheaves(case: Case) -> _Place:
    return _Place(
        "at head and block, highest hook, flattest boom",
        "A fall reaches its sheave askew by {}; permitted are {}.",
        worked_out(_angle, case.fleet_offset, case.shared.geometry.least_fall),
        on_file(case.shared.book.fleet.sheave, "fleet.sheave"),
    )


def _at_drum(case: Case) -> _Place:
    half = case.shared.book.winch.drum.width / 2
    return _Place(
        "at the drum, shortest rope to the head",
        "The lead line reaches the drum askew by up to {}; permitted are {}.",
        worked_out(
            lambda side, lead: fleet_angle(half + side, lead),
            case.first_side,
            case.shared.geometry.straight_lead,
        ),
        on_file(case.shared.book.fleet.drum, "fleet.drum"),
    )


def _angle(offset: float, fall: float) -> float | Impossible:
    if fall <= 0:
        return Impossible("With the hook at its highest the block would be above the head.")
    return atan2(offset, fall)
