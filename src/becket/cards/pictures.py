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
PAGE_HEIGHT = 200.0  # of an A4 card between head and foot [mm]
LEAST_SCALE = 0.155  # mm a pixel: the words of a picture, 18 pixels, are then 2.8 mm, the numbers on the rope 4 mm


@dataclass(frozen=True, kw_only=True)
class Views:
    """The views of a pattern on a card, side by side or one above the other."""

    pictures: list[dict[str, object]]
    columns: int
    scale: float  # as large as the page is wide [mm a pixel]


def on_card(picture: Picture, width: float) -> dict[str, object]:
    """Return a picture for a template, as large as its place is wide; the template may make it smaller [mm].

    Args:
        picture: records
        width: of its place [mm]
    """
    return _scaled(picture, width / picture.width)


def pattern_views(book: Book, pattern: Pattern, *, confirmed: bool) -> Views:
    """Return both views of a pattern, side by side where their words stay large enough to be read [-].

    Args:
        book: the crane
        pattern: of the book
        confirmed: by a second person, as it stands
    """
    drawn = [draw_pattern(book, pattern, view=view, is_confirmed=confirmed) for view in ("cab", "rigger")]
    half = (PAPER_WIDTH - GUTTER) / 2
    widest, highest = max(one.width for one in drawn), max(one.height for one in drawn)
    beside = half / widest
    above = min(PAPER_WIDTH / widest, PAGE_HEIGHT / (2 * highest))
    scale, columns = (above, 1) if above > beside else (beside, 2)
    return Views(pictures=[_scaled(one, scale) for one in drawn], columns=columns, scale=scale)


def _scaled(picture: Picture, scale: float) -> dict[str, object]:
    return {
        "svg": as_svg(picture, font=FONT),
        "alt": f"{picture.title}. {picture.description}",
        "height": round(scale * picture.height, 2),
        "width": round(scale * picture.width, 2),
    }
