"""``/pages``: the plain list of pages.

In:    the crane that is asked for, or the only one.
Out:   one page, one row a page.
Never: a row that leads nowhere.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.web.asker import account_of, house_of
from becket.web.crane_files import CraneFile
from becket.web.templates import here, render


def pages(request: Request) -> Response:
    """Return the list of pages."""
    crane = crane_asked(request)
    of_crane = (
        (
            *((f"/c/{crane.id}/{name}", f"base.to.{name}") for name in ("falls", "pattern", "change", "record")),
            (f"/c/{crane.id}/trouble", "pages.trouble"),
            (f"/who?crane={crane.id}", "base.to.who"),
            (f"/settings?crane={crane.id}", "base.to.settings"),
        )
        if crane
        else (("/who", "base.to.who"), ("/settings", "base.to.settings"))
    )
    of_firm = tuple(
        (path + here(crane), key)
        for path, key in (("/kept", "pages.kept"), ("/files", "base.to.files"), *_phones(request))
    )
    return render(request, "pages.html", crane=crane, rows=(*of_crane, *of_firm, ("/", "pages.cranes")))


def _phones(request: Request) -> tuple[tuple[str, str], ...]:
    """Return the rows of who gets in: a link, or accounts on a shared server."""
    account = account_of(request)
    if account is None:
        return (("/link", "pages.link"),)
    own = ("/account", "pages.account")
    return (own, ("/accounts", "pages.accounts")) if account.may("accounts") else (own,)


def crane_asked(request: Request) -> CraneFile | None:
    """Return the crane that is asked for, or the only one; None: there are several or none.

    Args:
        request: with ``crane`` in its query, or not

    Raises:
        NotOnFileError: there is no such crane.
    """
    house = house_of(request)
    name = request.query_params.get("crane")
    if name:
        return house.crane(name)
    cranes = house.cranes()
    return cranes[0] if len(cranes) == 1 else None


ROUTES: Final = (Route("/pages", pages),)
