"""Limits of the boom head: its sheaves and the distance kept under it.

In:    one number of falls of a lift.
Out:   one limit each.
Never: other limits.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.judging import judge
from becket.limits.wording import falls_in_words, length_asked, length_there
from becket.reeving.counts import head_sheave_count
from becket.verdict import Verdict


def head_sheaves(case: Case) -> Limit:
    """Return whether the boom head has the sheaves for the falls [-].

    Asked are falls over two, rounded up. There is the number of head sheaves.

    Fail: there are fewer. It is never unknown.

    Args:
        case: one number of falls

    Source: the counting identity of a tackle; docs/theory/limits.md, "Counts".
    """
    need, have = head_sheave_count(case.falls), len(case.shared.book.head.sheaves)
    return Limit(
        name="head_sheaves",
        verdict=Verdict.PASS if need <= have else Verdict.FAIL,
        use=None,
        have=have,
        need=need,
        unit="-",
        where="at the head",
        why=f"{falls_in_words(case.falls)}: sheaves needed at the head {need}; it has {have}.",
    )


def head_clearance(case: Case) -> Limit:
    """Return whether the hook at its highest stays clear of the hoist limit switch [m].

    There is the least distance head shaft to block shaft: highest hook, flattest boom, head lower by the whole sag
    of the level boom. Asked is the trip distance of the switch and the margin of the book.

    Fail: less is there. Unknown: the sag at this boom length, the trip distance or the margin is missing.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "Places".
    """
    return judge(
        "head_clearance",
        "m",
        "highest hook, flattest boom, head lower by its sag",
        need=case.shared.figures.closest,
        have=case.shared.geometry.least_fall,
        said=lambda asked, there: (
            f"Between head shaft and block shaft stay {length_there(there)}; {length_asked(asked)} are asked, "
            "trip distance of the hoist limit switch and margin."
        ),
    )
