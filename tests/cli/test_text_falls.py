"""The falls table as text, from records alone."""

from __future__ import annotations

import pytest

from becket.cli.text_falls import falls_text, opened_text, title
from becket.limits.answer import FallsAnswer, Limit, Row
from becket.limits.table import falls_table
from becket.verdict import Verdict
from tests.cli.conftest import fits
from tests.crane import invented_book, invented_lift, invented_settings


def limit(name: str, verdict: Verdict, use: float | None, why: str = "Because.") -> Limit:
    """Return a limit of a test."""
    return Limit(name=name, verdict=verdict, use=use, have=None, need=None, unit="", where="", why=why)


def row(falls: int, *limits: Limit) -> Row:
    """Return a row of a test; the first limit governs."""
    return Row(
        falls=falls,
        verdict=limits[0].verdict,
        governs=limits[0].name,
        hook_speed=None,
        lead_line_pull=None,
        dead_end_pull=None,
        layer=None,
        rope_needed=None,
        wraps_left=None,
        limits=limits,
    )


def answer(*rows: Row, recommended: int | None = None, unproven: int | None = None) -> FallsAnswer:
    """Return a table of a test."""
    return FallsAnswer(recommended=recommended, unproven=unproven, rows=rows, further=())


PASSED = row(1, limit("chart", Verdict.PASS, 0.5))
FAILED = row(1, limit("chart", Verdict.FAIL, 1.041))
FAILED_MORE = row(2, limit("wraps", Verdict.FAIL, 1.3), limit("tilt", Verdict.UNKNOWN, None))
CANNOT = row(1, limit("chart", Verdict.FAIL, None, "Nothing is printed for this radius."))
OPEN = row(2, limit("twist", Verdict.UNKNOWN, None), limit("chart", Verdict.UNKNOWN, 0.95))


@pytest.mark.parametrize(
    ("table", "text"),
    [
        (answer(PASSED, recommended=1), "rig 1 fall on block main"),
        (
            answer(FAILED, OPEN, unproven=2),
            "NOT PROVEN. No number of falls passes every limit. Fewest that nothing fails: 2 on block main. "
            "Unknown there: twist, chart.",
        ),
        (
            answer(FAILED, FAILED_MORE),
            "No number of falls will do on block main. Nearest: 1 fall, chart 105 %. "
            "Ask for a lighter load or a shorter radius.",
        ),
        (
            answer(CANNOT),
            "No number of falls will do on block main. Nearest: 1 fall, chart fails. "
            "Nothing is printed for this radius.",
        ),
        (answer(), "No number of falls will do on block main. The block and the head carry none."),
    ],
)
def test_the_title_is_the_answer(table: FallsAnswer, text: str) -> None:
    assert " ".join(title("main", table).split()) == text


def test_an_unknown_row_never_reads_as_a_recommendation() -> None:
    book, lift = invented_book(), invented_lift()
    text = falls_text(book, "main", lift, answer(FAILED, OPEN, unproven=2), None, "metric")
    assert "rig " not in text
    assert not [line for line in text.splitlines() if line.startswith(">")]
    assert "2 unknown" in text


def test_reasons_stop_at_the_answer_and_unknowns_of_failing_rows_are_left_out() -> None:
    text = falls_text(invented_book(), "main", invented_lift(), answer(FAILED_MORE), None, "metric")
    assert "Unknown: nothing." in text
    text = falls_text(invented_book(), "main", invented_lift(), answer(OPEN, unproven=2), None, "metric")
    assert "twist (2 falls): Because." in text


@pytest.mark.parametrize("system", ["metric", "us"])
@pytest.mark.parametrize("opened", [None, 1, 4])
def test_a_real_table_fits_80_columns(system: str, opened: int | None) -> None:
    book, settings, lift = invented_book(), invented_settings(), invented_lift()
    fits(falls_text(book, "main", lift, falls_table(book, settings, "main", lift), opened, system))


def test_a_limit_opened_rounds_what_is_there_down_and_what_is_asked_up() -> None:
    tight = Limit(
        name="chart", verdict=Verdict.FAIL, use=1.0001, have=5196.5, need=5197.1, unit="kg", where="", why="Over."
    )
    assert opened_text("head", [tight], "metric") == (
        "head\nfail     chart           have 5.19 t, need 5.20 t, use 101 %\n         Over."
    )
