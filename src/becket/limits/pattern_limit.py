"""Limit of the reeving pattern: on file, confirmed, and sound.

In:    one number of falls of a lift.
Out:   one limit.
Never: other limits; a pattern that is not on file.
"""

from __future__ import annotations

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Figure, Impossible, Missing, trouble_of
from becket.limits.judging import troubled, without_figures
from becket.limits.reeved import Reeved
from becket.reeving.finding import Finding, PatternCase
from becket.reeving.hanging_checks import falls_that_rub
from becket.verdict import Verdict, worst

NAME = "pattern"
WHERE = "on the whole path, at the least and the greatest fall length"


def pattern(case: Case) -> Limit:
    """Return whether the reeving pattern is on file, confirmed and sound [-].

    The checks of the pattern run at the least and the greatest fall length of the lift: the path, the counts, the
    places, falls that rub.

    Fail: a check fails. Unknown: the pattern is not on file, or not confirmed against the manual by a second
    person, or a check cannot answer, or the fall lengths are not known.

    Args:
        case: one number of falls

    Source: docs/theory/limits.md, "Pattern".
    """
    geometry = case.shared.geometry
    if case.reeved is None:
        return troubled(NAME, "", WHERE, case.lacking or Missing(()))
    lengths = (geometry.least_fall, geometry.greatest_fall)
    if any(isinstance(length, Impossible) for length in lengths):
        return troubled(NAME, "", WHERE, trouble_of(lengths))
    findings = _findings_of_lift(case, case.reeved, *lengths)
    verdict = worst((case.reeved.verdict, *(finding.verdict for finding in findings)))
    if verdict is Verdict.PASS:
        return without_figures(
            NAME, verdict, WHERE, f"The pattern {case.reeved.pattern.state} is confirmed and its checks pass."
        )
    return without_figures(
        NAME, verdict, WHERE, " ".join(f.why for f in (*case.reeved.findings, *findings) if f.verdict is verdict)
    )


def _findings_of_lift(case: Case, reeved: Reeved, least: Figure, greatest: Figure) -> tuple[Finding, ...]:
    lengths = (least, greatest)
    if any(isinstance(length, Missing) for length in lengths):
        return (Finding(name="fall_lengths", verdict=Verdict.UNKNOWN, why=trouble_of(lengths).why),)
    if _is_clear(case, reeved, least):
        return ()
    checked = PatternCase(
        book=case.shared.book,
        settings=case.shared.settings,
        pattern=reeved.pattern,
        block=case.shared.block,
        places=reeved.places,
        lacking=reeved.lacking,
        least_fall=_number(least),
        greatest_fall=_number(greatest),
        hook_load=_number(case.shared.hook_load),
    )
    return (falls_that_rub(checked),)


def _is_clear(case: Case, reeved: Reeved, least: Figure) -> bool:
    """Whether no two falls can rub, told by a bound; not clear proves nothing."""
    if reeved.nearness is None or not isinstance(least, float) or least <= 0:
        return False
    rub = case.shared.settings.rub_distance * case.shared.book.rope.diameter
    return reeved.nearness.at_least(least) >= rub


def _number(figure: Figure) -> float | None:
    return figure if isinstance(figure, float) else None
