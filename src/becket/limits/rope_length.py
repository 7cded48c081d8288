"""Limits of the rope's length: metres and turns.

In:    one number of falls of a lift.
Out:   one limit each.
Never: other limits.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Impossible, Missing, worked_out
from becket.limits.judging import in_doubt, judge
from becket.limits.wording import factor_there, falls_in_words, length_asked, length_there
from becket.verdict import Verdict

WHERE = "lowest hook, steepest boom"


def rope_length(case: Case) -> Limit:
    """Return whether the rope is long enough for the lowest hook [m].

    Asked is the greatest rope out of the lift, dead end and tail included, and the rope of the least wraps. There
    is the length now, cuts taken off.

    Fail: the rope is shorter. Unknown: a length is missing; the pattern, which says where the dead end is, is not
    on file and the rope is not too short whichever anchor of the book is used.

    Args:
        case: one number of falls

    Source: docs/theory/reach.md, eq. 1 to 5.
    """
    have = case.shared.figures.rope_length
    source = case.shared.book.rope.length_source
    dated = f" ({source})" if source else ""
    limit = judge(
        "rope_length",
        "m",
        WHERE,
        need=case.rope_needed,
        have=have,
        said=lambda asked, there: (
            f"On {falls_in_words(case.falls)} the lift needs {length_asked(asked)} of rope, the least wraps included; "
            f"on the crane are {length_there(there)}{dated}."
        ),
        doubt=case.shared.least_wraps.doubt,
    )
    return _without_pattern(case, limit)


def wraps(case: Case) -> Limit:
    """Return whether the least wraps stay on the drum [-].

    There are the turns on the drum at the lowest hook, counted through the layers. Asked are the least wraps of
    the book, else of the rule set chosen.

    Fail: fewer stay. Unknown: a length or the least wraps is missing; the rule is not confirmed; the pattern is
    not on file.

    Args:
        case: one number of falls

    Source: docs/theory/drum.md, eq. 7.
    """
    limit = judge(
        "wraps",
        "-",
        WHERE,
        need=case.shared.least_wraps.value,
        have=case.turns_left,
        said=lambda asked, there: (
            f"On {falls_in_words(case.falls)} {factor_there(there)} turns stay on the drum; {asked:g} are asked by "
            f"{case.shared.least_wraps.source}."
        ),
        doubt=case.shared.least_wraps.doubt,
    )
    return _without_pattern(case, limit)


def _without_pattern(case: Case, limit: Limit) -> Limit:
    """The place of the dead end is not on file: a pass is not proven; a fail counts if every anchor fails."""
    if case.lacking is None or limit.verdict is Verdict.UNKNOWN:
        return limit
    missed = worked_out(
        lambda need, there, spared: need - there - spared,
        case.rope_needed,
        case.shared.figures.rope_length,
        case.rope_spared,
    )
    if limit.verdict is Verdict.FAIL and (isinstance(missed, Missing | Impossible) or missed > 0):
        return limit
    return in_doubt(limit, case.lacking.why)
