"""From what a lift asks and what is there to pass, fail or unknown.

In:    two figures, either of which may be missing, and the sentence that says them.
Out:   a limit with its verdict, use and reason.
Never: figures of its own; a pass from a figure that is missing, estimated or unconfirmed.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from becket.limits.answer import Limit
from becket.limits.case import Case
from becket.limits.figures import Figure, Impossible, Missing, trouble_of
from becket.limits.wording import percent_up
from becket.verdict import Verdict

ROUNDING = 1e-12  # share by which two floats of one value may differ [-]


def judge(
    name: str,
    unit: str,
    where: str,
    *,
    need: Figure,
    have: Figure,
    said: Callable[[float, float], str],
    doubt: str | None = None,
) -> Limit:
    """Return pass where the need is within what is there, fail where not, unknown where a figure is missing.

    Args:
        name: of the limit
        unit: of both figures, SI
        where: place of the lift where it is worst
        need: what the lift asks [unit]
        have: what is there or permitted [unit]
        said: the sentence from need and have
        doubt: why a pass is not proven, None: nothing in doubt
    """
    if isinstance(need, float | int) and isinstance(have, float | int):
        use = need / have if have > 0 else None
        within = use is not None and use <= 1 + ROUNDING
        verdict = Verdict.PASS if within else Verdict.FAIL
        why = f"{said(need, have)} Worst place: {where}."
        if within and doubt:
            verdict, why = Verdict.UNKNOWN, f"{why} {doubt}"
        there = have if have < inf else None  # no bound at all
        return Limit(name=name, verdict=verdict, use=use, have=there, need=need, unit=unit, where=where, why=why)
    trouble = trouble_of((need, have))
    return troubled(name, unit, where, trouble, need=_number(need), have=_number(have))


def troubled(
    name: str,
    unit: str,
    where: str,
    trouble: Missing | Impossible,
    need: float | None = None,
    have: float | None = None,
) -> Limit:
    """Return fail for something impossible, unknown for something missing.

    Args:
        name: of the limit
        unit: of both figures, SI
        where: place of the lift where it is worst
        trouble: what is missing or impossible
        need: as far as it is known [unit]
        have: as far as it is known [unit]
    """
    verdict = Verdict.FAIL if isinstance(trouble, Impossible) else Verdict.UNKNOWN
    return Limit(name=name, verdict=verdict, use=None, have=have, need=need, unit=unit, where=where, why=trouble.why)


def in_doubt(limit: Limit, reason: str) -> Limit:
    """Return the limit as unknown, with one reason more [-].

    Args:
        limit: as judged
        reason: a sentence
    """
    return limit._replace(verdict=Verdict.UNKNOWN, why=f"{limit.why} {reason}")


def without_figures(name: str, verdict: Verdict, where: str, why: str) -> Limit:
    """Return a limit that has no figures to divide [-].

    Args:
        name: of the limit
        verdict: pass, fail or unknown
        where: place of the lift or the crane
        why: the sentence
    """
    return Limit(name=name, verdict=verdict, use=None, have=None, need=None, unit="", where=where, why=why)


def load_doubt(case: Case, need: Figure, have: Figure) -> str | None:
    """Return why a limit that counts the load is not proven: the load is no better than estimated [-].

    Args:
        case: one number of falls
        need: what the lift asks
        have: what is there, in the same unit

    Source: docs/theory/limits.md, "What hangs".
    """
    basis, settings = case.shared.lift.load_basis, case.shared.settings
    if basis in ("weighed", "drawing") or not isinstance(need, float | int) or not isinstance(have, float | int):
        return None
    if have <= 0 or need / have <= settings.estimate_use_most + ROUNDING:
        return None
    known = "is an estimate" if basis == "estimate" else "has no basis (weighed, drawing or estimate)"
    return (
        f"The load {known}: over {percent_up(settings.estimate_use_most)} use nothing is proven "
        f"({settings.named('estimate_use_most')}); weigh it or take it from the drawing."
    )


def _number(figure: Figure) -> float | None:
    return figure if isinstance(figure, float | int) else None
