"""``/open/TOKEN``: the link that opens a phone once; ``/link``: one more, for another phone.

In:    a token; the wish for another.
Out:   a session on this phone; a link and its code.
Never: a link that opens twice.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.web.guard import said
from becket.web.headers import LOCAL, host_name
from becket.web.link_code import link_code
from becket.web.pages.pages import crane_asked
from becket.web.sessions import COOKIE, Sessions
from becket.web.templates import render


def open_link(request: Request) -> Response:
    """Open a session. The page goes on by itself: this kind of cookie travels with no redirect from outside."""
    sessions: Sessions = request.app.state.house.sessions
    session = sessions.use_link(request.path_params["token"])
    if session is None:
        if sessions.is_open(request.cookies.get(COOKIE, "")):
            return render(request, "opened.html", days=sessions.days)
        return said(request, 401, "link_used")
    answer = render(request, "opened.html", days=sessions.days)
    is_https = request.url.scheme == "https"
    most = sessions.days * 86_400
    answer.set_cookie(COOKIE, session, max_age=most, httponly=True, samesite="strict", secure=is_https, path="/")
    return answer


def link(request: Request) -> Response:
    """Return the page that makes a link, or one that was made."""
    sessions: Sessions = request.app.state.house.sessions
    address = None
    if request.method == "POST":
        address = str(request.url.replace(path=f"/open/{sessions.new_link()}", query=""))
    is_local = host_name(request.headers.get("host", "")) in LOCAL
    code = link_code(address) if address is not None else None
    crane = crane_asked(request)
    return render(request, "link.html", crane=crane, address=address, code=code, is_local=is_local, days=sessions.days)


ROUTES: Final = (
    Route("/open/{token}", open_link),
    Route("/link", link, methods=["GET", "POST"]),
)
