"""Limit of the empty block that must come down by itself.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Figure, worked_out
from becket.limits.judging import in_doubt, judge
from becket.limits.wording import falls_in_words, mass_asked, mass_there
from becket.mechanics.overhaul import overhaul_mass
from becket.verdict import Verdict

WHERE = "highest hook, steepest boom, nothing on the hook"


def overhaul(case: Case) -> Limit:
    """Return whether the empty block is heavy enough to come down [kg].

    Asked is the mass that turns the empty drum, pulls the lead line up to the head and overcomes every sheave,
    times the setting ``overhaul_margin``. The hook is as high as the switch lets it, the boom at its steepest.

    Pass: the block has that mass. Fail: it is under the mass without the margin. Unknown: between the two, or the
    block's mass, the drag, the drum's height, rope mass, sheave efficiency or switch distances are missing.

    Args:
        case: one number of falls

    Source: docs/theory/overhaul.md, eq. 1 to 5.
    """
    block, settings = case.shared.block, case.shared.settings
    bare = _least_mass(case)
    margin = settings.overhaul_margin
    need = worked_out(lambda mass: mass * margin, bare)
    have = case.shared.figures.block_mass
    limit = judge(
        "overhaul",
        "kg",
        WHERE,
        need=need,
        have=have,
        said=lambda asked, there: (
            f"To come down empty on {falls_in_words(case.falls)} the block {block.name} must have {mass_asked(asked)}, "
            f"{margin:g} times what balances ({settings.named('overhaul_margin')}); it has {mass_there(there)}."
        ),
    )
    if limit.verdict is Verdict.FAIL and isinstance(bare, float) and isinstance(have, float) and bare <= have:
        return in_doubt(limit, "It balances, but cold grease or stiff rope may hold it up: try it before it is needed.")
    return limit


def _least_mass(case: Case) -> Figure:
    shared = case.shared
    return worked_out(
        lambda tension, k, mass, fall: overhaul_mass(tension, case.falls, k, mass, fall),
        shared.drum_side,
        shared.ratio,
        shared.figures.rope_mass,
        shared.figures.closest,
    )
