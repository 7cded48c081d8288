"""Pictures as they stand on a card.

In:    pictures as records.
Out:   SVG text, words for those who listen, a height on paper.
Never: drawing.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.cards.typesetting import FONT
from becket.drawing.front import draw_pattern
from becket.drawing.picture import Picture
from becket.drawing.svg import as_svg

PAPER_WIDTH = 190.0  # of an A4 card between its margins [mm]
GUTTER = 5.0  # between two pictures side by side [mm]
LEAST_SCALE = 0.185  # mm a pixel: the words of a picture are then as high as the text beside it


@dataclass(frozen=True, kw_only=True)
class Views:
    """The views of a pattern on a card, side by side or one above the other."""

    pictures: list[dict[str, object]]
    columns: int


def on_card(picture: Picture, width: float) -> dict[str, object]:
    """Return a picture for a template, as large as its place is wide; the template may make it smaller [mm].

    Args:
        picture: records
        width: of its place [mm]
    """
    scale = width / picture.width
    return {
        "svg": as_svg(picture, font=FONT),
        "alt": f"{picture.title}. {picture.description}",
        "height": round(scale * picture.height, 2),
        "width": round(scale * picture.width, 2),
    }


def pattern_views(book: Book, pattern: Pattern, *, confirmed: bool) -> Views:
    """Return both views of a pattern, side by side where their words stay large enough to be read [-].

    Args:
        book: the crane
        pattern: of the book
        confirmed: by a second person, as it stands
    """
    drawn = [draw_pattern(book, pattern, view=view, is_confirmed=confirmed) for view in ("cab", "rigger")]
    half = (PAPER_WIDTH - GUTTER) / 2
    beside = [on_card(picture, half) for picture in drawn]
    if all(half / picture.width >= LEAST_SCALE for picture in drawn):
        return Views(pictures=beside, columns=2)
    return Views(pictures=[on_card(picture, PAPER_WIDTH) for picture in drawn], columns=1)
