"""A step of threading: this pass heavy with arrows, the next dotted, the rest absent, every sheave there."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from becket.book.tackle import State
from becket.drawing.front import lay_out_front
from becket.drawing.picture import MARK, SOFT, Picture, Polygon, Polyline, Rect, Text
from becket.drawing.threading import draw_threading, phase_of, step_count, step_words
from becket.errors import OutOfRangeError
from becket.reeving.change import PathChange, path_change
from becket.reeving.pattern import find_pattern
from tests.crane import invented_book
from tests.drawing.tackles import Tackle, faults, tackles

BOOK = invented_book()


def change(before: State, after: State) -> PathChange:
    patterns = find_pattern(BOOK, before), find_pattern(BOOK, after)
    assert patterns[0] is not None
    assert patterns[1] is not None
    return path_change(BOOK, patterns[0], patterns[1])


TWO_TO_FOUR = change(State(block="main", falls=2), State(block="main", falls=4))


def falls_on(picture: Picture) -> dict[int, Polyline]:
    return {
        int(dict(s.facts)["number"]): s
        for s in picture.shapes
        if isinstance(s, Polyline) and dict(s.facts).get("kind") == "fall"
    }


def test_each_step_shows_what_is_on_this_pass_and_the_next() -> None:
    """From two to four falls every pass is new: fall n comes on with pass n + 1, never a later one."""
    assert TWO_TO_FOUR.keep == ()
    assert step_count(TWO_TO_FOUR) == 5
    for step in range(1, 6):
        drawn = falls_on(draw_threading(BOOK, TWO_TO_FOUR, step))
        assert sorted(drawn) == list(range(1, min(step, 4) + 1))
        for fall, rope in drawn.items():
            ink, width = {step: (SOFT, 3.0), step - 1: (MARK, 11.0)}.get(fall, ("ink", 8.0))
            assert (rope.ink, rope.width) == (ink, width)


def test_arrows_point_the_way_the_rope_goes() -> None:
    """Fall 1 is threaded downward, fall 2 upward: the tip of each arrow is ahead of its base."""
    for step, sign in ((2, 1), (3, -1)):
        picture = draw_threading(BOOK, TWO_TO_FOUR, step)
        arrows = [s for s in picture.shapes if isinstance(s, Polygon) and dict(s.facts).get("kind") == "arrow"]
        assert arrows
        assert all(sign * (a.points[0][1] - a.points[1][1]) > 0 for a in arrows)


def test_unthreaded_sheaves_stay_visible_and_this_one_has_a_ring() -> None:
    picture = draw_threading(BOOK, TWO_TO_FOUR, 3)
    boxes = {
        dict(s.facts)["sheave"]: s
        for s in picture.shapes
        if isinstance(s, Rect) and dict(s.facts).get("kind") == "sheave"
    }
    assert len(boxes) == len(BOOK.head.sheaves) + len(BOOK.blocks["main"].sheaves)
    assert boxes["head 4"].outline == MARK
    assert boxes["block 4"].stroke < boxes["head 2"].stroke < boxes["head 4"].stroke


def test_keepers_that_are_out_and_the_dead_end_that_waits_are_dashed() -> None:
    picture = draw_threading(BOOK, TWO_TO_FOUR, 2)
    bars = {
        dict(s.facts)["name"]: s
        for s in picture.shapes
        if isinstance(s, Rect) and dict(s.facts).get("kind") == "keeper"
    }
    assert {name for name, bar in bars.items() if bar.dash} == {k.name for k in TWO_TO_FOUR.keepers}
    wedge = next(s for s in picture.shapes if isinstance(s, Polygon) and dict(s.facts).get("kind") == "dead end")
    assert wedge.dash
    last = draw_threading(BOOK, TWO_TO_FOUR, 5)
    made = next(s for s in last.shapes if isinstance(s, Polygon) and dict(s.facts).get("kind") == "dead end")
    assert (made.ink, made.dash) == (MARK, ())


def test_what_stays_is_on_from_the_first_step() -> None:
    """Two to three falls keep head 3 and block 3: the first step is the third pass."""
    kept = change(State(block="main", falls=2), State(block="main", falls=3))
    picture = draw_threading(BOOK, kept, 1)
    assert (len(kept.keep), step_count(kept)) == (2, 2)
    assert picture.description.startswith(
        "This pass: up from block\u00a03, over head\u00a04, cab side. "
        "On already: head 3, block 3. Still to come: nothing."
    )


def test_the_words_of_every_step() -> None:
    pattern = TWO_TO_FOUR.after
    assert [step_words(pattern, n).replace("\u00a0", " ") for n in range(1, 6)] == [
        "from the drum over head 2",
        "down from head 2, under block 2",
        "up from block 2, over head 4",
        "down from head 4, under block 4",
        "up from block 4 to the dead end",
    ]


def test_a_pattern_that_is_not_confirmed_has_its_bands() -> None:
    five = change(State(block="main", falls=2), State(block="main", falls=5))
    picture = draw_threading(BOOK, five, 1)
    assert sum(isinstance(s, Rect) and dict(s.facts).get("kind") == "band" for s in picture.shapes) == 2


@pytest.mark.parametrize("step", [0, 6])
def test_a_step_that_is_none_is_refused(step: int) -> None:
    with pytest.raises(OutOfRangeError, match=f"step: {step}; 1 to 5 is wanted"):
        draw_threading(BOOK, TWO_TO_FOUR, step)


@given(one=tackles(12), share=st.floats(0, 1))
@settings(derandomize=True, deadline=None, max_examples=25)
def test_nothing_covers_anything(one: Tackle, share: float) -> None:
    """Words and numbers stay off the rope at every step, heavy rope and arrows counted."""
    whole = path_change(one.book, replace(one.pattern, path=one.pattern.path[:1], falls=1), one.pattern)
    step = 1 + round(share * (step_count(whole) - 1))
    assert faults(draw_threading(one.book, whole, step, view="rigger")) == []


def test_a_leg_comes_on_with_its_pass() -> None:
    """The lead line with pass 1, fall n with pass n + 1."""
    legs = lay_out_front(BOOK, TWO_TO_FOUR.after, "cab").legs
    assert [(leg.kind, phase_of(leg)) for leg in legs] == [
        ("lead", 1),
        ("fall", 2),
        ("arc", 2),
        ("fall", 3),
        ("arc", 3),
        ("fall", 4),
        ("arc", 4),
        ("fall", 5),
    ]


def test_the_title_says_the_pass() -> None:
    picture = draw_threading(BOOK, TWO_TO_FOUR, 3, view="cab")
    said = " ".join(s.text for s in picture.shapes if isinstance(s, Text)).replace("\u00a0", " ")
    assert "Seen from the cab main, 4 falls: up from block 2, over head 4" in said
