"""Things are numbered as they are met, and stretches are told as count and value."""

from __future__ import annotations

from itertools import repeat

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.pack.strings import Numbered, run_lengths


def test_equal_things_have_one_number() -> None:
    numbered = Numbered()
    assert [numbered.number_of(word) for word in ("rope", "hook", "rope")] == [0, 1, 0]
    assert numbered.every == ["rope", "hook"]


@settings(derandomize=True, deadline=None, max_examples=100)
@given(st.lists(st.integers(0, 3)))
def test_a_run_gives_back_what_went_in(values: list[int]) -> None:
    runs = run_lengths(values)
    counted = zip(runs[::2], runs[1::2], strict=True)
    assert [value for count, kept in counted for value in repeat(kept, count)] == values
