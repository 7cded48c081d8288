"""Figures in sentences are rounded toward safety."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from becket.limits import wording


@pytest.mark.parametrize(
    ("show", "value", "text"),
    [
        (wording.mass_there, 5196.5, "5.19 t"),  # 52 kN x 0.98 is never printed as 5.2 t
        (wording.mass_asked, 5190.1, "5.20 t"),
        (wording.mass_there, 5200.0, "5.20 t"),
        (wording.mass_asked, 5200.0, "5.20 t"),
        (wording.force_there, 41_999.0, "41.9 kN"),
        (wording.force_asked, 41_901.0, "42.0 kN"),
        (wording.length_there, 1.4999, "1.49 m"),
        (wording.length_asked, 1.4901, "1.50 m"),
        (wording.length_there, -0.101, "-0.11 m"),
        (wording.angle_there, 0.0698, "3.9 deg"),
        (wording.angle_asked, 0.0690, "4.0 deg"),
        (wording.factor_there, 4.99, "4.9"),
        (wording.factor_asked, 4.01, "4.1"),
        (wording.percent_up, 0.9001, "91 %"),
        (wording.percent_up, 0.9, "90 %"),
    ],
)
def test_it_rounds_toward_safety(show: Callable[[float], str], value: float, text: str) -> None:
    assert show(value) == text


def test_one_fall_is_one_fall() -> None:
    assert [wording.falls_in_words(n) for n in (1, 2, 16)] == ["1 fall", "2 falls", "16 falls"]
