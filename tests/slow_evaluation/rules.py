"""What a rule set gives where the book does not, typed here a second time from the printed rules.

In:    the name of a rule set, the rope.
Out:   design factor, least wraps; None where the rule set says nothing of them.
Never: the product's table.
"""

from __future__ import annotations

from becket.book.hoist import Rope

FEDERAL = "29 CFR 1926 Subpart CC"  # 1926.1414(e)(2): rotation-resistant rope 5, by type; two wraps, 1926.1417
ASME = "ASME B30.5-2018"  # 5-1.7.1: 3.5, rotation-resistant rope 5; two wraps
ALBERTA = "Alberta OHS Code"  # 299(2)(b): five wraps

LEAST_WRAPS = {FEDERAL: 2, ASME: 2, ALBERTA: 5}
FROM_MEMORY = {(FEDERAL, "least wraps"), (ASME, "design factor")}  # no stored copy showed them: they prove nothing


def design_factor_of(rules: str | None, rope: Rope) -> float | None:
    """Return the design factor that the rule set asks for of this rope [-]."""
    if rope.rotation_resistant is None or rules is None:
        return None
    if rules == ASME:
        return 5.0 if rope.rotation_resistant else 3.5
    if rules == FEDERAL and rope.rotation_resistant and rope.type in ("I", "II", "III"):
        return 5.0
    return None
