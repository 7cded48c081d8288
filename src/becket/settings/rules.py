"""Rule sets: what a law or a standard asks of rope, drum and sheaves.

In:    the name of a rule set; the rope's kind.
Out:   a figure with its source, None where the rule set has none on file.
Never: a figure of the maker (the book's goes before a rule set), choosing the rule set.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from becket.settings.tables import read_table

_COLUMNS = ("rules", "item", "applies", "value", "unit", "source", "status")


@dataclass(frozen=True, kw_only=True)
class RuleFigure:
    """One figure of a rule set. ``is_from_memory``: no stored copy showed it; say so where it is shown."""

    value: float  # [-], [m] or rope diameters, as the reader says
    source: str
    is_from_memory: bool

    @property
    def cited(self) -> str:
        """The source as it is printed."""
        return self.source + (" (from memory: check the current text)" if self.is_from_memory else "")


@dataclass(frozen=True, kw_only=True)
class RuleRow:
    """One row of the table."""

    rules: str
    item: str
    applies: str
    value: float
    unit: str
    source: str
    status: str


@cache
def rule_rows() -> tuple[RuleRow, ...]:
    """Return every row of the shipped table."""
    rows = read_table("rule_sets.csv", _COLUMNS)
    return tuple(RuleRow(**{**row, "value": float(row["value"])}) for row in rows)  # type: ignore[arg-type]


@cache
def rule_names() -> tuple[str, ...]:
    """Return the names of the rule sets, as a settings file names them [-]."""
    return tuple(dict.fromkeys(row.rules for row in rule_rows()))


def design_factor_wanted(rules: str, rotation_resistant: bool | None, rope_type: str | None) -> RuleFigure | None:
    """Return the design factor wanted for a hoist rope; None where the rule set does not say it for this rope [-].

    Args:
        rules: name of the rule set [-]
        rotation_resistant: whether the rope is; None is not on file
        rope_type: "I", "II", "III" of 29 CFR 1926.1414(e)(1); None is not on file

    Source: docs/theory/rope.md, design factor.

    >>> design_factor_wanted("29 CFR 1926 Subpart CC", True, "II").value
    5.0
    >>> design_factor_wanted("29 CFR 1926 Subpart CC", None, None) is None
    True
    """
    if rotation_resistant is None:
        return None
    kind = "rotation resistant" if rotation_resistant else "not rotation resistant"
    by_type = _figure(rules, "design_factor", f"{kind} type {rope_type}") if rotation_resistant else None
    return by_type or _figure(rules, "design_factor", kind)


def design_factor_least(rules: str, rotation_resistant: bool | None) -> RuleFigure | None:
    """Return the design factor under which the rule set allows no lift at all [-]."""
    return _figure(rules, "design_factor_least", "rotation resistant") if rotation_resistant else None


def least_wraps(rules: str) -> RuleFigure | None:
    """Return the turns that must stay on the drum [-].

    >>> least_wraps("Alberta OHS Code").value
    5.0
    """
    return _figure(rules, "least_wraps", "")


def flange_freeboard(rules: str, rope_diameter: float) -> RuleFigure | None:
    """Return the height of the flange over the outer layer that the rule set asks for [m].

    Args:
        rules: name of the rule set [-]
        rope_diameter: nominal [m]

    >>> flange_freeboard("ASME B30.5-2018", 0.016).value
    0.013
    """
    share = _figure(rules, "flange_freeboard", "rope diameters")
    least = _figure(rules, "flange_freeboard", "least")
    heights = [
        RuleFigure(value=figure.value * size, source=figure.source, is_from_memory=figure.is_from_memory)
        for figure, size in ((share, rope_diameter), (least, 1.0))
        if figure is not None
    ]
    return max(heights, key=lambda figure: figure.value, default=None)


def greatest_flange_freeboard(rope_diameter: float) -> RuleFigure:
    """Return the greatest flange freeboard of any rule set on file [m].

    Args:
        rope_diameter: nominal [m]

    >>> greatest_flange_freeboard(0.016).value
    0.032
    """
    every = [flange_freeboard(rules, rope_diameter) for rules in rule_names()]
    return max((one for one in every if one is not None), key=lambda figure: figure.value)


def drum_ratio(rules: str) -> RuleFigure | None:
    """Return the least drum diameter in rope diameters [-]."""
    return _figure(rules, "drum_ratio", "")


def head_sheave_ratio(rules: str) -> RuleFigure | None:
    """Return the least diameter of a head sheave in rope diameters [-]."""
    return _figure(rules, "head_sheave_ratio", "")


def block_sheave_ratio(rules: str) -> RuleFigure | None:
    """Return the least diameter of a block sheave in rope diameters [-]."""
    return _figure(rules, "block_sheave_ratio", "")


def _figure(rules: str, item: str, applies: str) -> RuleFigure | None:
    for row in rule_rows():
        if (row.rules, row.item, row.applies) == (rules, item, applies):
            return RuleFigure(value=row.value, source=row.source, is_from_memory=row.status != "SEEN")
    return None
