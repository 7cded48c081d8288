"""``/c/ID/trouble``: a wrong reeve, a two-block or a shock locks the crane out; an inspection ends it.

In:    what was entered for a crane.
Out:   a page that can be read without code; entering is the phone's.
Never: a lock-out that ends by itself.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.guide.crane_now import lock_out
from becket.web.asker import house_of
from becket.web.present.trouble import locked_words, trouble_rows
from becket.web.templates import Templates, render


def trouble(request: Request) -> Response:
    """Return the page of trouble and inspection."""
    house = house_of(request)
    templates: Templates = request.app.state.templates
    word = templates.words.word
    crane = house.crane(request.path_params["crane"])
    events = house.events(crane.id)
    locked = lock_out(events)
    return render(
        request,
        "trouble.html",
        crane=crane,
        title=word("trouble.title_locked" if locked else "trouble.title"),
        locked=locked_words(locked, events, word) if locked else None,
        history=trouble_rows(events, word),
    )


ROUTES: Final = (Route("/c/{crane}/trouble", trouble),)
