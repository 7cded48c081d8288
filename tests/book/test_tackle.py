"""States, passes and patterns: how they are written, sorted, told apart."""

from __future__ import annotations

from becket.book.tackle import Pass, Pattern, State


def pattern(block: str, falls: int) -> Pattern:
    """Return a pattern that says nothing but its state."""
    return Pattern(
        block=block, falls=falls, path=(), dead_end="block", page=None, typed=None, confirmed=None, picture=None
    )


def test_a_state_is_written_as_the_block_and_its_falls() -> None:
    assert str(State(block="main", falls=4)) == "main:4"
    assert pattern("main", 4).state == State(block="main", falls=4)


def test_states_sort_by_block_then_by_number_of_falls() -> None:
    states = [State(block="main", falls=10), State(block="ball", falls=1), State(block="main", falls=2)]
    assert [str(one) for one in sorted(states)] == ["ball:1", "main:2", "main:10"]


def test_a_state_may_be_the_key_of_a_table() -> None:
    assert {pattern("main", 4).state: "p. 5-13"}[State(block="main", falls=4)] == "p. 5-13"


def test_a_pass_is_written_as_a_path_names_it() -> None:
    assert str(Pass(place="head", sheave=3)) == "head 3"
    assert Pass(place="head", sheave=3) != Pass(place="block", sheave=3)
