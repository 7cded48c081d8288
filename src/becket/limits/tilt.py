"""Limit of the block that hangs askew sideways.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits.
"""

from __future__ import annotations

from math import degrees

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Figure, worked_out
from becket.limits.judging import in_doubt, judge, without_figures
from becket.limits.wording import angle_asked, angle_there
from becket.mechanics.tilt import tilt_angle
from becket.verdict import Verdict

NAME = "tilt"
WHERE = "raising, lowering or standing, loaded or empty, whichever tilts most"


def tilt(case: Case) -> Limit:
    """Return whether the block hangs upright enough for the rope to stay in its grooves [rad].

    There is the setting ``tilt_pass``. Asked is the greatest tilt raising, lowering and standing, loaded and
    empty, from the tensions of the falls and their places on the block.

    Pass: up to ``tilt_pass``; one fall hangs under its rope. Fail: beyond the setting ``tilt_fail``. Unknown:
    between the two, or a figure of the block, the sheave efficiency, the load or the pattern is missing.

    Args:
        case: one number of falls

    Source: docs/theory/tilt.md, eq. 1 and 2.
    """
    if case.falls == 1:
        return without_figures(NAME, Verdict.PASS, WHERE, "One fall: the block hangs under its rope.")
    settings = case.shared.settings
    need = _greatest_tilt(case)
    limit = judge(
        NAME,
        "rad",
        WHERE,
        need=need,
        have=settings.tilt_pass,
        said=lambda angle, there: (
            f"The block hangs askew by up to {angle_asked(angle)}; {angle_there(there)} are upright enough "
            f"({settings.named('tilt_pass')})."
        ),
    )
    if limit.verdict is Verdict.FAIL and isinstance(need, float) and need <= settings.tilt_fail:
        return in_doubt(
            limit, f"Up to {degrees(settings.tilt_fail):.0f} deg ({settings.named('tilt_fail')}) it is not proven."
        )
    return limit


def _greatest_tilt(case: Case) -> Figure:
    figures = case.shared.figures
    return worked_out(
        lambda e, load, hook, mass, centre: max(
            tilt_angle(e, load, hook, mass, centre), tilt_angle(e, 0.0, hook, mass, centre)
        ),
        case.pull_offset,
        case.shared.hook_load,
        figures.hook,
        figures.block_mass,
        figures.mass_centre,
    )
