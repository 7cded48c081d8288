"""Which route stands at an address.

In:    a request, before it is routed.
Out:   the routes that its address fits, what is taken there.
Never: an answer.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from starlette.requests import Request
from starlette.routing import Match, Route


def routes_at(request: Request) -> Iterator[tuple[Route, Mapping[str, Any]]]:
    """Yield the routes at an address with what the address names, whatever the method [-].

    Args:
        request: for the address
    """
    for route in request.app.routes:
        if isinstance(route, Route):
            fits, found = route.matches(request.scope)
            if fits is not Match.NONE:
                yield route, found["path_params"]


def ways_of(request: Request) -> frozenset[str]:
    """Return the methods that are taken at an address; none where there is no such address [-].

    Args:
        request: for the address
    """
    return frozenset(way for route, _ in routes_at(request) for way in route.methods or ())
