"""``/sw.js``: the service worker, with the shell that it keeps written into it.

In:    the static files and templates as they are now.
Out:   one script, at the root, so that its scope is the whole server.
Never: a worker of one version that keeps files of another.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.web.guard import said
from becket.web.worker_script import worker_script


async def worker(request: Request) -> Response:
    """Return the worker."""
    text = worker_script(request.app.state.templates)
    return Response(text, media_type="text/javascript", headers={"cache-control": "no-cache"})


async def not_kept(request: Request) -> Response:
    """Return what the phone shows for a page that it has not kept, when there is no signal."""
    return said(request, 200, "not_kept")


ROUTES: Final = (Route("/sw.js", worker), Route("/not-kept", not_kept))
