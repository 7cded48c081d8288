"""``/who``: who holds the phone. ``/kept``: what this phone keeps, and what was refused.

In:    a crane, so that the foot leads back to it.
Out:   two shells: crew list, digits and entries are looked at on the phone itself.
Never: a name or an entry in a page that the server sends.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from becket.web.asker import house_of
from becket.web.crane_files import CraneFile
from becket.web.templates import render


def who(request: Request) -> Response:
    """Return the page on which a person takes the phone."""
    cranes = house_of(request).cranes()
    return render(request, "who.html", crane=_crane(request), list_of=cranes[0].id if cranes else "")


def kept(request: Request) -> Response:
    """Return the page that lists what has still to be sent."""
    return render(request, "kept.html", crane=_crane(request))


def _crane(request: Request) -> CraneFile | None:
    """Return the crane that is asked for, or the only one [-]."""
    house = house_of(request)
    name = request.query_params.get("crane")
    if name:
        return house.crane(name)
    cranes = house.cranes()
    return cranes[0] if len(cranes) == 1 else None


ROUTES: Final = (Route("/who", who), Route("/kept", kept))
