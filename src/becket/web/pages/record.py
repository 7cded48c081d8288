"""``/c/ID/record``: the records of a crane. ``/c/ID/record/RUN``: one record; ``.pdf``: on paper; ``/window.pdf``.

In:    a crane, the id of a run.
Out:   pages and PDF.
Never: an edit; a blind entry before its time; a window card before both have signed.
"""

from __future__ import annotations

from datetime import date
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.cards.record_card import record_card
from becket.cards.window_card import window_card
from becket.reeving.words import read_state
from becket.web.asker import house_of
from becket.web.house import House
from becket.web.present.record import list_row, tell_record
from becket.web.present.record_kept import RunKept
from becket.web.run_records import book_of, record_of, records_of, signed_of
from becket.web.templates import Templates, look_of, render


def record_list(request: Request) -> Response:
    """Return the list of the records of a crane."""
    house, templates = _parts(request)
    crane = house.crane(request.path_params["crane"])
    runs = records_of(house, crane.id, templates.words.word)
    rows = [list_row(name, run) for name, run in runs.items()]
    return render(request, "record_list.html", page="record", crane=crane, runs=rows)


def record(request: Request) -> Response:
    """Return one record."""
    house, _ = _parts(request)
    crane = house.crane(request.path_params["crane"])
    run = _run(request)
    told = tell_record(request.path_params["run"], run)
    window = f"/c/{crane.id}/record/{told.run}/window.pdf" if run.state.result else None
    return render(request, "record.html", page="record", crane=crane, told=told, window_url=window)


def record_pdf(request: Request) -> Response:
    """Return one record on paper."""
    told = tell_record(request.path_params["run"], _run(request))
    return _pdf(record_card(told, printed=date.today().isoformat()), f"record-{told.run}")


def window_pdf(request: Request) -> Response:
    """Return the window card of what was signed."""
    house, _ = _parts(request)
    crane = house.crane(request.path_params["crane"])
    run = _run(request)
    signed = signed_of(run)
    book = book_of(house, crane, run.script.book)
    block = read_state(str(run.state.result)).block
    system = look_of(request)["units"]
    made = window_card(book, crane.settings, block, printed=date.today().isoformat(), system=system, signed=signed)
    return _pdf(made, f"window-{request.path_params['run']}")


def _parts(request: Request) -> tuple[House, Templates]:
    return house_of(request), request.app.state.templates


def _run(request: Request) -> RunKept:
    house, templates = _parts(request)
    crane = house.crane(request.path_params["crane"])
    return record_of(house, crane.id, request.path_params["run"], templates.words.word)


def _pdf(made: bytes, name: str) -> Response:
    headers = {"content-disposition": f'inline; filename="{name}.pdf"', "cache-control": "no-store"}
    return Response(made, media_type="application/pdf", headers=headers)


ROUTES: Final = (
    Route("/c/{crane}/record", record_list),
    Route("/c/{crane}/record/{run}.pdf", record_pdf),
    Route("/c/{crane}/record/{run}/window.pdf", window_pdf),
    Route("/c/{crane}/record/{run}", record),
)
