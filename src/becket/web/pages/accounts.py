"""``/accounts``: who has an account. ``/accounts/ID``: one of them, to be changed. For administrators.

In:    a name, a role, cranes; what is to be done with an account.
Out:   two pages; an invitation, shown once.
Never: a password; a change of the own account.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from becket.errors import RefusedError
from becket.web.account import Account, Rights
from becket.web.asker import account_of, entrance_of, house_of
from becket.web.entrance import Entrance
from becket.web.guard import said
from becket.web.invitations import DAYS
from becket.web.link_code import link_code
from becket.web.pages.pages import crane_asked
from becket.web.roles import ROLES
from becket.web.templates import here, render

FIELDS: Final = 1100  # a name, a role, cranes


async def accounts(request: Request) -> Response:
    """Return the list, after inviting somebody where that is asked for."""
    entrance, by = entrance_of(request), account_of(request)
    if entrance is None or by is None:
        return said(request, 404, "not_shared")
    if request.method != "POST":
        return await run_in_threadpool(_list, request, entrance)
    form = await request.form(max_files=0, max_fields=FIELDS)
    return await run_in_threadpool(_invite, request, entrance, by, form)


async def one(request: Request) -> Response:
    """Return one account, after changing it where that is asked for."""
    entrance, by = entrance_of(request), account_of(request)
    if entrance is None or by is None:
        return said(request, 404, "not_shared")
    account = await run_in_threadpool(entrance.accounts.one, request.path_params["account"])
    if request.method != "POST":
        return _one(request, entrance, account)
    form = await request.form(max_files=0, max_fields=FIELDS)
    return await run_in_threadpool(_done, request, entrance, account, form)


def _invite(request: Request, entrance: Entrance, by: Account, form: FormData) -> Response:
    try:
        account = entrance.accounts.add(str(form.get("name", "")), _rights(form), by.name)
    except RefusedError as error:
        return _list(request, entrance, refused=str(error), name=str(form.get("name", "")))
    return _one(request, entrance, account, token=entrance.invitations.make(account, by.name))


def _done(request: Request, entrance: Entrance, account: Account, form: FormData) -> Response:
    by = account_of(request)
    todo = DO.get(str(form.get("do", "")))
    if by is None or todo is None:
        return said(request, 409, "refused", why="The form is not one of this page. Open the page again.")
    if by.id == account.id:
        return _one(request, entrance, account, refused="accounts.fault.own")
    if todo is _renew and account.is_on:
        return _one(request, entrance, account, token=entrance.invitations.make(account, by.name))
    try:
        todo(entrance, account, by.name, form)
    except RefusedError as error:
        return _one(request, entrance, account, why=str(error))
    return RedirectResponse(f"/accounts{here(crane_asked(request))}", status_code=303)


def _change(entrance: Entrance, account: Account, by: str, form: FormData) -> None:
    entrance.accounts.change(account, _rights(form), by)


def _off(entrance: Entrance, account: Account, by: str, form: FormData) -> None:
    entrance.accounts.switch(account, by, is_on=False)


def _on(entrance: Entrance, account: Account, by: str, form: FormData) -> None:
    entrance.accounts.switch(account, by, is_on=True)


def _withdraw(entrance: Entrance, account: Account, by: str, form: FormData) -> None:
    entrance.invitations.withdraw(account, by)


def _renew(entrance: Entrance, account: Account, by: str, form: FormData) -> None:
    raise RefusedError(f"{account.name} is switched off; switch the account on first")


DO: Final[Mapping[str, Callable[[Entrance, Account, str, FormData], None]]] = {
    "change": _change,
    "off": _off,
    "on": _on,
    "withdraw": _withdraw,
    "renew": _renew,
}


def _rights(form: FormData) -> Rights:
    every = form.get("every") == "yes"
    if every and form.getlist("cranes"):
        raise RefusedError("every crane is chosen, and single ones too; take one of the two away")
    chosen = frozenset(str(one)[:64] for one in form.getlist("cranes"))
    return Rights(role=str(form.get("role", "")), cranes=None if every else chosen)


def _list(request: Request, entrance: Entrance, *, refused: str | None = None, name: str = "") -> Response:
    return render(
        request,
        "accounts.html",
        crane=crane_asked(request),
        status=200 if refused is None else 422,
        every=entrance.accounts.all(),
        open_until=entrance.invitations.open(),
        log=entrance.accounts.logged(),
        roles=tuple(ROLES),
        cranes=[(one.id, one.name) for one in house_of(request).cranes()],
        refused=refused,
        name=name,
    )


def _one(
    request: Request,
    entrance: Entrance,
    account: Account,
    *,
    token: str | None = None,
    refused: str | None = None,
    why: str | None = None,
) -> Response:
    word = request.app.state.templates.words.word
    address = None if token is None else str(request.url.replace(path=f"/invited/{token}", query=""))
    known = [(one.id, one.name) for one in house_of(request).cranes()]
    gone = [(name, name) for name in sorted(account.cranes or ()) if name not in dict(known)]
    by = account_of(request)
    return render(
        request,
        "accounts-one.html",
        crane=crane_asked(request),
        status=200 if refused is None and why is None else 422,
        page="accounts-one",
        one=account,
        is_own=by is not None and by.id == account.id,
        address=address,
        code=None if address is None else link_code(address),
        days=DAYS,
        until=entrance.invitations.open().get(account.id),
        roles=tuple(ROLES),
        known=[*known, *gone],
        refused=why if refused is None else word(refused),
    )


ROUTES: Final = (
    Route("/accounts", accounts, methods=["GET", "POST"]),
    Route("/accounts/{account}", one, methods=["GET", "POST"]),
)
