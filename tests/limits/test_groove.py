"""Limit of the rope's diameter in head, block and fitting."""

from __future__ import annotations

from typing import Any

import pytest

from becket.verdict import Verdict
from tests.limits.asking import book_with, limit


def test_one_diameter_everywhere_passes() -> None:
    found = limit("groove")
    assert found.verdict is Verdict.PASS
    assert found.why == "The rope is 16 mm, as head, block and dead-end fitting are made for."


@pytest.mark.parametrize(
    ("part", "words"), [("head", "the head"), ("block", "the block main"), ("dead_end", "the dead-end fitting")]
)
def test_another_diameter_fails(part: str, words: str) -> None:
    changed: dict[str, Any] = {part: {"rope_diameter": 0.017}}
    found = limit("groove", book=book_with(**changed))
    assert found.verdict is Verdict.FAIL
    assert found.why == f"The rope is 16 mm; {words} is made for 17 mm."


def test_one_that_differs_fails_even_where_another_is_missing() -> None:
    book = book_with(head={"rope_diameter": None}, dead_end={"rope_diameter": 0.018})
    assert limit("groove", book=book).verdict is Verdict.FAIL
