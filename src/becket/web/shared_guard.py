"""Who gets in on a shared server: an account, as far as its role and its cranes go.

In:    a request; the entrance.
Out:   the account of the request; why it is refused.
Never: a crane of others told from one that does not exist; a session of the link kind.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

from starlette.requests import Request

from becket.errors import NotOnFileError
from becket.web.account import Account
from becket.web.addresses import routes_at
from becket.web.asker import ACCOUNT, house_of
from becket.web.entrance import Entrance
from becket.web.roles import ACTIONS, ADDRESSES
from becket.web.signed_in import COOKIE

NO_ROUTE: Final = ("/favicon.ico", "/manifest.webmanifest")  # browsers ask by themselves
STATIC: Final = "/static/"


@dataclass(frozen=True, kw_only=True)
class Refusal:
    """Why a request is refused: status of HTTP, key of the words."""

    status: int
    key: str
    values: Mapping[str, object] = field(default_factory=dict)


def shared_refusal(request: Request, entrance: Entrance) -> Refusal | None:
    """Return why a request is refused; None: it goes on, with its account in its scope [-].

    Args:
        request: that came in
        entrance: of the shared server
    """
    if request.url.path in NO_ROUTE or request.url.path.startswith(STATIC):
        return None
    account = entrance.signed_in.whose(request.cookies.get(COOKIE, ""))
    request.scope[ACCOUNT] = account
    action, cranes = _needed(request)
    if action == "anybody":
        return None
    if action == "nobody":
        return Refusal(status=403, key="entered_by_name")
    if account is None:
        return Refusal(status=401, key="sign_in")
    return _beyond(request, account, cranes) or _not_for_role(account, action)


def _needed(request: Request) -> tuple[str | None, tuple[str, ...]]:
    """Return what an address needs, None where there is no such address or method; and the cranes that it names."""
    way = "GET" if request.method == "HEAD" else request.method
    asked = request.query_params.get("crane")
    for route, params in routes_at(request):
        action = ADDRESSES.get((way, route.path))
        if action is not None and way in (route.methods or ()):
            named = (params.get("crane"), asked)
            return action, tuple(one for one in named if one)
    return None, (asked,) if asked else ()


def _beyond(request: Request, account: Account, cranes: tuple[str, ...]) -> Refusal | None:
    for crane in cranes:
        if not account.has(crane):
            try:
                house_of(request).crane(crane)
            except NotOnFileError as error:
                return Refusal(status=404, key="not_on_file", values={"why": str(error)})
    return None


def _not_for_role(account: Account, action: str | None) -> Refusal | None:
    if action is None or account.may(action):
        return None
    what = ACTIONS[action].split(":")[0]
    return Refusal(status=403, key="not_for_role", values={"name": account.name, "role": account.role, "what": what})
