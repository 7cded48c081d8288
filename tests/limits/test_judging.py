"""From two figures to a verdict."""

from __future__ import annotations

import pytest

from becket.limits.figures import Figure, Impossible, Missing
from becket.limits.judging import in_doubt, judge, without_figures
from becket.verdict import Verdict


def _judged(need: Figure, have: Figure, doubt: str | None = None):  # type: ignore[no-untyped-def]
    return judge("x", "m", "there", need=need, have=have, said=lambda n, h: f"{n} of {h}.", doubt=doubt)


@pytest.mark.parametrize(
    ("need", "have", "verdict", "use"),
    [
        (1.0, 2.0, Verdict.PASS, 0.5),
        (2.0, 2.0, Verdict.PASS, 1.0),
        (2.000001, 2.0, Verdict.FAIL, 1.0000005),
        (0.0, 2.0, Verdict.PASS, 0.0),
        (1.0, 0.0, Verdict.FAIL, None),
        (0.0, 0.0, Verdict.FAIL, None),
        (1.0, -1.0, Verdict.FAIL, None),
        (1.0, float("nan"), Verdict.FAIL, None),
        (float("nan"), 1.0, Verdict.FAIL, None),
    ],
)
def test_need_and_have(need: float, have: float, verdict: Verdict, use: float | None) -> None:
    found = _judged(need, have)
    assert found.verdict is verdict
    assert found.use == use or found.use != found.use


def test_the_place_is_named_in_why() -> None:
    assert _judged(1.0, 2.0).why == "1.0 of 2.0. Worst place: there."


def test_a_doubt_turns_a_pass_to_unknown_and_leaves_a_fail() -> None:
    assert _judged(1.0, 2.0, "Who knows.").verdict is Verdict.UNKNOWN
    assert _judged(1.0, 2.0, "Who knows.").why.endswith(" Who knows.")
    assert _judged(3.0, 2.0, "Who knows.").verdict is Verdict.FAIL


def test_something_missing_is_unknown_and_keeps_what_is_known() -> None:
    found = _judged(Missing(("a",)), 2.0)
    assert (found.verdict, found.use, found.need, found.have) == (Verdict.UNKNOWN, None, None, 2.0)


def test_something_impossible_fails() -> None:
    assert _judged(Impossible("Out of reach."), Missing(("a",))).verdict is Verdict.FAIL


def test_in_doubt_adds_a_reason() -> None:
    found = in_doubt(without_figures("x", Verdict.PASS, "there", "Good."), "But not sure.")
    assert (found.verdict, found.why) == (Verdict.UNKNOWN, "Good. But not sure.")
