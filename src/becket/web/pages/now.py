"""``/``: the only crane's Now, or the list of cranes. ``/c/ID/now``: what is rigged, and what the next lift needs.

In:    the files of a crane, its record.
Out:   two pages.
Never: a number of falls that nobody counted.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Final

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from becket.web.asker import house_of
from becket.web.present.lifts import lifts_before, sheet_ahead
from becket.web.present.now import now_shown
from becket.web.present.rigged import rigged_of
from becket.web.templates import Templates, look_of, render


def home(request: Request) -> Response:
    """Return the only crane's Now, else the list of cranes."""
    house = house_of(request)
    cranes = house.cranes()
    if len(cranes) == 1:
        return RedirectResponse(f"/c/{cranes[0].id}/now", status_code=307)
    return render(request, "cranes.html", cranes=cranes)


def now(request: Request) -> Response:
    """Return the page Now of a crane."""
    house = house_of(request)
    templates: Templates = request.app.state.templates
    crane, moment = house.crane(request.path_params["crane"]), datetime.now().astimezone()
    events = house.events(crane.id)
    rigged = rigged_of(events, house.scripts(events))
    sheet = sheet_ahead(crane.sheet, rigged.state, moment.replace(tzinfo=None)) if crane.sheet else None
    ahead = replace(crane, sheet=sheet)
    before = lifts_before(crane.sheet, sheet) if crane.sheet and sheet else 0
    shown = now_shown(ahead, house.plan(ahead), rigged, templates.words.word, moment, before=before)
    count = house.count_script_for(crane)[0] if shown.kind == "not_known" and shown.has_patterns else None
    return render(
        request,
        "now.html",
        crane=crane,
        now=shown,
        count_script=None if count is None else {"id": count, "url": f"/script/{count}.json"},
        made=moment.isoformat(timespec="seconds"),
        look=look_of(request),
    )


ROUTES: Final = (Route("/", home), Route("/c/{crane}/now", now))
