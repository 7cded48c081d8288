"""``/sign-in``, ``/sign-out``, ``/invited/TOKEN``: how a person gets in on a shared server, and out.

In:    name and password; an invitation and a new password.
Out:   a phone that is signed in, and the page where the person was.
Never: a way on to another server; an entry removed from a phone.
"""

from __future__ import annotations

from typing import Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.routing import Route

from becket.errors import TooOftenError
from becket.web.asker import account_of, entrance_of
from becket.web.entrance import Comes, Entrance
from becket.web.guard import own_path, said
from becket.web.passwords import LONGEST, SHORTEST, why_not_taken
from becket.web.sessions import DAYS
from becket.web.signed_in import COOKIE
from becket.web.templates import render

FIELDS: Final = 10  # of a form
DAY: Final = 86_400  # [s]


async def sign_in(request: Request) -> Response:
    """Return the page, or sign in."""
    entrance = entrance_of(request)
    if entrance is None:
        return said(request, 404, "not_shared")
    if request.method != "POST":
        return _sign_in_page(request, own_path(request.query_params.get("to", "/")))
    form = await request.form(max_files=0, max_fields=FIELDS)
    name, password, to = (str(form.get(key, "")) for key in ("name", "password", "to"))
    try:
        token = await run_in_threadpool(entrance.sign_in, name, password, comes(request))
    except TooOftenError as error:
        answer = _sign_in_page(request, own_path(to), status=429, name=name, fault=str(error))
        answer.headers["retry-after"] = str(error.seconds)
        return answer
    if token is None:
        fault = request.app.state.templates.words.word("accounts.fault.wrong")
        return _sign_in_page(request, own_path(to), status=403, name=name, fault=fault)
    return await run_in_threadpool(in_with, request, entrance, token, own_path(to))


async def sign_out(request: Request) -> Response:
    """Sign this phone out; what it keeps stays on it."""
    entrance = entrance_of(request)
    if entrance is None:
        return said(request, 404, "not_shared")
    await run_in_threadpool(entrance.signed_in.end, request.cookies.get(COOKIE, ""))
    answer = RedirectResponse("/sign-in", status_code=303)
    answer.delete_cookie(COOKIE, path="/", httponly=True, samesite="strict")
    return answer


async def invited(request: Request) -> Response:
    """Return the page on which an invited person chooses a password, or keep it."""
    entrance = entrance_of(request)
    if entrance is None:
        return said(request, 404, "not_shared")
    token = request.path_params["token"]
    account = await run_in_threadpool(entrance.invited, token, comes(request).address)
    if account is None:
        return said(request, 403, "invitation_used")
    if request.method != "POST":
        return _invited_page(request, account.name, None)
    form = await request.form(max_files=0, max_fields=FIELDS)
    password = str(form.get("password", ""))
    fault = why_not_taken(password, account.name)
    if fault is None and password != str(form.get("again", "")):
        fault = "accounts.fault.unlike"
    if fault is not None:
        return _invited_page(request, account.name, fault)
    session = await run_in_threadpool(entrance.accept, token, password, comes(request))
    if session is None:
        return said(request, 403, "invitation_used")
    return await run_in_threadpool(in_with, request, entrance, session, "/")


def in_with(request: Request, entrance: Entrance, token: str, onward: str) -> Response:
    """Return the answer that signs this phone in; whoever was signed in on it before is no more [-].

    Args:
        request: that brought name and password
        entrance: of the server
        token: of the phone from now on
        onward: own address to go on to
    """
    entrance.signed_in.end(request.cookies.get(COOKIE, ""))
    answer = RedirectResponse(onward, status_code=303)
    is_https = request.url.scheme == "https"
    answer.set_cookie(COOKIE, token, max_age=DAYS * DAY, httponly=True, samesite="strict", secure=is_https, path="/")
    return answer


def comes(request: Request) -> Comes:
    """Return from where a request comes [-].

    Args:
        request: of a person
    """
    address = request.client.host if request.client is not None else ""
    return Comes(address=address, device=request.headers.get("user-agent", ""))


def _sign_in_page(
    request: Request, onward: str, *, status: int = 200, name: str = "", fault: str | None = None
) -> Response:
    who = account_of(request)
    shown = name or (who.name if who else "")
    return render(request, "sign-in.html", status=status, page="sign-in", onward=onward, name=shown[:100], fault=fault)


def _invited_page(request: Request, name: str, fault: str | None) -> Response:
    status = 200 if fault is None else 422
    bounds = {"shortest": SHORTEST, "longest": LONGEST}
    return render(request, "invited.html", status=status, page="invited", name=name, fault=fault, **bounds)


ROUTES: Final = (
    Route("/sign-in", sign_in, methods=["GET", "POST"]),
    Route("/sign-out", sign_out, methods=["POST"]),
    Route("/invited/{token}", invited, methods=["GET", "POST"]),
)
