"""US Navy training manual 14251, p. 6, types of tackle (edition and year not on the page seen).

The page shows a tackle of a three-sheave and a two-sheave block, five parts: the rope ends on the lower
block. The general counting identity - even falls: half as many block sheaves, dead end on the head; odd
falls: (N - 1)/2 and dead end on the block; head sheaves N/2 rounded up - stands in any text on tackles.
"""

from __future__ import annotations

import pytest

from becket.reeving.counts import block_sheave_count, dead_end_side, head_sheave_count


def test_three_and_two_sheaves_make_five_parts() -> None:
    """Page 6: three sheaves above, two below, the becket of the dead end on the lower block: five parts."""
    assert (head_sheave_count(5), block_sheave_count(5), dead_end_side(5)) == (3, 2, "block")


def test_equal_blocks_end_at_the_upper() -> None:
    """Page 6: with equal blocks the becket is on the upper one."""
    for sheaves in range(1, 8):
        falls = 2 * sheaves
        assert head_sheave_count(falls) == block_sheave_count(falls) == sheaves
        assert dead_end_side(falls) == "head"


@pytest.mark.parametrize("falls", range(1, 17))
def test_counting_identity(falls: int) -> None:
    """Counted by hand along the rope: the head and block take turns, the rope ends opposite its last sheave."""
    here, heads, blocks = "head", 1, 0  # fall 1 leaves the first head sheave
    for _ in range(falls - 1):
        here = "block" if here == "head" else "head"
        heads, blocks = heads + (here == "head"), blocks + (here == "block")
    assert head_sheave_count(falls) == heads
    assert block_sheave_count(falls) == blocks
    assert dead_end_side(falls) == ("block" if here == "head" else "head")
