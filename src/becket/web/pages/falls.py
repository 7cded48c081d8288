"""``/c/ID/falls``: which lift. ``/c/ID/falls/N``: how many falls it needs, limit by limit.

In:    the files of a crane.
Out:   two pages.
Never: a row with an unknown limit drawn as pass.
"""

from __future__ import annotations

from datetime import datetime
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.errors import NotOnFileError
from becket.web.asker import house_of
from becket.web.crane_files import CraneFile
from becket.web.house import House
from becket.web.present.contradictions import contradictions_shown
from becket.web.present.falls import lift_figures, list_row, tables_shown
from becket.web.present.lifts import SheetLift, sheet_lifts
from becket.web.templates import Templates, look_of, render


def falls_list(request: Request) -> Response:
    """Return the list of lifts."""
    house = house_of(request)
    templates: Templates = request.app.state.templates
    crane = house.crane(request.path_params["crane"])
    lifts = sheet_lifts(crane.sheet, house.plan(crane))
    book, word = crane.book, templates.words.word
    rows = [list_row(book, crane.settings, one, crane.sheet, word) for one in lifts] if book else []
    told = contradictions_shown(crane.book, crane.settings, look_of(request)["units"])
    return render(request, "falls-list.html", page="falls", crane=crane, lifts=rows, contradictions=told, made=_made())


def falls(request: Request) -> Response:
    """Return the falls table of one lift."""
    house = house_of(request)
    crane, system = house.crane(request.path_params["crane"]), look_of(request)["units"]
    one = _lift(house, crane, request.path_params["number"])
    if crane.book is None:
        raise NotOnFileError(f"the book of {crane.id} cannot be used; {crane.faults[0]}")
    asked = lift_figures(one.lift, system)
    return render(
        request,
        "falls.html",
        page="falls-one",
        crane=crane,
        lift=one.lift,
        tables=tables_shown(crane.book, crane.settings, one, crane.sheet, system) if one.lift.load is not None else (),
        asked=asked,
        boom=dict(asked)["boom"],
        radius=dict(asked)["radius"],
        manual=crane.book.manual_title,
        contradictions=contradictions_shown(crane.book, crane.settings, system),
        made=_made(),
    )


def _lift(house: House, crane: CraneFile, number: str) -> SheetLift:
    lifts = sheet_lifts(crane.sheet, house.plan(crane))
    found = next((one for one in lifts if str(one.number) == number), None)
    if found is None:
        there = f"lifts on file: 1 to {len(lifts)}" if lifts else "no lifts on file"
        raise NotOnFileError(f"lift {number[:20]} of {crane.name}: {there}. Go to Falls and choose one")
    return found


def _made() -> str:
    return datetime.now().astimezone().isoformat(timespec="seconds")


ROUTES: Final = (Route("/c/{crane}/falls", falls_list), Route("/c/{crane}/falls/{number}", falls))
