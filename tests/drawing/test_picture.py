"""Records of shapes: their boxes hold them, moving keeps their form."""

from __future__ import annotations

import pytest

from becket.drawing.picture import Circle, Polygon, Polyline, Rect, Shape, Text, is_apart, moved

SHAPES: tuple[Shape, ...] = (
    Polyline(points=((0, 0), (10, 5)), width=4),
    Polygon(points=((0, 0), (4, 0), (0, 4)), outline="ink", width=2),
    Rect(x=1, y=2, width=10, height=6, stroke=2),
    Circle(centre=(5, 5), radius=3, stroke=2),
    Text(at=(10, 20), text="head 3", size=20),
)


@pytest.mark.parametrize("shape", SHAPES)
def test_moving_keeps_the_form(shape: Shape) -> None:
    """The box goes with the shape, by the same amount."""
    assert moved(shape, 7, -3).box == pytest.approx([a + b for a, b in zip(shape.box, (7, -3, 7, -3), strict=True)])


def test_boxes_count_the_stroke() -> None:
    assert [shape.box for shape in SHAPES[:4]] == [(-2, -2, 12, 7), (-1, -1, 5, 5), (0, 1, 12, 9), (1, 1, 9, 9)]


def test_a_shape_without_an_outline_has_none_to_count() -> None:
    assert Rect(x=0, y=0, width=4, height=4, outline=None).box == (0, 0, 4, 4)
    assert Circle(centre=(0, 0), radius=2, outline=None).box == (-2, -2, 2, 2)
    assert Polygon(points=((0, 0), (2, 0), (0, 2))).box == (0, 0, 2, 2)


def test_text_grows_from_its_anchor() -> None:
    """The same width whichever end is held."""
    start, middle, end = (Text(at=(100, 20), text="from the drum", anchor=a).box for a in ("start", "middle", "end"))
    width = start[2] - start[0]
    assert (start[0], end[2]) == (100, 100)
    assert (middle[0] + middle[2]) / 2 == pytest.approx(100)
    assert [end[2] - end[0], middle[2] - middle[0]] == pytest.approx([width, width])


def test_apart() -> None:
    assert is_apart((0, 0, 1, 1), (0, 3, 1, 4), 2)
    assert not is_apart((0, 0, 1, 1), (0, 3, 1, 4), 2.1)
