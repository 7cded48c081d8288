"""Accounts of a shared server: who has one, in which role, for which cranes, and what was changed about them.

In:    ``accounts.sqlite`` in the folder of the firm.
Out:   accounts, as they stand at this moment; the log of their changes.
Never: a password in the clear; two accounts of one name; an account removed of which the log speaks.
"""

from __future__ import annotations

import json
import secrets
import sqlite3
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from becket.errors import NotOnFileError, RefusedError
from becket.web.account import Account, Logged, Rights, folded, tidy_name
from becket.web.side_file import SideFile

FILE: Final = "accounts.sqlite"
LOST: Final = "accounts, invitations and signed-in phones are lost"
TABLES: Final = """
CREATE TABLE IF NOT EXISTS account (id TEXT PRIMARY KEY, name TEXT NOT NULL, folded TEXT NOT NULL UNIQUE,
    role TEXT NOT NULL, cranes TEXT, password TEXT, is_on INTEGER NOT NULL, made TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS log (number INTEGER PRIMARY KEY AUTOINCREMENT, at TEXT NOT NULL, by TEXT NOT NULL,
    account TEXT NOT NULL, what TEXT NOT NULL, detail TEXT NOT NULL);
"""
_COLUMNS: Final = "id, name, role, cranes, is_on, password IS NOT NULL"
_MOST_LOG: Final = 200


def now_here() -> datetime:
    """Return this moment [-]."""
    return datetime.now(UTC)


class Accounts:
    """The accounts of one folder. Its methods may be called from several threads."""

    def __init__(self, file: SideFile, now: Callable[[], datetime] = now_here) -> None:
        self.file, self._now = file, now

    def all(self) -> tuple[Account, ...]:
        """Return every account by name [-]."""
        with self.file.open() as base:
            return tuple(_account(row) for row in base.execute(f"SELECT {_COLUMNS} FROM account ORDER BY folded"))

    def one(self, account: str) -> Account:
        """Return one account [-].

        Args:
            account: its id

        Raises:
            NotOnFileError: there is none.
        """
        with self.file.open() as base:
            row = base.execute(f"SELECT {_COLUMNS} FROM account WHERE id = ?", (account,)).fetchone()
        if row is None:
            raise NotOnFileError(f"account {account[:20]} is not on file; choose one under Accounts")
        return _account(row)

    def named(self, name: str) -> Account | None:
        """Return the account of a name, large or small letters alike; None: there is none [-].

        Args:
            name: as typed
        """
        with self.file.open() as base:
            row = base.execute(f"SELECT {_COLUMNS} FROM account WHERE folded = ?", (folded(name),)).fetchone()
        return None if row is None else _account(row)

    def add(self, name: str, rights: Rights, by: str) -> Account:
        """Return a new account, without a password yet [-].

        Args:
            name: of the person
            rights: what it may
            by: who invites

        Raises:
            RefusedError: the name is empty, too long or there already.
        """
        tidied, new = tidy_name(name), secrets.token_hex(8)
        with self.file.open(is_write=True) as base:
            if base.execute("SELECT 1 FROM account WHERE folded = ?", (folded(tidied),)).fetchone():
                raise RefusedError(f"{tidied} has an account already; renew its invitation, or add a middle name")
            row = (new, tidied, folded(tidied), rights.role, _kept(rights.cranes), self._now().isoformat())
            base.execute("INSERT INTO account VALUES (?, ?, ?, ?, ?, NULL, 1, ?)", row)
            self.log(base, by, tidied, "invited", _told(rights))
        return self.one(new)

    def change(self, account: Account, rights: Rights, by: str) -> None:
        """Give an account another role or other cranes; it counts from the next request on.

        Args:
            account: as it was
            rights: what it may from now on
            by: who changes it
        """
        with self.file.open(is_write=True) as base:
            row = (rights.role, _kept(rights.cranes), account.id)
            base.execute("UPDATE account SET role = ?, cranes = ? WHERE id = ?", row)
            self.log(base, by, account.name, "changed", _told(rights))

    def switch(self, account: Account, by: str, *, is_on: bool) -> None:
        """Switch an account off, with every phone that is signed in, or on again.

        Args:
            account: as it was
            by: who does it
            is_on: what it is from now on
        """
        with self.file.open(is_write=True) as base:
            base.execute("UPDATE account SET is_on = ? WHERE id = ?", (is_on, account.id))
            if not is_on:
                base.execute("DELETE FROM signed_in WHERE account = ?", (account.id,))
                base.execute("DELETE FROM invitation WHERE account = ?", (account.id,))
            self.log(base, by, account.name, "on" if is_on else "off", "")

    def password(self, account: str) -> str | None:
        """Return what is kept of the password of an account; None: there is none [-].

        Args:
            account: its id
        """
        with self.file.open() as base:
            row = base.execute("SELECT password FROM account WHERE id = ?", (account,)).fetchone()
        return None if row is None else row[0]

    def has_administrator(self) -> bool:
        """Return whether somebody can keep accounts: on, with a password [-]."""
        return any(one.is_on and one.has_password and one.may("accounts") for one in self.all())

    def log(self, base: sqlite3.Connection, by: str, account: str, what: str, detail: str) -> None:
        """Write a change down together with it.

        Args:
            base: on which it is done
            by: name of who does it
            account: name
            what: which change
            detail: of it
        """
        row = (self._now().isoformat(timespec="seconds"), by, account, what, detail)
        base.execute("INSERT INTO log (at, by, account, what, detail) VALUES (?, ?, ?, ?, ?)", row)

    def logged(self) -> tuple[Logged, ...]:
        """Return the last changes, the newest first [-]."""
        query = "SELECT at, by, account, what, detail FROM log ORDER BY number DESC LIMIT ?"
        with self.file.open() as base:
            rows = base.execute(query, (_MOST_LOG,)).fetchall()
        return tuple(Logged(at=at, by=by, account=name, what=what, detail=more) for at, by, name, what, more in rows)


def accounts_place(folder: Path) -> Path:
    """Return where the accounts of a folder lie [-].

    Args:
        folder: of the firm
    """
    return folder / FILE


def _account(row: tuple[str, str, str, str | None, int, int]) -> Account:
    found, name, role, cranes, is_on, has_password = row
    return Account(
        id=found,
        name=name,
        role=role,
        cranes=None if cranes is None else frozenset(json.loads(cranes)),
        is_on=bool(is_on),
        has_password=bool(has_password),
    )


def _kept(cranes: frozenset[str] | None) -> str | None:
    return None if cranes is None else json.dumps(sorted(cranes))


def _told(rights: Rights) -> str:
    return f"{rights.role}; {'every crane' if rights.cranes is None else ', '.join(sorted(rights.cranes))}"
