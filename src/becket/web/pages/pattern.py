"""``/c/ID/pattern``: the states. ``/c/ID/pattern/STATE``: how the rope runs. ``/c/ID/photo/STATE``: the manual's page.

In:    the book of a crane.
Out:   two pages and a photo.
Never: a picture of a pattern that is not on file; a file outside the folder.
"""

from __future__ import annotations

from base64 import b64decode
from datetime import datetime
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.book.crane import Book
from becket.book.tackle import State
from becket.errors import NotOnFileError
from becket.pack.photos import read_photos
from becket.reeving.pattern import check_state, find_pattern
from becket.reeving.words import read_state
from becket.web.asker import house_of
from becket.web.crane_files import CraneFile
from becket.web.present.pattern import pattern_shown, states_listed
from becket.web.present.photos import photos_shown
from becket.web.present.trade import sentence
from becket.web.templates import look_of, render


def pattern_list(request: Request) -> Response:
    """Return the list of states."""
    crane = _crane(request)
    states = states_listed(crane.book) if crane.book else ()
    return render(request, "pattern-list.html", page="pattern-list", crane=crane, states=states, made=_made())


def pattern(request: Request) -> Response:
    """Return one state: its pattern, or what to look for in the manual."""
    crane, look = _crane(request), look_of(request)
    book, state = _book_and_state(request, crane)
    found = find_pattern(book, state)
    shown = pattern_shown(book, crane.settings, found, look["units"], look["view"]) if found else None
    why = None if found else " ".join(one.why for one in check_state(book, crane.settings, state).findings)
    return render(
        request,
        "pattern.html",
        crane=crane,
        state=state,
        pattern=shown,
        why=sentence(why, look["units"]) if why else None,
        manual=book.manual_title,
        issue=book.manual_issue,
        photos=photos_shown(house_of(request).events(crane.id), str(state)),
        made=_made(),
    )


def photo(request: Request) -> Response:
    """Return the photo of the manual's page that a pattern names."""
    crane = _crane(request)
    book, state = _book_and_state(request, crane)
    found = find_pattern(book, state)
    if found is None or found.picture is None:
        raise NotOnFileError(f"pattern {state}: no photo of its page is named in the book")
    kind, _, data = read_photos(book, crane.path.parent)[found.picture].partition(";base64,")
    return Response(b64decode(data), media_type=kind.removeprefix("data:"))


def _crane(request: Request) -> CraneFile:
    house = house_of(request)
    return house.crane(request.path_params["crane"])


def _book_and_state(request: Request, crane: CraneFile) -> tuple[Book, State]:
    if crane.book is None:
        raise NotOnFileError(f"the book of {crane.id} cannot be used; {crane.faults[0]}")
    state = read_state(request.path_params["state"])
    if state.block not in crane.book.blocks:
        known = ", ".join(crane.book.blocks) or "none"
        raise NotOnFileError(f"block {state.block[:60]} is not in the book of {crane.name}; blocks on file: {known}")
    return crane.book, state


def _made() -> str:
    return datetime.now().astimezone().isoformat(timespec="seconds")


ROUTES: Final = (
    Route("/c/{crane}/pattern", pattern_list),
    Route("/c/{crane}/pattern/{state}", pattern),
    Route("/c/{crane}/photo/{state}", photo),
)
