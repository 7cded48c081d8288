"""Limits of the boom head."""

from __future__ import annotations

import pytest

from becket.verdict import Verdict
from tests.limits.asking import book_with, limit


def test_head_sheaves_are_counted() -> None:
    assert limit("head_sheaves", 12).verdict is Verdict.PASS
    found = limit("head_sheaves", 13)
    assert found.verdict is Verdict.FAIL
    assert found.why == "13 falls: sheaves needed at the head 7; it has 6."


def test_the_hook_stays_clear_of_the_switch() -> None:
    found = limit("head_clearance")
    assert found.verdict is Verdict.PASS
    assert found.need == pytest.approx(1.4)
    assert found.why == (
        "Between head shaft and block shaft stay 11.58 m; 1.40 m are asked, trip distance of the hoist limit switch "
        "and margin. Worst place: highest hook, flattest boom, head lower by its sag."
    )


def test_the_hook_too_high_fails() -> None:
    have = limit("head_clearance", top=0.0).have
    assert have is not None
    assert limit("head_clearance", top=have - 1.4 - 1e-6).verdict is Verdict.PASS
    assert limit("head_clearance", top=have - 1.4 + 1e-6).verdict is Verdict.FAIL


def test_the_greatest_radius_is_the_worst_place() -> None:
    narrow, wide = limit("head_clearance", radius=(5.0, 5.0)), limit("head_clearance", radius=(5.0, 9.0))
    assert narrow.have is not None
    assert wide.have is not None
    assert wide.have < narrow.have


def test_the_sag_lowers_the_head_by_all_of_it() -> None:
    straight = limit("head_clearance", book=book_with(boom={"sag": {17.0: 0.0}})).have
    sagged = limit("head_clearance", book=book_with(boom={"sag": {17.0: 0.5}})).have
    assert straight is not None
    assert sagged is not None
    assert straight - sagged == pytest.approx(0.5)


def test_the_sag_of_another_boom_length_is_not_taken() -> None:
    assert limit("head_clearance", book=book_with(boom={"sag": {9.8: 0.01}})).verdict is Verdict.UNKNOWN
    assert limit("head_clearance", book=book_with(boom={"sag": {24.2: 0.10}})).verdict is Verdict.UNKNOWN


def test_a_hook_above_the_head_fails() -> None:
    found = limit("head_clearance", top=30.0)
    assert (found.verdict, found.use) == (Verdict.FAIL, None)
    for name in ("fleet_angle", "pattern"):
        assert limit(name, top=30.0).verdict is Verdict.FAIL
