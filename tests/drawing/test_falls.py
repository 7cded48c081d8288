"""The falls table as a picture: every use of every limit, verdicts by amount of ink."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.drawing.falls import draw_falls, percent, title_of
from becket.drawing.picture import INK, PAPER, Picture, Polygon, Rect, Text
from becket.limits.answer import FallsAnswer, Limit, Row
from becket.limits.table import falls_table
from becket.verdict import Verdict
from tests.crane import invented_book, invented_lift, invented_settings
from tests.drawing.tackles import faults

ANSWER = falls_table(invented_book(), invented_settings(), "main", invented_lift())


def row(falls: int, *limits: Limit, verdict: Verdict, governs: str) -> Row:
    return Row(
        falls=falls,
        verdict=verdict,
        governs=governs,
        hook_speed=None,
        lead_line_pull=None,
        dead_end_pull=None,
        layer=None,
        rope_needed=None,
        wraps_left=None,
        limits=limits,
    )


def limit(verdict: Verdict, use: float | None, name: str = "chart") -> Limit:
    return Limit(name=name, verdict=verdict, use=use, have=None, need=None, unit="", where="", why="")


def answer(*rows: Row, recommended: int | None = None, unproven: int | None = None) -> FallsAnswer:
    return FallsAnswer(recommended=recommended, unproven=unproven, rows=rows, further=())


def cells(picture: Picture) -> dict[tuple[str, str], str]:
    return {
        (dict(s.facts)["limit"], dict(s.facts)["falls"]): s.text
        for s in picture.shapes
        if isinstance(s, Text) and dict(s.facts).get("kind") == "use"
    }


def test_every_known_use_stands_there_and_is_the_answers() -> None:
    """Each limit that is judged with a number: that number in percent, rounded up."""
    picture = draw_falls(ANSWER)
    known = {
        (one.name, str(row.falls)): percent(one.use).removesuffix(" %").replace(" times", "×")
        for row in ANSWER.rows
        for one in row.limits
        if one.use is not None and one.verdict is not Verdict.UNKNOWN
    }
    assert len(known) > 30
    assert cells(picture) == known


def test_nothing_covers_anything() -> None:
    """Also with sixteen rows."""
    assert faults(draw_falls(ANSWER)) == []
    many = tuple(row(n, limit(Verdict.FAIL, 16.0 / n), verdict=Verdict.FAIL, governs="chart") for n in range(1, 17))
    assert faults(draw_falls(answer(*many))) == []


def test_the_recommended_row_has_a_heavy_frame() -> None:
    frames = [s for s in draw_falls(ANSWER).shapes if isinstance(s, Rect) and s.stroke == 6]
    assert [dict(s.facts)["falls"] for s in frames] == [str(ANSWER.recommended)]


def test_verdicts_by_amount_of_ink() -> None:
    """Pass is an outline, FAIL a solid block with paper letters, unknown dashed with the only hatch."""
    for verdict in Verdict:
        one = answer(row(2, limit(verdict, 0.5), verdict=verdict, governs="chart"))
        shapes = draw_falls(one).shapes
        plates = [s for s in shapes if isinstance(s, Rect) and dict(s.facts).get("kind") == "verdict"]
        hatched = [s for s in shapes if isinstance(s, Polygon) and dict(s.facts).get("kind") == "hatch"]
        words = {s.text: s for s in shapes if isinstance(s, Text)}
        assert [plate.ink == INK for plate in plates] == [verdict is Verdict.FAIL] * 2
        assert [bool(plate.dash) for plate in plates] == [verdict is Verdict.UNKNOWN] * 2
        assert bool(hatched) is (verdict is Verdict.UNKNOWN)
        word = {"pass": "pass", "fail": "FAIL", "unknown": "unknown"}[str(verdict)]
        assert words[word].ink == (PAPER if verdict is Verdict.FAIL else INK)


def test_an_unknown_row_says_how_many_and_the_greatest_known_use() -> None:
    one = row(
        3,
        limit(Verdict.UNKNOWN, None, "twist"),
        limit(Verdict.PASS, 0.911, "chart"),
        verdict=Verdict.UNKNOWN,
        governs="twist",
    )
    picture = draw_falls(answer(one, unproven=3))
    texts = [s.text for s in picture.shapes if isinstance(s, Text)]
    assert "1 unknown, 92 %" in texts
    assert picture.title == "No falls proven. Fewest that nothing fails: 3."
    assert "3: unknown, twist, 1 unknown, 92 %" in picture.description


@pytest.mark.parametrize(
    ("recommended", "unproven", "title"),
    [
        (1, None, "Rig 1 fall"),
        (4, None, "Rig 4 falls"),
        (None, 3, "No falls proven. Fewest that nothing fails: 3."),
        (None, None, "No number of falls will do."),
    ],
)
def test_titles(recommended: int | None, unproven: int | None, title: str) -> None:
    assert title_of(answer(recommended=recommended, unproven=unproven)) == title


@given(st.floats(0, 9.99))
@settings(derandomize=True, deadline=None, max_examples=200)
def test_a_use_is_never_shown_too_small(use: float) -> None:
    """Whole percent, up; over the limit is never shown as 100."""
    shown = int(percent(use).removesuffix(" %"))
    assert shown >= 100 * use - 1e-6
    assert shown < 100 * use + 1
    assert (shown > 100) is (use > 1 + 1e-9)
