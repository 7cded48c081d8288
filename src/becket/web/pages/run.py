"""``/run/{run}``: the shell in which a phone draws a run from what it keeps.

In:    nothing of the run: the shell is the same for every one.
Out:   one page.
Never: a value, a pattern, a name of the run in the page; a look into the store.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.web.templates import render


def run_shell(request: Request) -> Response:
    """Return the shell; the phone draws the run in it."""
    return render(request, "run.html")


ROUTES: Final = (Route("/run/{run}", run_shell),)
