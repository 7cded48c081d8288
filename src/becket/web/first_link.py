"""The link that a server prints when it starts: it opens a phone, invites an administrator, or leads to the sign-in.

In:    where the server is reached; the house, the entrance of a shared one.
Out:   one link, and what it is for.
Never: an invitation that nobody asked for where an administrator can sign in.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.web.entrance import Entrance
from becket.web.house import House
from becket.web.invitations import DAYS


@dataclass(frozen=True, kw_only=True)
class FirstLink:
    """A link with what it is for."""

    what: str
    address: str


def first_link(origin: str, house: House, entrance: Entrance | None, *, is_invitation: bool = False) -> FirstLink:
    """Return the link to print [-].

    Args:
        origin: "https://crane-office.example"
        house: whose pages it opens
        entrance: of a shared server; None: it is not shared
        is_invitation: an administrator is to be invited, whether there is one or not

    Raises:
        CannotWriteError: the folder takes nothing.
    """
    if entrance is None:
        return FirstLink(what="Open this link, it opens once", address=f"{origin}/open/{house.sessions.new_link()}")
    if is_invitation or not entrance.accounts.has_administrator():
        token = entrance.invite_administrator()
        what = f"Open this link as the administrator, it is good once, for {DAYS} days"
        return FirstLink(what=what, address=f"{origin}/invited/{token}")
    return FirstLink(what="Sign in here", address=f"{origin}/sign-in")
