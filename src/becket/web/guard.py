"""Who gets in, and which writes are this server's own pages'.

In:    a request.
Out:   the same request, or a refusal in words.
Never: a page without a session; a write that another site's page sent.
"""

from __future__ import annotations

import re
from typing import Final
from urllib.parse import urlsplit

from starlette.requests import Request
from starlette.responses import JSONResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from becket.errors import BecketError
from becket.web.addresses import ways_of
from becket.web.entrance import Entrance
from becket.web.sessions import COOKIE, Sessions
from becket.web.shared_guard import Refusal, shared_refusal
from becket.web.templates import render

OPEN: Final = ("/open/", "/static/")  # no session needed: nothing of any crane is in them
OPEN_FILES: Final = ("/sw.js", "/favicon.ico", "/manifest.webmanifest")
READS: Final = ("GET", "HEAD")
FORM: Final = "multipart/form-data"
JSON: Final = "application/json"
JPEG: Final = "image/jpeg"  # a piece of a photo
PHOTO: Final = "/api/photo/"
ONWARD: Final = {"invitation_used": ("/sign-in", "said.go_sign_in")}  # where a message leads; else to the first page
_OWN_PATH: Final = re.compile(r"/(?:[A-Za-z0-9_.~:%-][A-Za-z0-9_.~:%/-]*)?(?:\?[A-Za-z0-9_.~:%&=+-]*)?")
_NOT_ONWARD: Final = ("/sign-", "/invited/", "/api/", "/script/")  # no pages to go on to


class Guard:
    """Lets a request through that has a session; a write besides only from one of our own pages."""

    def __init__(self, app: ASGIApp, sessions: Sessions, entrance: Entrance | None = None) -> None:
        self.app, self.sessions, self.entrance = app, sessions, entrance

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, or answer it here."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        request = Request(scope, receive)
        try:
            answer = self._refusal(request)
        except OSError as error:  # the file of the sessions or accounts: nobody gets in meanwhile
            answer = cannot_keep(request, error)
        await (answer or self.app)(scope, receive, send)

    def _refusal(self, request: Request) -> Response | None:
        if request.method not in READS:
            refused = why_not_ours(request)
            if refused is not None:
                return said(request, refused[0], refused[1])
        if self.entrance is not None:
            found = shared_refusal(request, self.entrance)
            return None if found is None else refused_as(request, found)
        path = request.url.path
        if path.startswith(OPEN) or path in OPEN_FILES or self.sessions.is_open(request.cookies.get(COOKIE, "")):
            return None
        return said(request, 401, "open_the_link")


def cannot_keep(request: Request, error: OSError) -> Response:
    """Return what is said where the disk does not take or give something: 507, for a person or for a program.

    Args:
        request: that is answered
        error: of ours, or as the system gives it
    """
    why = str(error) if isinstance(error, BecketError) else f"A file of the server: {error.strerror}. Look at its disk"
    return said(request, 507, "cannot_keep", why=f"{why.rstrip('.')}.")


def why_not_ours(request: Request) -> tuple[int, str] | None:
    """Return why a write is refused: status and the key of its words; None: it is of one of our own pages.

    Args:
        request: that would change something
    """
    site, origin = request.headers.get("sec-fetch-site"), request.headers.get("origin")
    if site is None and origin is None:
        return 403, "foreign_write"
    if site is not None and site != "same-origin":
        return 403, "foreign_write"
    if origin is not None and urlsplit(origin).netloc.lower() != request.headers.get("host", "").lower():
        return 403, "foreign_write"
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if request.method in ways_of(request) and kind != _kind_wanted(request):
        return 415, "wrong_kind"
    return None


def _kind_wanted(request: Request) -> str:
    if request.method == "PUT" and request.url.path.startswith(PHOTO):
        return JPEG
    return JSON if is_api(request) else FORM


def is_api(request: Request) -> bool:
    """Return whether a program asks, not a person [-]."""
    return request.url.path.startswith(("/api/", "/script/"))


def refused_as(request: Request, found: Refusal) -> Response:
    """Return the refusal of a shared server; a person who has not signed in gets the page for it in its place.

    Args:
        request: that is refused
        found: why
    """
    if found.status == 401 and not is_api(request):
        onward = own_path(f"{request.url.path}?{request.url.query}" if request.method in READS else "/")
        return render(request, "sign-in.html", status=401, page="sign-in", onward=onward, name="", fault=None)
    return said(request, found.status, found.key, **found.values)


def own_path(text: str) -> str:
    """Return where a person goes on to: an address of this server, else the first page [-].

    Args:
        text: as it came

    >>> own_path("/c/hazel-70/now?"), own_path("//evil.example"), own_path("/\\\\evil.example")
    ('/c/hazel-70/now', '/', '/')
    """
    found = text.rstrip("?")
    return found if _OWN_PATH.fullmatch(found) and not found.startswith(_NOT_ONWARD) else "/"


def said(request: Request, status: int, key: str, **values: object) -> Response:
    """Return a message: a page for a person, JSON for a program.

    Args:
        request: that is answered
        status: of HTTP
        key: of the words: "open_the_link" stands for said.open_the_link and said.open_the_link.title
        values: for the places in the words
    """
    word = request.app.state.templates.words.word
    text = word(f"said.{key}", **values)
    if is_api(request):
        return JSONResponse({"refused": text}, status_code=status)
    onward = None if status == 401 else ONWARD.get(key, ("/", "said.go_now"))
    title = word(f"said.{key}.title")
    return render(request, "said.html", status=status, page="said", title=title, text=text, onward=onward)
