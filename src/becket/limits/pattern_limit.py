"""Limit of the reeving pattern: on file, confirmed, and sound.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits; a pattern that is not on file.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Impossible, missing
from becket.limits.judging import plain, troubled
from becket.reeving.pattern import check_pattern
from becket.verdict import Verdict

NAME = "pattern"
WHERE = "on the whole path, at the least and the greatest fall length"


def pattern(case: Case) -> Limit:
    """Return whether the reeving pattern is on file, confirmed and sound [-].

    The checks of the pattern run at the least and the greatest fall length of the lift: the path, the counts, the
    places, falls that rub or cross.

    Fail: a check fails. Unknown: the pattern is not on file, or not confirmed against the manual by a second
    person, or a check cannot answer, or the fall lengths are not known.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "Pattern".
    """
    shared, geometry = case.shared, case.shared.geometry
    if case.pattern is None:
        return troubled(NAME, "", WHERE, missing("patterns", f"{shared.block.name}:{case.falls}"))
    if isinstance(geometry.least_fall, Impossible):
        return troubled(NAME, "", WHERE, geometry.least_fall)
    least, greatest = _number(geometry.least_fall), _number(geometry.greatest_fall)
    if least is not None and least <= 0:
        return plain(NAME, Verdict.FAIL, WHERE, "With the hook at its highest the block would be above the head.")
    check = check_pattern(shared.book, shared.settings, case.pattern, least, greatest)
    reasons = []
    return plain(NAME, check.verdict, WHERE, "x")


def _number(figure: object) -> float | None:
    return figure if isinstance(figure, float) else None
