"""The falls card: each load read back is that of the limits, rounded down."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pytest

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.cards.falls_card import bare, cell_of, falls_card
from becket.errors import NotOnFileError
from becket.limits.answer import RiggedAnswer
from becket.limits.rigged import rigged_limits
from becket.units import read_quantity, show_quantity
from becket.verdict import Verdict
from tests.cards.hard_books import bare_book
from tests.cards.reading import page_sizes, qr_text, whole_text
from tests.crane import invented_book, invented_settings

DAY = "2026-11-30"


@lru_cache(maxsize=1)
def _book() -> Book:
    book = invented_book()
    chart = book.charts[0]
    return replace(book, charts=(replace(chart, rows=chart.rows[:2]),))


def _answer(state: State, boom: float, code: str, radius: float) -> RiggedAnswer:
    chart = _book().charts[0]
    lift = Lift(
        name="by hand",
        load=None,
        load_basis=None,
        rigging=None,
        chart=chart.name,
        boom=boom,
        radius=(radius, radius),
        top=float(boom // 3),
        bottom=0.0,
        handling=None,
        code=code,
        counterweight=chart.counterweight,
        outriggers=chart.outriggers,
    )
    return rigged_limits(_book(), invented_settings(), state, lift)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_load_on_the_card_is_the_one_that_the_limits_give(system: str) -> None:
    text = whole_text(falls_card(_book(), invented_settings(), "main", printed=DAY, system=system))
    states = sorted(one.state for one in _book().patterns if one.block == "main")
    at, loads = 0, 0
    for row in _book().charts[0].rows:
        for radius in sorted(row.rated):
            start = f"{bare(show_quantity(row.length, 'length', system=system))} "
            start += f"{bare(show_quantity(radius, 'length', system=system))} 0 to "
            at = text.index(start, at)
            for state in states:
                answer = _answer(state, row.length, row.code, radius)
                if answer.greatest_load:
                    shown = show_quantity(answer.greatest_load, "mass", system=system, toward="down")
                    assert read_quantity(shown, "mass") <= answer.greatest_load + 1e-6
                    loads += 1
                else:
                    shown = "FAIL" if answer.verdict is Verdict.FAIL else "?"
                at = text.index(shown, at + 1)
    assert loads > 20


def test_conditions_manual_and_block_stand_on_it() -> None:
    text = whole_text(falls_card(_book(), invented_settings(), "main", printed=DAY))
    for words in (
        "rigging counted, block not counted, rounded down",
        "with the hook anywhere from the ground (0 m) to the height under hook",
        "Load by falls, block main",
        _book().manual_title,
        f"charts on pages {_book().charts[0].page}",
        _book().fingerprint,
        "Not for planning a lift",
    ):
        assert words in text


def test_a_state_without_a_pattern_is_named_and_has_no_load() -> None:
    text = whole_text(falls_card(_book(), invented_settings(), "main", printed=DAY))
    assert "No pattern on file, so no load: " in text


def test_a_bare_book_proves_no_load() -> None:
    book = bare_book()
    book = replace(book, charts=(replace(book.charts[0], rows=book.charts[0].rows[:1]),))
    text = whole_text(falls_card(book, invented_settings(), "main", printed=DAY))
    table = text.split("2 falls")[1]
    assert " t lead" not in table
    assert "?" in table


def test_no_chart_no_card() -> None:
    with pytest.raises(NotOnFileError, match="charts: none is on file"):
        falls_card(replace(_book(), charts=()), invented_settings(), "main", printed=DAY)
    with pytest.raises(NotOnFileError, match="block: jib is not in the book"):
        falls_card(_book(), invented_settings(), "jib", printed=DAY)


def test_an_answer_without_a_load_is_never_shown_as_one() -> None:
    answer = RiggedAnswer(
        state=State(block="main", falls=4),
        verdict=Verdict.UNKNOWN,
        greatest_load=None,
        load_governs="fleet_angle",
        lowest_hook=None,
        hook_governs=None,
        limits=(),
    )
    assert cell_of(answer, "metric") == {"verdict": "unknown", "value": "", "governs": "fleet angle"}
    assert cell_of(replace(answer, verdict=Verdict.FAIL, greatest_load=0.0), "metric")["verdict"] == "fail"
    assert cell_of(replace(answer, verdict=Verdict.PASS, greatest_load=8806.0), "metric")["value"] == "8.80 t"
    assert cell_of(replace(answer, verdict=Verdict.UNKNOWN, greatest_load=8806.0), "metric")["value"] == ""


def test_every_page_is_a4() -> None:
    assert set(page_sizes(falls_card(_book(), invented_settings(), "main", printed=DAY))) == {(210, 297)}


@pytest.mark.browser
def test_the_code_tells_the_cards_of_two_blocks_apart(tmp_path: Path) -> None:
    one = qr_text(falls_card(_book(), invented_settings(), "main", printed=DAY), tmp_path)
    other = qr_text(falls_card(_book(), invented_settings(), "ball", printed=DAY), tmp_path)
    assert one != other
    for text in (one, other):
        assert text.startswith("BECKET/1/FALLS/")
        assert text.endswith(f"/{_book().fingerprint.upper()}")
