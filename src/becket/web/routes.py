"""Every address of the server, in one list.

In:    the modules of the pages, each with its ``ROUTES``.
Out:   one table of routes.
Never: a handler.
"""

from __future__ import annotations

from starlette.routing import Route

from becket.web.pages import (
    account,
    accounts,
    api,
    change,
    confirm,
    falls,
    files,
    link,
    now,
    pages,
    pattern,
    photo,
    record,
    run,
    settings,
    sign_in,
    static,
    trouble,
    week,
    who,
    worker,
)

ENTRANCE = (sign_in, account, accounts)  # of a shared server
PAGES = (now, week, falls, pattern, confirm, change, run, record, trouble, pages, who, settings, files, link)
PROGRAMS = (api, photo, static, worker)  # asked for by the pages' own code


def routes() -> list[Route]:
    """Return every route [-]."""
    return [route for module in (*PAGES, *ENTRANCE, *PROGRAMS) for route in module.ROUTES]
