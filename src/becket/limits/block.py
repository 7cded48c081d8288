"""Limits of the hook block: its rating and its sheaves.

In:    one number of falls of a lift.
Out:   one limit each.
Never: other limits.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import on_file
from becket.limits.judging import judge, load_doubt
from becket.limits.wording import falls_in_words, mass_asked, mass_there
from becket.reeving.counts import block_sheave_count
from becket.verdict import Verdict


def block_rating(case: Case) -> Limit:
    """Return whether the hook block may carry the hook load [kg].

    Asked is the hook load: load and rigging. There is the rated load of the block.

    Fail: the hook load is more. Unknown: the rated load, the load or the rigging is missing; the load is an
    estimate and over the use that the settings allow.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "What hangs".
    """
    block = case.shared.block
    have = on_file(block.rated, "blocks.*.rated", block.name)
    need = case.shared.hook_load
    return judge(
        "block_rating",
        "kg",
        "at the hook, everywhere",
        need=need,
        have=have,
        said=lambda asked, there: (
            f"The hook carries {mass_asked(asked)}, load and rigging; "
            f"the block {block.name} is rated {mass_there(there)}."
        ),
        doubt=load_doubt(case, need, have),
    )


def block_sheaves(case: Case) -> Limit:
    """Return whether the hook block has the sheaves for the falls [-].

    Asked are falls over two, rounded down. There is the number of its sheaves.

    Fail: there are fewer. It is never unknown: a block without sheaves is a ball.

    Args:
        case: one number of falls

    Source: the counting identity of a tackle; docs/theory/limits.md, "Counts".
    """
    block = case.shared.block
    need, have = block_sheave_count(case.falls), len(block.sheaves)
    return Limit(
        name="block_sheaves",
        verdict=Verdict.PASS if need <= have else Verdict.FAIL,
        use=None,
        have=have,
        need=need,
        unit="-",
        where="at the block",
        why=f"{falls_in_words(case.falls)}: sheaves needed on the block {need}; the block {block.name} has {have}.",
    )
