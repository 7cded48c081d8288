"""Limits of the hook block."""

from __future__ import annotations

from becket.verdict import Verdict
from tests.limits.asking import book_with, limit


def test_the_block_carries_load_and_rigging() -> None:
    found = limit("block_rating")
    assert (found.verdict, found.need, found.have, found.unit) == (Verdict.PASS, 8700.0, 40_000.0, "kg")
    assert found.why == (
        "The hook carries 8.70 t, load and rigging; the block main is rated 40.00 t. Worst place: at the hook, "
        "everywhere."
    )


def test_the_block_fails_over_its_rating() -> None:
    found = limit("block_rating", book=book_with(block={"rated": 8699.0}))
    assert found.verdict is Verdict.FAIL
    assert "8.70 t" in found.why
    assert "8.69 t" in found.why  # rounded down


def test_at_its_rating_it_passes() -> None:
    found = limit("block_rating", book=book_with(block={"rated": 8700.0}))
    assert (found.verdict, found.use) == (Verdict.PASS, 1.0)


def test_sheaves_are_counted() -> None:
    assert limit("block_sheaves", 11).verdict is Verdict.PASS
    found = limit("block_sheaves", 12)
    assert found.verdict is Verdict.FAIL
    assert found.why == "12 falls: sheaves needed on the block 6; the block main has 5."
    assert (found.need, found.have, found.use) == (6, 5, None)


def test_a_ball_has_no_sheaves() -> None:
    assert limit("block_sheaves", 1, block="ball").verdict is Verdict.PASS
    assert limit("block_sheaves", 2, block="ball").verdict is Verdict.FAIL
