"""``/c/ID/week``: when to re-reeve, where, and why there.

In:    the files of a crane, its record.
Out:   one page.
Never: money where Settings do not ask for it.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.web.asker import house_of
from becket.web.present.contradictions import contradictions_shown
from becket.web.present.lifts import lifts_before, sheet_ahead
from becket.web.present.rigged import rigged_of
from becket.web.present.trade import state_words
from becket.web.present.week import WeekFacts, week_shown
from becket.web.templates import Templates, look_of, render


def week(request: Request) -> Response:
    """Return the page Week of a crane."""
    house = house_of(request)
    templates: Templates = request.app.state.templates
    crane, moment = house.crane(request.path_params["crane"]), datetime.now().astimezone()
    look, made = look_of(request), moment.isoformat(timespec="seconds")
    if crane.sheet is None or crane.book is None:
        return render(request, "week.html", crane=crane, week=None, made=made)
    events = house.events(crane.id)
    rigged = rigged_of(events, house.scripts(events)).state
    sheet = sheet_ahead(crane.sheet, rigged, moment.replace(tzinfo=None))
    plan = house.plan(replace(crane, sheet=sheet))
    if plan is None:
        return render(request, "week.html", crane=crane, week=None, made=made)
    facts = WeekFacts(
        id=crane.id,
        book=crane.book,
        settings=crane.settings,
        sheet=sheet,
        plan=plan,
        made=made,
        before=lifts_before(crane.sheet, sheet),
        records=house.crew_records(crane),
    )
    said = crane.sheet.rigged
    return render(
        request,
        "week.html",
        crane=crane,
        week=week_shown(facts, templates.words.word, look["units"], look["cost"] == "cost"),
        rigged_differs=(state_words(said), state_words(rigged)) if rigged and said and rigged != said else None,
        is_rigged_known=rigged is not None,
        contradictions=contradictions_shown(crane.book, crane.settings, look["units"]),
        made=made,
    )


ROUTES: Final = (Route("/c/{crane}/week", week),)
