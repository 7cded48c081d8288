"""The registry of deeds, and the table of docs/theory/steps.md that shows it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from becket.method.crane_state import Deed
from becket.method.deeds import AUXILIARY, DEEDS, PHASES, SIGNING, kind_of
from becket.method.rules import RULES
from becket.method.step_sentences import WRITTEN
from becket.method.step_words import WORDS

PAGE = (Path(__file__).parents[3] / "docs" / "theory" / "steps.md").read_text("utf-8")
REGISTRY = {**DEEDS, **AUXILIARY, **SIGNING}
WHO = {"operator": "O", "rigger": "R", "both": "O R"}


def rows(heading: str) -> list[list[str]]:
    """Return the cells of the table under a heading of the page [-]."""
    part = PAGE.split(f"## {heading}\n")[1].split("\n## ")[0]
    lines = re.findall(r"^\| `.*\|$", part, re.MULTILINE)
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def test_the_table_of_the_page_holds_the_kinds_of_the_registry_and_who_does_them() -> None:
    shown = {row[0].strip("`"): row[1] for row in rows("Needs and gives")}
    assert len(rows("Needs and gives")) == len(shown)
    assert shown == {kind: WHO[entry.who] for kind, entry in REGISTRY.items()}


def test_the_table_says_motion_and_hands_where_the_registry_does() -> None:
    for kind, who, needs, gives in rows("Needs and gives"):
        posture = REGISTRY[kind.strip("`")].posture
        assert needs.startswith("hands,") is (posture == "hands"), kind
        assert needs.startswith("motion,") is (posture == "motion"), kind
        assert who
        assert gives


def test_the_rules_of_the_page_are_the_rules_that_run() -> None:
    assert [row[0].strip("`") for row in rows("Proof")] == list(RULES)


def test_every_need_belongs_to_a_rule_and_says_what_is_wrong() -> None:
    for kind, entry in REGISTRY.items():
        for need in entry.needs:
            assert need.rule in RULES, kind
            assert len(need.why) > 10, kind
        assert entry.phase in PHASES or (kind in AUXILIARY and not entry.phase)
        assert entry.repeats is (kind in AUXILIARY)


def test_every_kind_has_words_and_nothing_else_has() -> None:
    assert set(WORDS) | set(WRITTEN) == set(REGISTRY)
    assert not set(WORDS) & set(WRITTEN)


def test_whoever_moves_the_crane_is_the_operator_and_hands_are_the_riggers() -> None:
    assert {e.who for e in REGISTRY.values() if e.posture == "motion"} == {"operator", "both"}
    assert "operator" not in {e.who for e in REGISTRY.values() if e.posture == "hands"}


def test_a_kind_that_is_not_in_the_registry_is_a_bug() -> None:
    with pytest.raises(KeyError):
        kind_of(Deed(kind="cut the rope"))
