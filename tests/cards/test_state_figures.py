"""The maker's figures of a state."""

from __future__ import annotations

from dataclasses import replace

from becket.cards.state_figures import state_figures
from tests.cards.hard_books import bare_book
from tests.crane import invented_book, invented_settings


def _figures(book: object = None, falls: int = 4, **changes: object) -> dict[str, tuple[str, str]]:
    crane = invented_book(**changes) if book is None else book
    return {
        one["name"]: (one["value"], one["note"])
        for one in state_figures(crane, invented_settings(), falls, "metric")  # type: ignore[arg-type]
    }


def test_each_figure_stands_with_what_it_counts_and_where_it_is_printed() -> None:
    book = invented_book()
    table = book.falls_table
    assert table is not None
    assert table.counts is not None
    figures = _figures()
    assert list(figures) == ["Maker's table, 4", "Lead line, layer 5", "Rope, lead line", "Least wraps"]
    assert figures["Maker's table, 4"][1] == f"at most, page {table.page}; counts {', '.join(table.counts)}"
    assert figures["Lead line, layer 5"] == ("34.0 kN", "at most; layers 1 to 4: 44.0, 41.0, 38.0, 36.0 kN")
    assert figures["Least wraps"][0] == "3"


def test_falls_that_the_table_does_not_print_fail_and_no_table_is_said() -> None:
    assert _figures(falls=16)["Maker's table, 16"] == ("FAIL", "not in the maker's table: not permitted")
    table = invented_book().falls_table
    assert table is not None
    none = replace(table, printed=False, loads={})
    assert _figures(falls_table=none)["Maker's table, 4"] == ("none", "the manual prints no falls table")
    unsaid = replace(table, counts=None)
    assert _figures(falls_table=unsaid)["Maker's table, 4"][1].endswith("does not say what it counts")


def test_one_layer_on_file_warns_of_the_layers_further_out() -> None:
    winch = replace(invented_book().winch, pull=(44600.0,))
    figures = _figures(winch=winch)
    assert figures["Lead line, layer 1"] == ("44.6 kN", "at most in layer 1; less in every layer further out")


def test_an_estimated_breaking_force_proves_nothing() -> None:
    rope = replace(invented_book().rope, breaking_force=None, construction="35xK7", grade=1960.0)
    value, note = _figures(rope=rope)["Rope, lead line"]
    assert value == "?"
    assert "not" in note


def test_nothing_on_file_is_a_question_mark_each_with_its_reason() -> None:
    figures = _figures(bare_book())
    assert {value for value, _ in figures.values()} == {"?"}
    assert all("not on file" in note for _, note in figures.values())
