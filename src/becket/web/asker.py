"""Who asks: the account of a request on a shared server, and the cranes that it may see.

In:    a request that the guard let through.
Out:   its account; the house with its cranes alone.
Never: a crane of others, not even by its name.
"""

from __future__ import annotations

from typing import Final

from starlette.requests import HTTPConnection

from becket.web.account import Account
from becket.web.entrance import Entrance
from becket.web.house import House

ACCOUNT: Final = "becket.account"  # where the guard puts it


def account_of(request: HTTPConnection) -> Account | None:
    """Return who asks; None: the server is not shared, or it is somebody who has not signed in [-].

    Args:
        request: of a page or a program
    """
    found: Account | None = request.scope.get(ACCOUNT)
    return found


def entrance_of(request: HTTPConnection) -> Entrance | None:
    """Return the entrance of a shared server; None: the server is not shared [-].

    Args:
        request: of a page or a program
    """
    found: Entrance | None = request.app.state.entrance
    return found


def house_of(request: HTTPConnection) -> House:
    """Return the house as who asks may see it: with these cranes, as if there were no others [-].

    Args:
        request: of a page or a program
    """
    house: House = request.app.state.house
    account = account_of(request)
    return house if account is None else house.within(account.cranes)


def may(request: HTTPConnection, action: str) -> bool:
    """Return whether who asks may do something; where nothing is shared, a phone that is open may all [-].

    Args:
        request: of a page or a program
        action: one of ``roles.ACTIONS``
    """
    if entrance_of(request) is None:
        return action not in ("own", "accounts")
    account = account_of(request)
    return account is not None and account.may(action)
