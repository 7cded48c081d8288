"""The list of limits, and lifts that another rule book governs."""

from __future__ import annotations

import pytest

from becket.limits.registry import LIMITS, OTHER_RULE_BOOKS, SAME_FOR_ALL_FALLS
from becket.verdict import Verdict
from tests.limits.asking import row

NAMES = [
    *("lead_line_pull", "rope_strength", "dead_end", "makers_table", "block_rating", "block_sheaves", "groove"),
    *("head_sheaves", "pattern", "rope_length", "wraps", "overhaul", "twist", "fleet_angle", "tilt"),
    *("head_clearance", "chart"),
]


def test_the_names_and_their_order() -> None:
    assert list(LIMITS) == NAMES
    assert [limit.name for limit in row().limits] == NAMES


@pytest.mark.parametrize("kind", [*OTHER_RULE_BOOKS, "something else"])
def test_another_rule_book_makes_every_limit_unknown(kind: str) -> None:
    answer = row(kind=kind)
    assert answer.verdict is Verdict.UNKNOWN
    assert [limit.name for limit in answer.limits] == NAMES
    for limit in answer.limits:
        assert limit.verdict is Verdict.UNKNOWN
        assert limit.why.endswith("another rule book governs it; main-boom figures would mislead, so none are given.")
        assert (limit.use, limit.have, limit.need) == (None, None, None)
    assert (answer.hook_speed, answer.lead_line_pull, answer.rope_needed, answer.layer) == (None, None, None, None)


def test_persons_on_the_hook_are_named() -> None:
    assert row(kind="persons").limits[0].why.startswith("Persons on the hook: another rule book")


@pytest.mark.parametrize("name", SAME_FOR_ALL_FALLS)
def test_what_is_the_same_for_all_falls_is(name: str) -> None:
    assert row(2).limit(name) == row(6).limit(name)


def test_units_are_si() -> None:
    assert {limit.unit for limit in row().limits} <= {"N", "kg", "m", "rad", "-", ""}
