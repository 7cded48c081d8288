"""Boom lengths named in other units, or not there at all."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from becket.book.boom import BoomLength
from becket.intake.boom_lengths import SAME_LENGTH, BoomLengths

LENGTH = st.floats(min_value=1.0, max_value=100.0)


def lengths_of(*lengths: float) -> BoomLengths:
    """Return boom lengths with a code each."""
    return BoomLengths(BoomLength(length=one, code=str(n), sections=(0.0,)) for n, one in enumerate(lengths))


@settings(derandomize=True, deadline=None, max_examples=300)
@given(lengths=st.lists(LENGTH, min_size=1, max_size=9), asked=LENGTH)
def test_the_nearest_is_that_of_a_plain_search(lengths: list[float], asked: float) -> None:
    near = lengths_of(*lengths).nearest(asked)
    assert near is not None
    assert abs(near - asked) == min(abs(one - asked) for one in lengths)
    same = lengths_of(*lengths).same(asked)
    assert (same is None) == (abs(near - asked) > SAME_LENGTH)


def test_a_length_between_two_is_none_of_them() -> None:
    boom = lengths_of(18.4, 26.2)
    assert boom.same(22.0) is None
    assert boom.snapped(22.0) == 22.0
    assert boom.snapped(18.40004) == 18.4
    assert BoomLengths([]).nearest(5.0) is None


def test_two_codes_of_one_length_are_both_kept() -> None:
    assert lengths_of(18.4, 18.4).codes == {18.4: ["0", "1"]}
