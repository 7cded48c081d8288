"""``/c/ID/pattern/STATE/confirm``: the second person taps in what the page of the manual says.

In:    a crane, a state.
Out:   keys of every sheave and anchor of the crane.
Never: the typed path, a picture of it, a number of passes.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.book.boom import Anchor
from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.errors import NotOnFileError
from becket.reeving.pattern import find_pattern
from becket.reeving.words import read_state
from becket.web.asker import house_of
from becket.web.present.record import state_words
from becket.web.templates import Templates, render


def confirm(request: Request) -> Response:
    """Return the page on which a pattern is read a second time."""
    house = house_of(request)
    templates: Templates = request.app.state.templates
    crane = house.crane(request.path_params["crane"])
    book, pattern = _pattern(crane.book, crane.id, request.path_params["state"])
    block = book.blocks.get(pattern.block)
    label = state_words(str(pattern.state), templates.words.word)
    key = "confirm.title" if pattern.page else "confirm.title_no_page"
    return render(
        request,
        "confirm.html",
        crane=crane,
        state=str(pattern.state),
        label=label,
        title=templates.words.word(key, state=label, page=pattern.page),
        book=crane.fingerprint,
        typist=pattern.typed.by if pattern.typed else "",
        head_rows=brick_rows(book.head.sheaves),
        block_rows=brick_rows(block.sheaves if block else {}),
        anchors=_left_to_right(book.head.anchors),
        pattern_url=f"/c/{crane.id}/pattern/{pattern.state}",
    )


def brick_rows(sheaves: Mapping[int, float]) -> list[list[int]]:
    """Return the sheaves in two rows like bricks, from left to right as seen from the cab [-].

    Args:
        sheaves: number -> sideways offset [m]

    >>> brick_rows({1: -0.2, 2: -0.1, 3: 0.0})
    [[1, 3], [2]]
    """
    ordered = sorted(sheaves, key=lambda number: sheaves[number])
    return [row for row in (ordered[::2], ordered[1::2]) if row]


def _left_to_right(anchors: Mapping[str, Anchor]) -> list[str]:
    return sorted(anchors, key=lambda name: (anchors[name].side or 0.0, name))


def _pattern(book: Book | None, crane: str, state: str) -> tuple[Book, Pattern]:
    if book is None:
        raise NotOnFileError(f"the book of {crane} cannot be used; look at the faults under Files, then read again")
    pattern = find_pattern(book, read_state(state))
    if pattern is None:
        raise NotOnFileError(f"pattern {state} is not on file; type it from the manual first")
    return book, pattern


ROUTES: Final = (Route("/c/{crane}/pattern/{state}/confirm", confirm),)
