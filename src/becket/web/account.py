"""One account of a shared server: whose, in which role, for which cranes.

In:    a name, a role, ids of cranes.
Out:   frozen records; a name as it is kept and as it is compared.
Never: a password; a role that is not in the table of roles.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final
from unicodedata import normalize

from becket.errors import RefusedError
from becket.web.roles import ROLES, may

LONGEST: Final = 60  # letters of a name


@dataclass(frozen=True, kw_only=True)
class Account:
    """One account. ``cranes`` None: every crane of the firm, those to come too."""

    id: str
    name: str
    role: str
    cranes: frozenset[str] | None
    is_on: bool
    has_password: bool  # no: invited, not yet there

    def may(self, action: str) -> bool:
        """Return whether it may do something [-].

        Args:
            action: one of ``roles.ACTIONS``
        """
        return may(self.role, action)

    def actions(self) -> tuple[str, ...]:
        """Return everything that it may do [-]."""
        return ROLES[self.role]

    def has(self, crane: str) -> bool:
        """Return whether a crane is among its own [-].

        Args:
            crane: its id
        """
        return self.cranes is None or crane in self.cranes


@dataclass(frozen=True, kw_only=True)
class Logged:
    """One change of an account."""

    at: str  # ISO 8601
    by: str  # name of the account, or what stands for the command line
    account: str  # name
    what: str  # key of its words: accounts.log.WHAT
    detail: str


@dataclass(frozen=True, kw_only=True)
class Rights:
    """What an account may."""

    role: str
    cranes: frozenset[str] | None

    def __post_init__(self) -> None:
        if self.role not in ROLES:
            raise RefusedError(f"role {self.role[:30]}: there is none; choose one of {', '.join(ROLES)}")
        if self.cranes is not None and not self.cranes:
            raise RefusedError("no crane is chosen; choose at least one, or every crane")
        if self.cranes is not None and may(self.role, "accounts"):
            raise RefusedError("who keeps accounts gives cranes to others: choose every crane, or another role")


def tidy_name(name: str) -> str:
    """Return a name as it is kept: single spaces, whole letters [-].

    Args:
        name: as typed

    Raises:
        RefusedError: it is empty or too long.
    """
    tidied = " ".join(normalize("NFC", name).split())
    if not tidied or not tidied.isprintable() or len(tidied) > LONGEST:
        raise RefusedError(f"the name is empty or longer than {LONGEST} letters; write first and last name")
    return tidied


def folded(name: str) -> str:
    """Return a name as names are compared [-].

    Args:
        name: as typed

    >>> folded("  ADA   Quill ")
    'ada quill'
    """
    return " ".join(normalize("NFKC", name).casefold().split())
