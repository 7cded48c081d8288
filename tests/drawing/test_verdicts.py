"""Verdicts: pass the least ink, FAIL the most, unknown the only hatch; words inside their plates."""

from __future__ import annotations

import pytest
from shapely.geometry import Polygon as Area

from becket.drawing.picture import INK, Polygon, Rect, Shape, Text
from becket.drawing.verdicts import not_known, plate, sign, tag
from becket.verdict import Verdict

BOX = (10.0, 20.0, 140.0, 56.0)


def ink_of(shapes: tuple[Shape, ...]) -> float:
    """Area that is black [px2]."""
    total = 0.0
    for shape in shapes:
        if isinstance(shape, Polygon):
            total += Area(shape.points).area
        if isinstance(shape, Rect):
            total += shape.width * shape.height if shape.ink == INK else 0.0
            share = shape.dash[0] / sum(shape.dash) if shape.dash else 1.0
            total += 2 * (shape.width + shape.height) * shape.stroke * share
    return total


def test_the_heavier_the_verdict_the_more_ink() -> None:
    passed, unknown, failed = (ink_of(plate(BOX, v)) for v in (Verdict.PASS, Verdict.UNKNOWN, Verdict.FAIL))
    assert passed < unknown < failed


@pytest.mark.parametrize("verdict", list(Verdict))
def test_a_tag_holds_its_word(verdict: Verdict) -> None:
    shapes = tag(BOX, verdict)
    word = next(s for s in shapes if isinstance(s, Text) and len(s.text) > 1)
    assert word.text.lower() == str(verdict)
    assert word.box[0] >= BOX[0]
    assert word.box[2] <= BOX[2]
    hatched = [s for s in shapes if isinstance(s, Polygon)]
    assert bool(hatched) is (verdict is Verdict.UNKNOWN)
    assert all(s.box[1] >= word.at[1] for s in hatched)


def test_signs_differ_in_form() -> None:
    assert len({tuple(type(s).__name__ for s in sign((0, 0), v)) for v in Verdict}) == 3


def test_not_known_is_a_question_mark_on_hatch() -> None:
    shapes = not_known((10, 10))
    assert [s.text for s in shapes if isinstance(s, Text)] == ["?"]
    assert isinstance(shapes[-1], Text)
    assert any(isinstance(s, Polygon) for s in shapes)
