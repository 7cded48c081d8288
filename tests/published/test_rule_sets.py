"""Rule sets that becket ships, against the clauses as they were read (status SEEN) - see docs/sources.md.

29 CFR 1926.1414(e); ASME B30.5-2018 (excerpt; the sheave ratios in a translation); Ohio Admin. Code
4123:1-3-07; 8 CCR 4929; DGUV Vorschrift 54 section 35; NSW dogging and rigging guide; Alberta OHS Code 299
and Explanation Guide 302. One file, since the product reads them from one table; each case names its source.
"""

from __future__ import annotations

import pytest

from becket.settings.rules import (
    RuleFigure,
    block_sheave_ratio,
    design_factor_least,
    design_factor_wanted,
    drum_ratio,
    flange_freeboard,
    greatest_flange_freeboard,
    head_sheave_ratio,
    least_wraps,
    rule_names,
    rule_rows,
)

CC, B30, OHIO = "29 CFR 1926 Subpart CC", "ASME B30.5-2018", "Ohio 4123:1-3-07"
CAL, DGUV, NSW, ALBERTA = "8 CCR 4929", "DGUV Vorschrift 54", "NSW guide", "Alberta OHS Code"


def _read(figure: RuleFigure | None, clause: str) -> float:
    """The value of a figure that was read in print, its clause beside it."""
    assert figure is not None
    assert clause in figure.source
    assert not figure.is_from_memory
    return figure.value


@pytest.mark.parametrize(
    ("rope_type", "clause"),
    [("I", "1926.1414(e)(2)(iii)"), ("II", "1926.1414(e)(2)(iv)"), ("III", "1926.1414(e)(2)(iv)")],
)
def test_design_factor_of_rotation_resistant_rope(rope_type: str, clause: str) -> None:
    """29 CFR 1926.1414(e)(2): 5 for types I, II and III (less only in writing, which becket does not take)."""
    assert _read(design_factor_wanted(CC, True, rope_type), clause) == 5


def test_design_factor_least_of_rotation_resistant_rope() -> None:
    """29 CFR 1926.1414(e)(2)(ii): never below 3.5. The type not known is no answer, not 3.5."""
    assert _read(design_factor_least(CC, True), "1926.1414(e)(2)(ii)") == 3.5
    assert design_factor_wanted(CC, True, None) is None
    assert design_factor_wanted(CC, None, None) is None


def test_design_factor_of_other_rope_in_ohio() -> None:
    """Ohio Admin. Code 4123:1-3-07, which names re-reeving: at least 3.5."""
    assert _read(design_factor_wanted(OHIO, False, None), "4123:1-3-07") == 3.5


@pytest.mark.parametrize(
    ("rules", "clause", "turns"),
    [
        (B30, "ASME B30.5-2018", 2),
        (CAL, "4929(c)(1)", 2),
        (DGUV, "s.35(2)", 2),
        (NSW, "NSW", 2),
        (OHIO, "4123:1-3-07", 2),
        (ALBERTA, "299(2)(b)", 5),
    ],
)
def test_wraps_that_stay_on_the_drum(rules: str, clause: str, turns: int) -> None:
    """Full wraps with the hook at its lowest (Ohio: after shortening too; Alberta: where no maker says)."""
    assert _read(least_wraps(rules), clause) == turns


@pytest.mark.parametrize(
    ("rules", "clause", "above"), [(B30, "B30.5-2018", 0.013), (DGUV, "s.35(1)", 0.033), (NSW, "NSW", 0.044)]
)
def test_flange_above_a_22_mm_rope(rules: str, clause: str, above: float) -> None:
    """22 mm rope: ASME max(d/2, 13 mm) = 13 mm; DGUV 1.5 d = 33 mm; NSW 2 d = 44 mm."""
    assert _read(flange_freeboard(rules, 0.022), clause) == pytest.approx(above)


def test_half_a_diameter_governs_over_26_mm() -> None:
    """ASME B30.5-2018: max(0.5 d, 13 mm): from 26 mm on the diameter; the strictest on file is NSW's 2 d."""
    assert _read(flange_freeboard(B30, 0.030), "B30.5-2018") == pytest.approx(0.015)
    assert _read(greatest_flange_freeboard(0.030), "NSW") == pytest.approx(0.060)


def test_diameters_in_rope_diameters() -> None:
    """ASME B30.5: drum 18 d, load hoist sheave 18 d, lower block 16 d; 8 CCR 4929(d): drum 18 d; Alberta 20 d."""
    assert _read(drum_ratio(B30), "B30.5") == 18
    assert _read(head_sheave_ratio(B30), "B30.5") == 18
    assert _read(block_sheave_ratio(B30), "B30.5") == 16
    assert _read(drum_ratio(CAL), "4929(d)") == 18
    assert _read(drum_ratio(ALBERTA), "302") == 20


def test_figures_from_memory_say_so() -> None:
    """From memory: the paragraph letter of 29 CFR 1926.1417(r), and ASME B30.5 5-1.7.1(a) and (c), 3.5 and 5."""
    for figure, value in (
        (least_wraps(CC), 2),
        (design_factor_wanted(B30, False, None), 3.5),
        (design_factor_wanted(B30, True, None), 5),
    ):
        assert figure is not None
        assert figure.value == value
        assert figure.is_from_memory
        assert figure.cited.endswith("(from memory: check the current text)")


def test_nothing_else_is_shipped() -> None:
    """Seven rule sets, 23 rows, three of them from memory: a new row needs its test here."""
    assert set(rule_names()) == {CC, B30, OHIO, CAL, DGUV, NSW, ALBERTA}
    assert len(rule_rows()) == 23
    assert sum(row.status == "MEMORY" for row in rule_rows()) == 3
