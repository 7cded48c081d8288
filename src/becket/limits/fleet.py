"""Limit of the fleet angle at head, block and drum.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits.
"""

from __future__ import annotations

from math import atan2

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Impossible, on_file, worked_out
from becket.limits.judging import judge
from becket.limits.wording import angle_asked, angle_there
from becket.mechanics.fleet import fall_offsets, fleet_angle
from becket.reeving.places import FallPlaces
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
    at_sheave, at_drum = _at_sheaves(case), _at_drum(case)
    verdict = worst((at_sheave.verdict, at_drum.verdict))
    deciding = [limit for limit in (at_sheave, at_drum) if limit.verdict is verdict]
    return max(deciding, key=lambda limit: limit.use if limit.use is not None else 0.0)


def _at_sheaves(case: Case) -> Limit:
    limit = on_file(case.shared.book.fleet.sheave, "fleet.sheave")
    offset = worked_out(_greatest_offset, case.places)
    return judge(
        NAME,
        "rad",
        "at head and block, highest hook, flattest boom",
        need=worked_out(_angle, offset, case.shared.geometry.least_fall),
        have=limit,
        said=lambda angle, there: (
            f"A fall reaches its sheave askew by {angle_asked(angle)}; permitted are {angle_there(there)}."
        ),
    )


def _at_drum(case: Case) -> Limit:
    book = case.shared.book
    width = book.winch.drum.width
    side = worked_out(lambda places: abs(places.tops[0][0]), case.places)
    return judge(
        NAME,
        "rad",
        "at the drum, shortest rope to the head",
        need=worked_out(
            lambda offset, lead: fleet_angle(width / 2 + offset, lead), side, case.shared.geometry.straight_lead
        ),
        have=on_file(book.fleet.drum, "fleet.drum"),
        said=lambda angle, there: (
            f"The lead line reaches the drum askew by up to {angle_asked(angle)}; permitted are {angle_there(there)}."
        ),
    )


def _greatest_offset(places: FallPlaces) -> float:
    tops, lows = [side for side, _ in places.tops], [side for side, _ in places.lows]
    on_sheave = [top or low for top, low in zip(places.top_on_sheave, places.low_on_sheave, strict=True)]
    return max(
        (
            abs(offset)
            for held in (False, True)
            for offset, counts in zip(fall_offsets(tops, lows, held), on_sheave, strict=True)
            if counts
        ),
        default=0.0,
    )


def _angle(offset: float, fall: float) -> float | Impossible:
    if fall <= 0:
        return Impossible("With the hook at its highest the block would be above the head.")
    return atan2(offset, fall)
