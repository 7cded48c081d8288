"""The words of a drawing: whose left it is, what solid means, the path."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.drawing.layout import lay_out
from becket.drawing.words import dead_end_words, describe_path, legend_lines, seen_from
from tests.drawing.tackles import tackle


@pytest.mark.parametrize(
    ("dead_end", "view", "said"),
    [
        ("head left", "cab", "head, left"),
        ("head left", "rigger", "head, cab\u2019s left"),
        ("head Right", "rigger", "head, cab\u2019s Right"),
        ("head b", "rigger", "head, b"),
        ("block", "rigger", "block"),
    ],
)
def test_whose_left(dead_end: str, view: str, said: str) -> None:
    """Facing the cab, the book's left is at the right hand: it gets its owner."""
    assert dead_end_words(replace(tackle(4).pattern, dead_end=dead_end), view) == said


def test_legend() -> None:
    """Solid is the side that faces the one who looks."""
    one = tackle(3)
    assert legend_lines(lay_out(one.book, one.pattern, "cab"))[0] == "Solid: cab side. Dashes: tip side."
    assert legend_lines(lay_out(one.book, one.pattern, "rigger"))[0] == "Solid: tip side. Dashes: cab side."
    unknown = tackle(3, lead=None)
    assert legend_lines(lay_out(unknown.book, unknown.pattern, "cab")) == ("Side not in the book.", "Dead end: block.")
    stretched = replace(lay_out(one.book, one.pattern, "cab"), is_to_scale=False)
    assert legend_lines(stretched)[-1] == "Sideways not to scale."


def test_the_path_in_words() -> None:
    one = tackle(1, has_keepers=False)
    assert describe_path(one.book, one.pattern, "cab") == (
        "Rope from the drum; over head 1, fall 1 down, tip side. Dead end: block. No keepers on file."
    )
    assert [seen_from(view) for view in ("cab", "rigger")] == ["Seen from the cab", "You face the cab"]
