"""The entrance of a shared server: name and password, an invitation, a new password.

In:    what a person typed, from which address, on which phone.
Out:   the token of a phone that is signed in; why not.
Never: another word or another time for a name that is not there than for a wrong password.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Final

from becket.web import accounts as of_accounts
from becket.web import invitations as of_invitations
from becket.web import signed_in as of_signed_in
from becket.web import tries as of_tries
from becket.web.account import Account, Rights, folded
from becket.web.accounts import Accounts, accounts_place, now_here
from becket.web.invitations import Invitations
from becket.web.passwords import Passwords, why_not_taken
from becket.web.side_file import SideFile
from becket.web.signed_in import SignedIn
from becket.web.tries import Tries

TABLES: Final = of_accounts.TABLES + of_invitations.TABLES + of_signed_in.TABLES + of_tries.TABLES
FIRST_NAME: Final = "administrator"
COMMAND_LINE: Final = "becket serve"  # who did it, where no account did


@dataclass(frozen=True, kw_only=True)
class Comes:
    """From where somebody comes."""

    address: str  # of the network
    device: str  # as the browser calls itself


class Entrance:
    """Accounts, passwords, invitations and phones of one folder, together."""

    def __init__(self, folder: Path, passwords: Passwords, now: Callable[[], datetime] = now_here) -> None:
        file = SideFile(accounts_place(folder), TABLES, of_accounts.LOST)
        self.passwords = passwords
        self.accounts = Accounts(file, now)
        self.invitations = Invitations(file, self.accounts, now)
        self.signed_in = SignedIn(file, self.accounts, now)
        self.tries = Tries(file, now)
        self._file = file

    def sign_in(self, name: str, password: str, comes: Comes) -> str | None:
        """Return the token of a phone that is signed in from now on; None: name or password is wrong [-].

        Args:
            name: as typed
            password: as typed
            comes: from where

        Raises:
            TooOftenError: wrong too often before, or too many at once.
        """
        tried = self.tries.begin(name=folded(name)[:200], address=comes.address)
        account = self.accounts.named(name)
        kept = self.accounts.password(account.id) if account is not None and account.is_on else None
        if not self.passwords.is_same(kept, password) or account is None or kept is None:
            return None
        self.tries.right(tried)
        if self.passwords.is_old(kept):
            self._keep(account, self.passwords.hashed(password), kept)
        return self.signed_in.begin(account.id, comes.device)

    def invited(self, token: str, address: str) -> Account | None:
        """Return the account that an invitation is for; None: it is not good [-].

        Args:
            token: from the link
            address: from where

        Raises:
            TooOftenError: wrong too often before.
        """
        tried = self.tries.begin(name=None, address=address)
        account = self.invitations.whose(token)
        if account is not None:
            self.tries.right(tried)
        return account

    def accept(self, token: str, password: str, comes: Comes) -> str | None:
        """Return the token of a phone that is signed in, the password set; None: the invitation is not good [-].

        Args:
            token: from the link
            password: as typed, one that is taken
            comes: from where
        """
        account = self.invitations.use(token, self.passwords.hashed(password))
        return None if account is None else self.signed_in.begin(account.id, comes.device)

    def change_password(self, account: Account, old: str, new: str, *, token: str, address: str) -> str | None:
        """Change a password; every other phone of the account is signed out. Return why not: the key of words [-].

        Args:
            account: whose
            old: as typed
            new: as typed
            token: of this phone, which stays signed in
            address: from where

        Raises:
            TooOftenError: wrong too often before, or too many at once.
        """
        why = why_not_taken(new, account.name)
        if why is not None:
            return why
        tried = self.tries.begin(name=folded(account.name), address=address)
        kept = self.accounts.password(account.id)
        if not self.passwords.is_same(kept, old):
            return "accounts.fault.old"
        self.tries.right(tried)
        self._keep(account, self.passwords.hashed(new), kept, say=True)
        self.signed_in.end_all(account.id, but=token)
        return None

    def invite_administrator(self) -> str:
        """Return the token of an invitation for an administrator, for whoever runs the server [-]."""
        rights = Rights(role="administrator", cranes=None)
        account = self.accounts.named(FIRST_NAME) or self.accounts.add(FIRST_NAME, rights, COMMAND_LINE)
        if not account.is_on:
            self.accounts.switch(account, COMMAND_LINE, is_on=True)
        if (account.role, account.cranes) != (rights.role, rights.cranes):
            self.accounts.change(account, rights, COMMAND_LINE)
        return self.invitations.make(account, COMMAND_LINE)

    def _keep(self, account: Account, password: str, old: str | None, *, say: bool = False) -> None:
        """Keep a password in place of the one that was compared with: not of one that was set meanwhile."""
        with self._file.open(is_write=True) as base:
            row = (password, account.id, old)
            base.execute("UPDATE account SET password = ? WHERE id = ? AND password IS ?", row)
            if say:
                self.accounts.log(base, account.name, account.name, "password", "by the old one")
