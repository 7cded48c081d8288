"""Title above, legend below, bands around: everything inside, shapes where they were put."""

from __future__ import annotations

import pytest

from becket.drawing.frame import framed, lines
from becket.drawing.picture import Picture, Polyline, Text
from tests.drawing.tackles import LONG_NAME, faults

ROPE = Polyline(points=((100, -30), (100, 70)), width=8, facts=(("kind", "fall"), ("number", "1")))


def made(*, is_confirmed: bool) -> Picture:
    title = ("Seen from the cab", LONG_NAME)
    return framed((ROPE,), 100, title, "words", (LONG_NAME,), width=360, is_confirmed=is_confirmed, top=-30)


@pytest.mark.parametrize("is_confirmed", [True, False])
def test_words_stay_off_the_shapes(is_confirmed: bool) -> None:
    """The title ends above the shapes, the legend begins under them, whatever the length of a name."""
    picture = made(is_confirmed=is_confirmed)
    rope = next(s for s in picture.shapes if isinstance(s, Polyline))
    assert rope.points[1][1] - rope.points[0][1] == 100
    for text in (s for s in picture.shapes if isinstance(s, Text)):
        assert text.box[3] <= rope.points[0][1] or text.box[1] >= rope.points[1][1]
    assert faults(picture) == []


def test_only_what_is_not_confirmed_says_so() -> None:
    assert made(is_confirmed=True).title == f"{LONG_NAME}. Seen from the cab"
    assert made(is_confirmed=False).title.endswith("Not confirmed against the manual")
    assert made(is_confirmed=False).height > made(is_confirmed=True).height


def test_lines_end_where_the_next_may_begin() -> None:
    texts, end = lines(("one", "two"), 10, 360, size=20)
    assert [text.at[1] for text in texts] == [30, 56]
    assert end == 62
