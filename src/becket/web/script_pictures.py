"""The pictures of a script: side view, each pass drawn out and threaded, seen from both sides.

In:    a crane book, a change that was worked out.
Out:   name -> SVG, named as the scripts name them.
Never: a picture that a blind item shows.
"""

from __future__ import annotations

from collections.abc import Mapping
from xml.etree import ElementTree as ET

from becket.book.crane import Book
from becket.drawing.draw_out import draw_drawing_out, draw_out_count
from becket.drawing.picture import Picture
from becket.drawing.side import draw_side
from becket.drawing.svg import svg_root
from becket.drawing.threading import draw_threading, step_count
from becket.guide.script import Script
from becket.guide.write_script import VIEWS, change_script
from becket.method.change import Change
from becket.settings.values import Settings
from becket.verdict import Verdict

FONT = "Roboto, sans-serif"


def script_of_change(book: Book, settings: Settings, change: Change, *, crane: str, fingerprint: str) -> Script:
    """Return the script of a change with its pictures [-].

    Args:
        book: the crane
        settings: values of the method
        change: worked out, passing
        crane: its id
        fingerprint: of the book's text as it is kept

    Raises:
        RefusedError: the change does not pass; says why.
    """
    pictures = pictures_of(book, change) if change.verdict is Verdict.PASS else {}
    return change_script(book, settings, change, crane=crane, fingerprint=fingerprint, pictures=pictures)


def pictures_of(book: Book, change: Change) -> Mapping[str, str]:
    """Return every picture of a change's script, name to SVG; without a path there is none [-].

    Args:
        book: the crane
        change: worked out
    """
    path = change.facts.path
    if path is None or change.position is None:
        return {}
    drawn: dict[str, Picture] = {"side": draw_side(book, change)}
    for view in VIEWS:
        for step in range(1, draw_out_count(path) + 1):
            drawn[f"draw-{step}-{view}"] = draw_drawing_out(book, path, step, view=view)
        for step in range(1, step_count(path) + 1):
            drawn[f"thread-{step}-{view}"] = draw_threading(book, path, step, view=view)
    return {name: slim(picture) for name, picture in drawn.items()}


def slim(picture: Picture) -> str:
    """Return a picture as the phone keeps it: its words once, as its label; no facts about single shapes [-].

    Args:
        picture: drawn
    """
    root = svg_root(picture, font=FONT)
    for said_twice in [child for child in root if child.tag in ("title", "desc")]:
        root.remove(said_twice)
    for shape in root:
        for name in [name for name in shape.attrib if name.startswith("data-")]:
            del shape.attrib[name]
    return ET.tostring(root, encoding="unicode").replace(" />", "/>")
