"""Rule sets: what each asks, with its source, and what none says."""

from __future__ import annotations

import pytest

from becket.settings import rules

OSHA, ASME = "29 CFR 1926 Subpart CC", "ASME B30.5-2018"


@pytest.mark.parametrize(
    ("name", "rotation_resistant", "rope_type", "value"),
    [
        (OSHA, True, "I", 5.0),
        (OSHA, True, "II", 5.0),
        (OSHA, True, "III", 5.0),
        (OSHA, True, None, None),  # the type decides there: unknown type, no figure
        (OSHA, False, None, None),  # not on file
        (ASME, False, None, 3.5),
        (ASME, True, None, 5.0),
        (ASME, True, "II", 5.0),
        (ASME, None, "I", None),
        ("8 CCR 4929", True, "I", None),
        ("no such rules", True, "I", None),
    ],
)
def test_design_factor(name: str, rotation_resistant: bool | None, rope_type: str | None, value: float | None) -> None:
    figure = rules.design_factor_wanted(name, rotation_resistant, rope_type)
    assert (figure.value if figure else None) == value


def test_the_least_design_factor_is_of_rotation_resistant_rope_only() -> None:
    least = rules.design_factor_least(OSHA, True)
    assert least is not None
    assert (least.value, least.source) == (3.5, "29 CFR 1926.1414(e)(2)(ii)")
    assert rules.design_factor_least(OSHA, False) is None
    assert rules.design_factor_least(OSHA, None) is None
    assert rules.design_factor_least(ASME, True) is None


def test_flange_freeboard_is_the_greater_of_share_and_least() -> None:
    """ASME B30.5-2018: half a rope diameter, 13 mm at least; DGUV Vorschrift 54 s.35(1): 1.5 rope diameters."""
    for diameter, height in ((0.016, 0.013), (0.026, 0.013), (0.032, 0.016)):
        figure = rules.flange_freeboard(ASME, diameter)
        assert figure is not None
        assert figure.value == pytest.approx(height)
    german = rules.flange_freeboard("DGUV Vorschrift 54", 0.02)
    assert german is not None
    assert german.value == pytest.approx(0.03)
    assert rules.flange_freeboard(OSHA, 0.02) is None


@pytest.mark.parametrize("diameter", [0.004, 0.01, 0.016, 0.04])
def test_the_greatest_freeboard_is_no_less_than_any(diameter: float) -> None:
    greatest = rules.greatest_flange_freeboard(diameter).value
    every = [rules.flange_freeboard(name, diameter) for name in rules.rule_names()]
    assert greatest == max(one.value for one in every if one is not None)


def test_ratios_and_wraps() -> None:
    drum, head, block = rules.drum_ratio(ASME), rules.head_sheave_ratio(ASME), rules.block_sheave_ratio(ASME)
    assert [one.value for one in (drum, head, block) if one is not None] == [18.0, 18.0, 16.0]
    wraps = rules.least_wraps("Alberta OHS Code")
    assert wraps is not None
    assert wraps.value == 5.0
    assert rules.drum_ratio(OSHA) is None


def test_a_figure_from_memory_says_so() -> None:
    wraps = rules.least_wraps(OSHA)
    assert wraps is not None
    assert wraps.is_from_memory
    assert wraps.cited == "29 CFR 1926.1417(r) (from memory: check the current text)"
    seen = rules.least_wraps(ASME)
    assert seen is not None
    assert seen.cited == "ASME B30.5-2018"


def test_every_row_names_its_source_and_is_read_by_a_function() -> None:
    read = {"design_factor", "design_factor_least", "least_wraps", "flange_freeboard", "drum_ratio"}
    read |= {"head_sheave_ratio", "block_sheave_ratio"}
    for row in rules.rule_rows():
        assert row.source
        assert row.status in ("SEEN", "MEMORY")
        assert row.item in read
        assert row.value > 0.0
