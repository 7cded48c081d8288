"""Rule sets that becket ships, against the clauses as they were read (status SEEN) - see docs/sources.md.

29 CFR 1926.1414(e); ASME B30.5-2018 (excerpt); Ohio Admin. Code 4123:1-3-07; 8 CCR 4929; DGUV Vorschrift 54
section 35; NSW dogging and rigging guide; Alberta OHS Code 299 and Explanation Guide 302. One file, since
the product reads them from one table; each case names its own source.
"""

from __future__ import annotations

import csv
from importlib.resources import files

import pytest

Key = tuple[str, str, str]


def _shipped() -> dict[Key, dict[str, str]]:
    lines = files("becket.settings").joinpath("rule_sets.csv").read_text(encoding="utf-8").splitlines()
    return {(row["rules"], row["item"], row["applies"]): row for row in csv.DictReader(lines[1:])}


CC, B30, OHIO = "29 CFR 1926 Subpart CC", "ASME B30.5-2018", "Ohio 4123:1-3-07"
CAL, DGUV, NSW, ALBERTA = "8 CCR 4929", "DGUV Vorschrift 54", "NSW guide", "Alberta OHS Code"
SEEN: dict[Key, float] = {
    (CC, "design_factor", "rotation resistant type I"): 5,  # 1926.1414(e)(2)(iii)
    (CC, "design_factor", "rotation resistant type II"): 5,  # 1926.1414(e)(2)(iv)
    (CC, "design_factor", "rotation resistant type III"): 5,  # 1926.1414(e)(2)(iv)
    (CC, "design_factor_least", "rotation resistant"): 3.5,  # 1926.1414(e)(2)(ii)
    (B30, "least_wraps", ""): 2,  # load hoist drum, hook lowest
    (B30, "flange_freeboard", "rope diameters"): 0.5,  # the greater of half a diameter
    (B30, "flange_freeboard", "least"): 0.013,  # and 13 mm
    (B30, "drum_ratio", ""): 18,
    (B30, "head_sheave_ratio", ""): 18,
    (B30, "block_sheave_ratio", ""): 16,
    (OHIO, "design_factor", "not rotation resistant"): 3.5,
    (OHIO, "least_wraps", ""): 2,
    (CAL, "least_wraps", ""): 2,  # 4929(c)(1)
    (CAL, "drum_ratio", ""): 18,  # 4929(d)
    (DGUV, "least_wraps", ""): 2,  # section 35(2)
    (DGUV, "flange_freeboard", "rope diameters"): 1.5,  # section 35(1)
    (NSW, "least_wraps", ""): 2,
    (NSW, "flange_freeboard", "rope diameters"): 2,
    (ALBERTA, "least_wraps", ""): 5,  # 299(2)(b), no maker's value
    (ALBERTA, "drum_ratio", ""): 20,  # Explanation Guide 302, no maker's value
}
MEMORY = {
    (CC, "least_wraps", ""),
    (B30, "design_factor", "not rotation resistant"),
    (B30, "design_factor", "rotation resistant"),
}


@pytest.mark.parametrize("key", SEEN, ids=lambda key: "-".join(key).replace(" ", "_"))
def test_shipped_rule_is_the_one_read(key: Key) -> None:
    """The number of the clause, and the mark that it was read."""
    row = _shipped()[key]
    assert float(row["value"]) == SEEN[key]
    assert row["status"] == "SEEN"
    assert row["source"]


def test_rules_from_memory_say_so_and_no_other_rule_is_shipped() -> None:
    """From memory: the paragraph letter of 1926.1417(r) and the two factors of B30.5 5-1.7.1."""
    shipped = _shipped()
    assert {key for key, row in shipped.items() if row["status"] == "MEMORY"} == MEMORY
    assert set(shipped) == set(SEEN) | MEMORY


@pytest.mark.parametrize(("rules", "printed"), [(B30, 0.013), (DGUV, 0.033), (NSW, 0.044)])
def test_flange_above_a_22_mm_rope(rules: str, printed: float) -> None:
    """22 mm rope: ASME max(d/2, 13 mm) = 13 mm; DGUV 1.5 d = 33 mm; NSW 2 d = 44 mm."""
    shipped = _shipped()
    least = float(shipped[rules, "flange_freeboard", "least"]["value"]) if rules == B30 else 0.0
    assert max(float(shipped[rules, "flange_freeboard", "rope diameters"]["value"]) * 0.022, least) == pytest.approx(
        printed
    )
