"""Figures round toward safety and say when they are not known."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.figures import joined_range, percent, said, shown, shown_in, whole_minutes, window


@pytest.mark.parametrize("unit", ["m", "kg", "N", "m/s", "rad", "s", "turns", "-"])
def test_what_is_not_known_is_a_question_mark(unit: str) -> None:
    assert shown_in(None, unit, "metric", "down") == "?"


def test_units_are_a_choice_of_display() -> None:
    assert shown(5196.5, "mass", "metric", "down").endswith(" t")
    assert shown(5196.5, "mass", "us", "down").endswith(" lb")


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.floats(min_value=0, max_value=50))
def test_a_use_never_reads_lower_than_it_is(use: float) -> None:
    assert int(percent(use).removesuffix(" %")) >= 100 * use - 1e-6


@pytest.mark.parametrize(("use", "text"), [(1.0, "100 %"), (1.0001, "101 %"), (0.0, "0 %"), (None, "")])
def test_a_use_of_the_limit_is_100_and_anything_over_is_not(use: float | None, text: str) -> None:
    assert percent(use) == text


@settings(derandomize=True, deadline=None, max_examples=200)
@given(st.floats(min_value=-1000, max_value=1000))
def test_plain_numbers_round_the_way_they_are_told(value: float) -> None:
    assert float(shown_in(value, "turns", "metric", "down")) <= value + 1e-6
    assert float(shown_in(value, "turns", "metric", "up")) >= value - 1e-6


def test_minutes_round_up() -> None:
    assert whole_minutes(3001.0) == "51 min"
    assert whole_minutes(None) == "?"


def test_a_range_of_one_is_one() -> None:
    assert joined_range(6.0, 6.0, "length", "metric") == shown(6.0, "length", "metric")
    assert " to " in joined_range(6.0, 9.0, "length", "metric")


def test_a_window_rounds_inward() -> None:
    assert window(-0.02, 0.02, "angle", "metric") == "-1.1 deg to 1.1 deg"
    assert window(1.321, 1.559, "length", "metric") == "1.33 m to 1.55 m"


def test_sentences_get_us_figures_beside_the_metric_ones() -> None:
    sentence = "Head 1.46 m up, 3.1 kN, 9 t, 700 kg, 22 cm, 29 mm, 27.5 m/min, at -1.8 deg; wind 9.0 m/s, 1.45 kg/m."
    assert said(sentence, "metric") == sentence
    assert said(sentence, "us") == (
        "Head 1.46 m (4.79 ft) up, 3.1 kN (697 lbf), 9 t (19 842 lb), 700 kg (1 543 lb), 22 cm (8.66 in), "
        "29 mm (1.14 in), 27.5 m/min (90.2 ft/min), at -1.8 deg; wind 9.0 m/s, 1.45 kg/m."
    )


def test_a_name_with_a_figure_in_it_is_a_figure_too() -> None:
    assert said("chart full outriggers, 12 t permits 15.20 t", "us") == (
        "chart full outriggers, 12 t (26 455 lb) permits 15.20 t (33 510 lb)"
    )
