"""Whether an account may bring an entry, by its kind, its crane and the role in which it was made.

In:    an account of a shared server, an event that is good in form.
Out:   why it may not, in words that say what to do; None: it may.
Never: who entered it: one phone brings what two people entered, each with own digits.
"""

from __future__ import annotations

from typing import Final

from becket.guide.event import FIRM, Event
from becket.web.account import Account
from becket.web.roles import ACTIONS, EVENTS, may_carry

_DO: Final = "It stays on this phone under Kept; an account that may brings it, or an administrator changes this one."


def why_not_allowed(account: Account | None, event: Event) -> str | None:
    """Return why an account may not bring an event, in words; None: it may [-].

    Args:
        account: of who delivers; None: the server is not shared
        event: good in form
    """
    if account is None:
        return None
    if event.crane != FIRM and not account.has(event.crane):
        return f'Crane "{event.crane}" is not among the cranes of the account {account.name}. {_DO}'
    action = EVENTS[event.kind]
    if action != "nobody" and not account.may(action):
        return f"The account {account.name} ({account.role}) may not do this: {ACTIONS[action].split(':')[0]}. {_DO}"
    if action != "nobody" and not may_carry(account.role, event.kind, event.role):
        return f"The account {account.name} ({account.role}) brings no entry made as {event.role}. {_DO}"
    return None
