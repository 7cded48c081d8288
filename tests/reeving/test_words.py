"""Words of a pattern: read, said back, refused with what would be right."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.book.tackle import Pass, State
from becket.errors import UnreadableTextError
from becket.reeving.words import dead_end_anchor, path_words, read_dead_end, read_path, read_state

PASSES = st.builds(Pass, place=st.sampled_from(["head", "block"]), sheave=st.integers(1, 999))


@given(st.lists(PASSES, min_size=1, max_size=20), st.sampled_from([" ", ", ", ",", "  ,  ", "\t"]))
@settings(derandomize=True, deadline=None, max_examples=100)
def test_path_said_and_read_is_the_same_path(passes: list[Pass], between: str) -> None:
    assert read_path(between.join(str(one) for one in passes)) == tuple(passes)
    assert read_path(path_words(passes)) == tuple(passes)


def test_path_is_said_with_commas() -> None:
    assert path_words(read_path("head 3 block 3 head 5 block 5")) == "head 3, block 3, head 5, block 5"


@pytest.mark.parametrize(
    "text",
    [
        "", "   ", "head", "3 head", "head 03", "head +3", "head 3.0", "head -1", "head 0", "head three", "hed 3",
        "head 3,, block 3", "head, 3", "head 3 block", "head3", "head 3block 3", "head 1000", "head \uff13", ", head 3",
        "head 3; block 3", "head 3 dead end block",
    ],
)  # fmt: skip
def test_what_is_no_path_is_refused(text: str) -> None:
    with pytest.raises(UnreadableTextError, match="a path such as"):
        read_path(text)


def test_refusal_says_where_reading_stopped() -> None:
    with pytest.raises(UnreadableTextError) as refused:
        read_path("head 3, blok 3")
    assert str(refused.value) == (
        'path "head 3, blok 3": cannot read "blok 3"; '
        'a path such as "head 3, block 3, head 5, block 5" is wanted, rope from the drum outward'
    )


def test_state_is_read_and_said() -> None:
    assert read_state(" main:4 ") == State(block="main", falls=4)
    assert read_state("hook: 25 t:10") == State(block="hook: 25 t", falls=10)


@pytest.mark.parametrize("text", ["", "main", "main:", ":4", "main:0", "main:04", "main:+4", "main:4.0", "main:four"])
def test_what_is_no_state_is_refused(text: str) -> None:
    with pytest.raises(UnreadableTextError, match='block and falls such as "main:4" are wanted'):
        read_state(text)


def test_dead_end_has_a_normal_form() -> None:
    assert [read_dead_end(t) for t in ("block", "Block", "dead end block")] == ["block"] * 3
    assert [read_dead_end(t) for t in ("head b", " HEAD  b ", "dead end head b")] == ["head b"] * 3
    assert read_dead_end("head left rear") == "head left rear"
    assert dead_end_anchor("block") is None
    assert dead_end_anchor("head left rear") == "left rear"


@pytest.mark.parametrize("text", ["", "head", "b", "block main", "dead end", "tail"])
def test_what_is_no_dead_end_is_refused(text: str) -> None:
    with pytest.raises(UnreadableTextError, match="with the name of its anchor"):
        read_dead_end(text)


def test_a_letter_of_another_alphabet_is_named_and_a_hard_space_is_a_space() -> None:
    with pytest.raises(UnreadableTextError, match="where the \u0435 is a cyrillic small letter ie; a path such as"):
        read_path("h\u0435ad 2 block 2")
    assert path_words(read_path("head\u00a02,\u00a0block\u00a01")) == "head 2, block 1"
