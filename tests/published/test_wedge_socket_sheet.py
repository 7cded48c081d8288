"""Wedge socket safety information of a fitting vendor: tail and efficiency (no edition, no year).

Other sources differ and are not followed where the socket's own maker speaks: US Navy 14080 p. 3-9 asks for
one rope lay; an army manual for about 9 d.
"""

from __future__ import annotations

import csv
from importlib.resources import files

import pytest

from becket.mechanics.rope import fitting_factor, least_tail

INCH = 0.0254


@pytest.mark.parametrize(("resistant", "printed"), [(False, 0.1524), (True, 0.380)])
def test_tail_of_a_19_mm_rope(resistant: bool, printed: float) -> None:
    """Tail: 6 d, rotation resistant 20 d, 6 in at least. 19 mm: 152.4 mm (6 in governs) and 380 mm."""
    assert least_tail(0.019, resistant) == pytest.approx(printed, abs=1e-9)


def test_six_inches_govern_up_to_an_inch() -> None:
    """Tail, 6 to 8 strands: 6 in is 6 d at 1 in; above that the diameter governs."""
    assert least_tail(INCH, False) == pytest.approx(6 * INCH)
    assert least_tail(1.1 * INCH, False) == pytest.approx(6.6 * INCH)
    assert least_tail(0.5 * INCH, False) == pytest.approx(6 * INCH)


def test_efficiency_is_the_shipped_share() -> None:
    """Efficiency of a wedge socket: 0.80. becket's setting for the dead end is the same number."""
    lines = files("becket.settings").joinpath("settings.csv").read_text(encoding="utf-8").splitlines()
    row = next(row for row in csv.DictReader(lines[1:]) if row["name"] == "dead_end_share")
    assert (row["value"], row["unit"]) == ("80", "%")
    assert fitting_factor(100.0, 0.80, 20.0) == pytest.approx(0.80 * 100.0 / 20.0)
