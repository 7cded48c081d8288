"""Invitations: a link, good once and for a week, with which a person sets the password of an account.

In:    an account that an administrator made.
Out:   a token; the account that it is for.
Never: a token in the clear on the disk; two open invitations for one account; one that counts after its week.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable
from datetime import datetime, timedelta
from typing import Final

from becket.web.account import Account
from becket.web.accounts import Accounts
from becket.web.sessions import seal_of
from becket.web.side_file import SideFile

TABLES: Final = """
CREATE TABLE IF NOT EXISTS invitation (account TEXT PRIMARY KEY, seal TEXT NOT NULL UNIQUE, ends TEXT NOT NULL);
"""
DAYS: Final = 7


class Invitations:
    """Open invitations."""

    def __init__(self, file: SideFile, accounts: Accounts, now: Callable[[], datetime]) -> None:
        self._file, self._accounts, self._now = file, accounts, now

    def make(self, account: Account, by: str) -> str:
        """Return a new token; an older one for the same account is good no more [-].

        Args:
            account: that is to have a (new) password
            by: name of who makes it
        """
        token = secrets.token_urlsafe(24)
        ends = (self._now() + timedelta(days=DAYS)).isoformat()
        with self._file.open(is_write=True) as base:
            base.execute("REPLACE INTO invitation VALUES (?, ?, ?)", (account.id, seal_of(token), ends))
            if account.has_password:
                self._accounts.log(base, by, account.name, "renewed", "")
        return token

    def whose(self, token: str) -> Account | None:
        """Return the account that a token is for; None: it is not known, was used, is too old, its account is off [-].

        Args:
            token: from the link
        """
        with self._file.open() as base:
            row = base.execute("SELECT account, ends FROM invitation WHERE seal = ?", (seal_of(token),)).fetchone()
        if row is None or datetime.fromisoformat(row[1]) <= self._now():
            return None
        account = self._accounts.one(row[0])
        return account if account.is_on else None

    def use(self, token: str, password: str) -> Account | None:
        """Set the password of the account that a token is for; every phone of it is signed out [-].

        Args:
            token: from the link
            password: as it is kept
        """
        account = self.whose(token)
        if account is None:
            return None
        with self._file.open(is_write=True) as base:
            if base.execute("DELETE FROM invitation WHERE seal = ?", (seal_of(token),)).rowcount != 1:
                return None  # another was faster
            base.execute("UPDATE account SET password = ? WHERE id = ?", (password, account.id))
            base.execute("DELETE FROM signed_in WHERE account = ?", (account.id,))
            self._accounts.log(base, account.name, account.name, "password", "by invitation")
        return self._accounts.one(account.id)

    def withdraw(self, account: Account, by: str) -> None:
        """Make the open invitation of an account worthless; an account that was never used goes with it.

        Args:
            account: that it is for
            by: name of who does it
        """
        with self._file.open(is_write=True) as base:
            if base.execute("DELETE FROM invitation WHERE account = ?", (account.id,)).rowcount == 1:
                base.execute("DELETE FROM account WHERE id = ? AND password IS NULL", (account.id,))
                self._accounts.log(base, by, account.name, "withdrawn", "")

    def open(self) -> dict[str, str]:
        """Return until when each open invitation is good, by account [-]."""
        with self._file.open() as base:
            rows = base.execute("SELECT account, ends FROM invitation WHERE ends > ?", (self._now().isoformat(),))
            return dict(rows.fetchall())
