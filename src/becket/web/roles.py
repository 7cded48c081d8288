"""Who may do what on a shared server: one table of roles, one of addresses, one of kinds of events.

In:    a role; an address with its method; a kind of event.
Out:   what it needs, and whether the role may.
Never: an account, a request; a role that keeps accounts and enters at the crane's steps.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

ACTIONS: Final[Mapping[str, str]] = {
    "anybody": "open without signing in: nothing of any crane is there",
    "own": "keep the own account: password, signed-in phones",
    "read": "read every page of its cranes",
    "deliver": "deliver entries; each is looked at by its kind",
    "steps": "enter at the crane's steps: start, count, stop, sign",
    "digits": "give a person on the crew list new digits, as the phone asks for it",
    "people": "put people on the crew list",
    "trouble": "enter trouble: the crane is locked out",
    "inspect": "enter an inspection: the lock-out ends",
    "read_pattern": "read a pattern from the manual as the second person",
    "photos": "take photos",
    "notes": "write a note to a record",
    "files": "bring in crane books and job sheets",
    "settings": "change a setting of the method; it binds the whole firm, so with every crane alone",
    "accounts": "keep accounts: invite, change, switch off",
    "nobody": "not done on a shared server, or by becket itself alone",
}
ROLES: Final[Mapping[str, tuple[str, ...]]] = {
    "crew": ("own", "read", "deliver", "steps", "digits", "trouble", "read_pattern", "photos", "notes"),
    "supervisor": (
        *("own", "read", "deliver", "steps", "digits", "trouble", "read_pattern", "photos", "notes"),
        *("people", "files", "settings"),
    ),
    "office": ("own", "read", "deliver", "files"),
    "inspector": ("own", "read", "deliver", "trouble", "inspect", "photos", "notes"),
    "administrator": ("own", "read", "deliver", "files", "settings", "accounts"),
}
# an account is not the person: one phone brings what two people entered. As whom its entries may be made:
CARRIES: Final[Mapping[str, tuple[str, ...]]] = {
    "crew": ("operator", "rigger", "supervisor", "inspector"),
    "supervisor": ("operator", "rigger", "supervisor", "inspector"),
    "office": (),
    "inspector": ("inspector",),
    "administrator": (),
}
BY_ITSELF: Final = "interrupted"  # a phone writes it by itself, as becket

EVENTS: Final[Mapping[str, str]] = {
    "person_added": "people",
    "digits_changed": "digits",
    "trouble_entered": "trouble",
    "inspection_entered": "inspect",
    "pattern_read": "read_pattern",
    "pattern_compared": "nobody",
    "file_taken": "nobody",
    "run_started": "steps",
    "entered": "steps",
    "phone_joined": "steps",
    "interrupted": "steps",
    "count_again": "steps",
    "followed_by_hand": "steps",
    "stopped": "steps",
    "resumed": "steps",
    "went_on_from_paper": "steps",
    "signed": "steps",
    "photo_taken": "photos",
    "photo_kept": "nobody",
    "noted": "notes",
}
ADDRESSES: Final[Mapping[tuple[str, str], str]] = {
    ("GET", "/"): "read",
    ("GET", "/c/{crane}/now"): "read",
    ("GET", "/c/{crane}/week"): "read",
    ("GET", "/c/{crane}/falls"): "read",
    ("GET", "/c/{crane}/falls/{number}"): "read",
    ("GET", "/c/{crane}/pattern"): "read",
    ("GET", "/c/{crane}/pattern/{state}"): "read",
    ("GET", "/c/{crane}/pattern/{state}/confirm"): "read_pattern",
    ("GET", "/c/{crane}/photo/{state}"): "read",
    ("GET", "/c/{crane}/photos/{photo}.jpg"): "read",
    ("GET", "/c/{crane}/change"): "read",
    ("GET", "/c/{crane}/change/{before}/{after}"): "read",
    ("GET", "/c/{crane}/record"): "read",
    ("GET", "/c/{crane}/record/{run}"): "read",
    ("GET", "/c/{crane}/record/{run}.pdf"): "read",
    ("GET", "/c/{crane}/record/{run}/window.pdf"): "read",
    ("GET", "/c/{crane}/trouble"): "read",
    ("GET", "/run/{run}"): "read",
    ("GET", "/pages"): "read",
    ("GET", "/who"): "read",
    ("GET", "/kept"): "read",
    ("GET", "/not-kept"): "read",
    ("GET", "/settings"): "read",
    ("POST", "/settings"): "read",  # how pages look on this phone
    ("POST", "/settings/hand-height"): "settings",
    ("GET", "/files"): "read",
    ("POST", "/files"): "files",
    ("GET", "/link"): "nobody",
    ("POST", "/link"): "nobody",
    ("GET", "/open/{token}"): "nobody",
    ("POST", "/api/events"): "deliver",
    ("GET", "/api/feed/{crane}"): "read",
    ("GET", "/api/kept/{crane}"): "read",
    ("GET", "/api/photo/{crane}/{photo}"): "read",
    ("PUT", "/api/photo/{crane}/{photo}"): "photos",
    ("GET", "/script/{id}.json"): "read",
    ("GET", "/static/{name}"): "anybody",
    ("GET", "/sw.js"): "anybody",
    ("GET", "/sign-in"): "anybody",
    ("POST", "/sign-in"): "anybody",
    ("GET", "/invited/{token}"): "anybody",
    ("POST", "/invited/{token}"): "anybody",
    ("POST", "/sign-out"): "own",
    ("GET", "/account"): "own",
    ("POST", "/account"): "own",
    ("GET", "/accounts"): "accounts",
    ("POST", "/accounts"): "accounts",
    ("GET", "/accounts/{account}"): "accounts",
    ("POST", "/accounts/{account}"): "accounts",
}


def may(role: str, action: str) -> bool:
    """Return whether a role may do something [-].

    Args:
        role: of an account
        action: one of ``ACTIONS``

    >>> may("office", "steps"), may("crew", "steps"), may("administrator", "steps")
    (False, True, False)
    """
    return action == "anybody" or action in ROLES.get(role, ())


def may_carry(role: str, kind: str, event_role: str) -> bool:
    """Return whether an account may bring an entry that was made in a role [-].

    Args:
        role: of the account
        kind: of the event
        event_role: in which it says that it was made

    >>> may_carry("inspector", "trouble_entered", "operator"), may_carry("crew", "interrupted", "becket")
    (False, True)
    """
    if event_role == "becket":
        return kind == BY_ITSELF and bool(CARRIES.get(role))
    return event_role in CARRIES.get(role, ())
