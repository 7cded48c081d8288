"""``/c/ID/change``: which change. ``/c/ID/change/FROM/TO``: everything that is read before it begins.

In:    the files of a crane, its record.
Out:   two pages.
Never: a start of a change that does not pass, or that does not begin with what is rigged.
"""

from __future__ import annotations

from datetime import datetime
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.book.tackle import State
from becket.errors import NotOnFileError
from becket.planning.crew_records import records_said
from becket.reeving.words import read_state
from becket.web.asker import house_of
from becket.web.crane_files import CraneFile
from becket.web.house import House
from becket.web.present.change import OptionRow, change_shown, option_row
from becket.web.present.contradictions import contradictions_shown
from becket.web.present.planned import mark_of
from becket.web.present.rigged import Rigged, rigged_of
from becket.web.present.trade import state_words
from becket.web.templates import look_of, render


def change_list(request: Request) -> Response:
    """Return the changes that are possible: from what is rigged, or from every state where that is not known."""
    house = house_of(request)
    crane, system = house.crane(request.path_params["crane"]), look_of(request)["units"]
    rigged = _rigged(house, crane)
    states = [one.state for one in crane.book.patterns] if crane.book else []
    starts = [rigged.state] if rigged.state else states
    groups = [(state_words(start), _options(house, crane, start, states, system)) for start in starts]
    return render(
        request,
        "change-list.html",
        page="change-list",
        crane=crane,
        groups=[(start, rows) for start, rows in groups if rows],
        rigged=rigged.state,
        open_run=rigged.open_run,
        made=_made(),
    )


def change(request: Request) -> Response:
    """Return one change before it begins."""
    house = house_of(request)
    crane, system = house.crane(request.path_params["crane"]), look_of(request)["units"]
    before, after = (_state(crane, request.path_params[name]) for name in ("before", "after"))
    if crane.book is None:
        raise NotOnFileError(f"the book of {crane.id} cannot be used; {crane.faults[0]}")
    own = records_said(crane.settings, house.crew_records(crane).get((before, after), ()))
    made, site = house.change(crane, before, after), house.site(crane, before, after)
    shown = change_shown(crane.book, made, site, system, own)
    script = house.script_for(crane, before, after)
    rigged = _rigged(house, crane)
    return render(
        request,
        "change.html",
        crane=crane,
        change=shown,
        mark=mark_of(site),
        script={"id": script[0], "url": f"/script/{script[0]}.json"} if isinstance(script, tuple) else None,
        why_no_script=None if isinstance(script, tuple) else str(script),
        open_run=rigged.open_run if rigged.open_kind != "count" else None,
        locked=rigged.locked_what is not None,
        rigged_known=rigged.state is not None,
        rigged_is_before=rigged.state == before,
        contradictions=contradictions_shown(crane.book, crane.settings, system),
        made=_made(),
    )


def _options(house: House, crane: CraneFile, start: State, states: list[State], system: str) -> list[OptionRow]:
    rows = [
        option_row(house.change(crane, start, other), house.site(crane, start, other), system)
        for other in states
        if other != start
    ]
    return sorted(rows, key=lambda row: (not row.is_planned, row.verdict != "pass"))


def _rigged(house: House, crane: CraneFile) -> Rigged:
    events = house.events(crane.id)
    return rigged_of(events, house.scripts(events))


def _state(crane: CraneFile, text: str) -> State:
    state = read_state(text)
    if crane.book is not None and state.block not in crane.book.blocks:
        known = ", ".join(crane.book.blocks) or "none"
        raise NotOnFileError(f"block {state.block[:60]} is not in the book of {crane.name}; blocks on file: {known}")
    return state


def _made() -> str:
    return datetime.now().astimezone().isoformat(timespec="seconds")


ROUTES: Final = (Route("/c/{crane}/change", change_list), Route("/c/{crane}/change/{before}/{after}", change))
