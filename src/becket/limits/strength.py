"""Limits of the rope's strength: the running rope and the dead end.

In:    one number of falls of a lift.
Out:   one limit each.
Never: other limits.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import on_file, worked_out
from becket.limits.judging import judge, load_doubt
from becket.limits.wording import factor_asked, factor_there, falls_in_words
from becket.mechanics.rope import design_factor, fitting_factor


def rope_strength(case: Case) -> Limit:
    """Return whether the running rope keeps its design factor [-].

    There is the nominal breaking force over the pull at the drum, raising; nothing is taken off for fitting or
    bending, as the rule sets count. Asked is the design factor of the book, else that of the rule set chosen.

    Fail: less is there than asked. Unknown: breaking force or design factor is missing; the breaking force is
    estimated from the construction; the rope was found worn or damaged; the factor comes from a rule that is not
    confirmed; the load is an estimate and over the use that the settings allow.

    Args:
        case: one number of falls

    Source: docs/theory/rope.md, eq. 3.
    """
    strength = case.shared.strength
    have = worked_out(design_factor, strength.breaking, case.pull)
    return judge(
        "rope_strength",
        "-",
        "raising with the lowest hook and the steepest boom, at the drum",
        need=strength.factor,
        have=have,
        said=lambda need, there: (
            f"On {falls_in_words(case.falls)} the rope has a design factor of {factor_there(there)}; "
            f"{factor_asked(need)} is asked by {strength.factor_source}."
        ),
        doubt=strength.doubt or load_doubt(case, strength.factor, have),
    )


def dead_end_strength(case: Case) -> Limit:
    """Return whether the rope's end holds in its fitting [-].

    There is breaking force times the efficiency of the fitting over the pull at the dead end, lowering: it is
    the greatest fall then. Asked is the design factor times the share of the setting ``dead_end_share``.

    Fail: less is there than asked. Unknown: breaking force, design factor or the fitting's efficiency is missing;
    the breaking force is estimated; the rope was found worn or damaged; the load is an estimate and over the use
    that the settings allow.

    Args:
        case: one number of falls

    Source: docs/theory/rope.md, eq. 4; docs/theory/tackle.md, eq. 8.
    """
    strength, settings = case.shared.strength, case.shared.settings
    efficiency = on_file(case.shared.book.dead_end.efficiency, "dead_end.efficiency")
    have = worked_out(fitting_factor, strength.breaking, efficiency, case.dead_end_pull)
    need = worked_out(lambda factor: factor * settings.dead_end_share, strength.factor)
    return judge(
        "dead_end",
        "-",
        "lowering with the lowest hook and the steepest boom, at the dead end",
        need=need,
        have=have,
        said=lambda asked, there: (
            f"On {falls_in_words(case.falls)} the rope's end in its fitting has a factor of {factor_there(there)}; "
            f"{factor_asked(asked)} is asked, {100 * settings.dead_end_share:g} % of the design factor "
            f"({settings.named('dead_end_share')})."
        ),
        doubt=strength.doubt or load_doubt(case, need, have),
    )
