"""The counting identity, against a rope that is walked along."""

from __future__ import annotations

import pytest
from hypothesis import given, settings

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.errors import OutOfRangeError
from becket.reeving.counts import block_sheave_count, dead_end_side, head_sheave_count
from tests.reeving.patterns import books_with_pattern


@given(books_with_pattern())
@settings(derandomize=True, deadline=None, max_examples=60)
def test_walking_the_rope_counts_the_same(made: tuple[Book, Pattern]) -> None:
    """From the drum along the rope: each time it passes the level between head and block, that is a fall."""
    _, pattern = made
    level, crossed, seen = "head", 0, {"head": set[int](), "block": set[int]()}
    for one in pattern.path:
        crossed += one.place != level
        level = one.place
        seen[level].add(one.sheave)
    end = "block" if pattern.dead_end == "block" else "head"
    crossed += end != level
    assert crossed == pattern.falls
    assert head_sheave_count(crossed) == len(seen["head"])
    assert block_sheave_count(crossed) == len(seen["block"])
    assert dead_end_side(crossed) == end


def test_dead_end_of_odd_falls_is_at_the_block() -> None:
    """US Army TM 5-3810-305-10: dead end on the block for odd, on the head for even parts."""
    assert [dead_end_side(n) for n in range(1, 7)] == ["block", "head", "block", "head", "block", "head"]


@pytest.mark.parametrize("count", [head_sheave_count, block_sheave_count, dead_end_side])
def test_no_fall_is_refused(count: object) -> None:
    with pytest.raises(OutOfRangeError, match="falls: 0; 1 or more is wanted"):
        count(0)  # type: ignore[operator]
