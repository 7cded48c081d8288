"""Limit of the fleet angle."""

from __future__ import annotations

from math import atan2, hypot, radians

import pytest

from becket.verdict import Verdict
from tests.limits.asking import book_with, head_by_halving, limit


def test_the_drum_decides_here() -> None:
    found = limit("fleet_angle")
    assert found.verdict is Verdict.PASS
    lead = min(hypot(5.0 + 2.9, 15.334658190185226), hypot(7.0 + 2.9, head_by_halving(7.0)[1] - 3.1))
    assert found.need == pytest.approx(atan2(0.24 + 0.165, lead), rel=1e-6)
    assert found.why == (
        "The lead line reaches the drum askew by up to 1.4 deg; permitted are 2.0 deg. Worst place: at the drum, "
        "shortest rope to the head."
    )


def test_the_drum_fails_over_its_limit() -> None:
    assert limit("fleet_angle", book=book_with(fleet={"drum": radians(1.3)})).verdict is Verdict.FAIL


def test_the_highest_hook_is_the_worst_place_at_the_sheaves() -> None:
    narrow = book_with(fleet={"sheave": radians(3.5)})
    low, high = limit("fleet_angle", book=narrow, top=0.0), limit("fleet_angle", book=narrow, top=14.0)
    assert low.where.startswith("at the drum")
    assert high.where.startswith("at head and block, highest hook")
    assert high.verdict is Verdict.FAIL
    # fall 2: block 2 (-0.11) to head 4 (0.055), held in the middle
    clearance = limit("head_clearance", top=14.0).have
    assert clearance is not None
    assert high.need == pytest.approx(atan2(0.165, clearance))
    assert high.why == (
        "A fall reaches its sheave askew by 3.7 deg; permitted are 3.5 deg. Worst place: at head and block, highest "
        "hook, flattest boom."
    )


def test_one_place_that_fails_goes_before_the_other_that_is_unknown() -> None:
    book = book_with(fleet={"drum": None, "sheave": radians(0.1)})
    assert limit("fleet_angle", book=book).verdict is Verdict.FAIL
