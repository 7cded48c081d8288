"""``/static/NAME.SEAL.END``: the files of the shell.

In:    an address with the seal of a content in it.
Out:   that content, to be kept for good; packed for who takes it.
Never: another content under the same address.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.web.guard import said

KEEP: Final = "public, max-age=31536000, immutable"


async def static(request: Request) -> Response:
    """Return one static file."""
    found = request.app.state.templates.statics.at(request.url.path)
    if found is None:
        return said(request, 404, "no_such_page", path=request.url.path[:80])
    body, encoding = found.packed(request.headers.get("accept-encoding", ""))
    headers = {"cache-control": KEEP, "vary": "Accept-Encoding"}
    if encoding is not None:
        headers["content-encoding"] = encoding
    return Response(body, media_type=found.kind, headers=headers)


ROUTES: Final = (Route("/static/{name}", static),)
