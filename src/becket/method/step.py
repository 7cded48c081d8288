"""One printed step of a method, and the answer of one rule.

In:    who, what, what to look for; a verdict.
Out:   frozen records.
Never: deciding an order, judging.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class Step:
    """One step as a person reads it."""

    number: int
    who: str
    phase: str
    do: str
    look_for: str | None = None
    value_asked: str | None = None  # what is entered
    blind: bool = False  # entered alone, hidden from the other
    compares: str | None = None  # entries with the same word here are compared by the machine


@dataclass(frozen=True, kw_only=True)
class RuleAnswer:
    """One rule of the method, walked over the steps. ``step``: the first that breaks it."""

    name: str
    verdict: Verdict
    step: int | None
    why: str = ""
