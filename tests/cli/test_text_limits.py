"""What the reeving can do, as text."""

from __future__ import annotations

import pytest

from becket.book.tackle import State
from becket.cli.text_limits import limits_text
from becket.limits.answer import RiggedAnswer
from becket.verdict import Verdict
from tests.crane import invented_book


def answered(verdict: Verdict, load: float | None, hook: float | None) -> str:
    """Return the text of an answer with these figures."""
    answer = RiggedAnswer(
        state=State(block="main", falls=2),
        verdict=verdict,
        greatest_load=load,
        load_governs="lead_line_pull",
        lowest_hook=hook,
        hook_governs="wraps",
        limits=(),
    )
    return " ".join(limits_text(invented_book(), answer, "metric").split())


def test_a_capacity_rounds_down_and_a_lowest_hook_up() -> None:
    text = answered(Verdict.PASS, 5196.5, -12.349)
    assert "Tallow 40 rigged main:2." in text
    assert "Greatest load on the hook, rigging counted: 5.19 t. Governs: lead line pull." in text
    assert "Lowest hook above the ground at the crane: -12.34 m. Governs: wraps." in text


@pytest.mark.parametrize(("verdict", "head"), [(Verdict.FAIL, "FAIL. "), (Verdict.UNKNOWN, "NOT PROVEN. ")])
def test_no_figure_is_named_where_none_is_proven(verdict: Verdict, head: str) -> None:
    text = answered(verdict, None, None)
    assert text.startswith(f"{head}Tallow 40 rigged main:2.")
    assert "Greatest load on the hook: none can be named (lead line pull)." in text
    assert "Lowest hook: unknown (wraps)." in text
    assert "With nothing on the hook, limit by limit" in text
