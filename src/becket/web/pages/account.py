"""``/account``: one's own account on a shared server.

In:    the old password and a new one; a phone to sign out.
Out:   one page.
Never: a password changed without the old one.
"""

from __future__ import annotations

from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from becket.web.account import Account
from becket.web.asker import account_of, entrance_of, house_of
from becket.web.entrance import Entrance
from becket.web.guard import said
from becket.web.pages.pages import crane_asked
from becket.web.pages.sign_in import FIELDS, comes
from becket.web.passwords import LONGEST, SHORTEST
from becket.web.signed_in import COOKIE
from becket.web.templates import here, render


async def account(request: Request) -> Response:
    """Return the page, or do what its form asks for."""
    entrance, who = entrance_of(request), account_of(request)
    if entrance is None or who is None:
        return said(request, 404, "not_shared")
    if request.method != "POST":
        return await run_in_threadpool(_page, request, entrance, who)
    form = await request.form(max_files=0, max_fields=FIELDS)
    return await run_in_threadpool(_done, request, entrance, who, form)


def _done(request: Request, entrance: Entrance, who: Account, form: FormData) -> Response:
    token = request.cookies.get(COOKIE, "")
    wanted = form.get("do")
    if wanted == "password":
        return _password(request, entrance, who, form)
    if wanted == "end":
        entrance.signed_in.end_one(who.id, str(form.get("device", "")))
    if wanted == "end_others":
        entrance.signed_in.end_all(who.id, but=token)
    if wanted == "end_all":
        entrance.signed_in.end_all(who.id)
    return RedirectResponse(f"/account{here(crane_asked(request))}", status_code=303)


def _password(request: Request, entrance: Entrance, who: Account, form: FormData) -> Response:
    old, new, again = (str(form.get(name, "")) for name in ("old", "password", "again"))
    if new != again:
        return _page(request, entrance, who, fault="accounts.fault.unlike")
    token, address = request.cookies.get(COOKIE, ""), comes(request).address
    fault = entrance.change_password(who, old, new, token=token, address=address)
    return _page(request, entrance, who, fault=fault, is_changed=fault is None)


def _page(
    request: Request, entrance: Entrance, who: Account, *, fault: str | None = None, is_changed: bool = False
) -> Response:
    names = [one.name for one in house_of(request).cranes()]
    return render(
        request,
        "account.html",
        crane=crane_asked(request),
        status=200 if fault is None else 422,
        names=None if who.cranes is None else names,
        devices=entrance.signed_in.devices(who.id, request.cookies.get(COOKIE, "")),
        fault=fault,
        is_changed=is_changed,
        shortest=SHORTEST,
        longest=LONGEST,
    )


ROUTES: Final = (Route("/account", account, methods=["GET", "POST"]),)
