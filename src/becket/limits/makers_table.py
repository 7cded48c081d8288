"""Limit of the maker's falls table.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits; a figure between two that are printed.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Figure, missing, worked_out
from becket.limits.judging import judge, load_doubt, troubled, without_figures
from becket.limits.wording import falls_in_words, mass_asked, mass_there
from becket.verdict import Verdict

NAME = "makers_table"
WHERE = "lowest hook, steepest boom"


def makers_table(case: Case) -> Limit:
    """Return whether the maker's falls table permits the load on these falls [kg].

    Asked is what the table says that it counts, and what else hangs on the boom or on a second line; a table that
    does not say is compared with the gross load. It stands beside the line pull, not in its stead: it was printed
    for one layer.

    Pass: the load is within the printed figure, or the book says that the manual prints no such table. Fail: over
    it, or these falls are not in the table; it is never read across. Unknown: the table or a mass is missing; the
    load is an estimate and over the use that the settings allow.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "What hangs".
    """
    table = case.shared.book.falls_table
    if table is None:
        return troubled(NAME, "kg", WHERE, missing("falls_table"))
    if not table.printed:
        return without_figures(NAME, Verdict.PASS, WHERE, "The book says that the manual prints no falls table.")
    if case.falls not in table.loads:
        printed = ", ".join(str(falls) for falls in sorted(table.loads)) or "none"
        return without_figures(
            NAME,
            Verdict.FAIL,
            WHERE,
            f"{falls_in_words(case.falls)}: not in the maker's table; printed are {printed}. It is never read across.",
        )
    have, need = table.loads[case.falls], _counted(case, table.counts)
    return judge(
        NAME,
        "kg",
        WHERE,
        need=need,
        have=have,
        said=lambda asked, there: (
            f"The maker's falls table gives {mass_there(there)} for {falls_in_words(case.falls)}; "
            f"counted as it counts {mass_asked(asked)} hang."
        ),
        doubt=load_doubt(case, need, have),
    )


def _counted(case: Case, counts: tuple[str, ...] | None) -> Figure:
    shared = case.shared
    if counts is None:
        return worked_out(_sum, case.gross, shared.second_line, shared.stowed)
    parts = [shared.load, shared.second_line, shared.stowed]
    if "rigging" in counts:
        parts.append(shared.rigging)
    if "block" in counts:
        parts.append(shared.figures.block_mass)
    if "rope" in counts:
        parts.append(case.rope_mass)
    return worked_out(_sum, *parts)


def _sum(*masses: float) -> float:
    return sum(masses)
