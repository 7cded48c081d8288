"""Limit of the lead line's pull at the drum.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Figure, Missing, worked_out
from becket.limits.judging import in_doubt, judge, load_doubt
from becket.limits.winding import Layers
from becket.limits.wording import falls_in_words, force_asked, force_there
from becket.verdict import Verdict

NAME = "lead_line_pull"
WHERE = "raising with the lowest hook and the steepest boom, on the drum layer that permits least"


def line_pull(case: Case) -> Limit:
    """Return whether the winch may pull what the lead line asks [N].

    Asked is the pull at the drum that raises the gross load: hook load, block and rope in the falls, with the
    friction of every turning sheave. Permitted is what the maker gives for the drum layer of the last turn, the
    lower of the layers with the hook high and low, and never more than breaking force over design factor.

    Fail: more is asked than either of the two permits. Unknown: a figure is missing; the layer is not printed;
    the pattern, whose dead end decides how much rope is on the drum, is not on file; the breaking force is
    estimated; the rope was found worn or damaged; the load is an estimate and over the use that the settings allow.

    Args:
        case: one number of falls

    Source: docs/theory/tackle.md, eq. 6; docs/theory/drum.md, eq. 6 and 9; docs/theory/limits.md.
    """
    strength = case.shared.strength
    cap = worked_out(lambda force, factor: force / factor, strength.breaking, strength.factor)
    by_layer = case.permitted_pull
    have = worked_out(min, by_layer, cap)
    if isinstance(have, Missing):  # one of the two may be enough to fail
        by_rope, by_drum = _judged(case, cap, strength.doubt), _judged(case, by_layer, None)
        if by_drum.verdict is Verdict.FAIL:
            return by_drum
        return by_rope if by_rope.verdict is Verdict.FAIL else _judged(case, have, None)
    return _judged(case, have, strength.doubt)


def may_lift(case: Case) -> bool:
    """Return whether the lead line may do for all that is proven: it does not fail by figures that prove something [-].

    A fail on an estimated breaking force or on a rule from memory is not certain: a certificate may mend it. Falls that
    may do are not needed falls, so that the rope in further falls is counted by a chart that counts it.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "What hangs".
    """
    if line_pull(case).verdict is not Verdict.FAIL:
        return True
    return (
        case.shared.strength.doubt is not None and _judged(case, case.permitted_pull, None).verdict is not Verdict.FAIL
    )


def _judged(case: Case, have: Figure, doubt: str | None) -> Limit:
    layer = f" in layer {case.layers.highest}" if isinstance(case.layers, Layers) else ""
    limit = judge(
        NAME,
        "N",
        WHERE,
        need=case.pull,
        have=have,
        said=lambda need, there: (
            f"On {falls_in_words(case.falls)} the lead line pulls {force_asked(need)} at the drum; "
            f"permitted{layer} are {force_there(there)}."
        ),
        doubt=doubt or load_doubt(case, case.pull, have),
    )
    return in_doubt(limit, case.lacking.why) if case.lacking and limit.verdict is Verdict.PASS else limit
