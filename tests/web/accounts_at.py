"""A shared server in the same process, with an account in every role, for tests.

In:    a folder.
Out:   phones that are signed in; a clock of the test.
Never: the parameters of a real server: a test is not to wait for them.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from pathlib import Path

from argon2 import PasswordHasher

from becket.web.account import Account, Rights
from becket.web.app import make_app
from becket.web.entrance import Comes, Entrance
from becket.web.house import House
from becket.web.passwords import Passwords
from becket.web.signed_in import COOKIE
from tests.web.asking import Phone

WEAK = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
PASSWORD = "four grey herons"
HERE = Comes(address="192.0.2.7", device="a phone of the test")


@dataclass
class Clock:
    """A clock that the test moves."""

    now: datetime = field(default_factory=lambda: datetime(2026, 11, 30, 8, tzinfo=UTC))

    def __call__(self) -> datetime:
        """Return the moment [-]."""
        return self.now

    def go(self, **more: float) -> None:
        """Move it on."""
        self.now += timedelta(**more)


@dataclass
class Shared:
    """A shared server."""

    folder: Path
    clock: Clock = field(default_factory=Clock)

    def __post_init__(self) -> None:
        self.house = House.open(self.folder)
        self.entrance = Entrance(self.folder, Passwords(WEAK), self.clock)
        self.app = make_app(self.house, entrance=self.entrance)

    def account(self, name: str, role: str, cranes: frozenset[str] | None = None) -> Account:
        """Return a new account with a password."""
        account = self.entrance.accounts.add(name, Rights(role=role, cranes=cranes), "the test")
        token = self.entrance.invitations.make(account, "the test")
        assert self.entrance.accept(token, PASSWORD, HERE) is not None
        return self.entrance.accounts.one(account.id)

    def stranger(self) -> Phone:
        """Return a phone that nobody has signed in on."""
        return Phone(self.app, is_open=False)

    def phone_of(self, account: Account) -> Phone:
        """Return a phone that is signed in."""
        phone = self.stranger()
        phone.cookies.set(
            COOKIE, self.entrance.signed_in.begin(account.id, "a phone of the test"), domain="localhost.local"
        )
        return phone

    def phone_in(self, role: str, cranes: frozenset[str] | None = None) -> Phone:
        """Return a phone that is signed in to a new account of a role."""
        return self.phone_of(self.account(f"{role} {len(self.entrance.accounts.all())}", role, cranes))
