"""Pictures on a card."""

from __future__ import annotations

from xml.etree import ElementTree

from becket.cards.pictures import PAPER_WIDTH, on_card, pattern_views
from becket.drawing.front import draw_pattern
from tests.cards.hard_books import sixteen_falls
from tests.crane import invented_book


def test_both_views_stand_side_by_side_at_one_scale_within_the_page() -> None:
    for book in (invented_book(), sixteen_falls()):
        for pattern in book.patterns:
            views = pattern_views(book, pattern, confirmed=True)
            drawn = [draw_pattern(book, pattern, view=view, is_confirmed=True) for view in ("cab", "rigger")]
            assert len(views.pictures) == 2
            across = sum(float(str(one["width"])) for one in views.pictures)
            assert across <= PAPER_WIDTH or views.columns == 1
            for one, picture in zip(views.pictures, drawn, strict=True):
                assert one["alt"] == f"{picture.title}. {picture.description}"
                assert abs(float(str(one["height"])) - views.scale * picture.height) < 0.01


def test_a_picture_keeps_its_shape_and_takes_the_font_of_the_card() -> None:
    book = invented_book()
    picture = draw_pattern(book, book.patterns[0], is_confirmed=False)
    placed = on_card(picture, 80.0)
    assert placed["width"] == 80.0
    assert abs(float(str(placed["height"])) / 80.0 - picture.height / picture.width) < 1e-3
    root = ElementTree.fromstring(str(placed["svg"]))
    assert root.attrib["font-family"] == "Roboto"
