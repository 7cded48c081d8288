"""Phones that are signed in to an account of a shared server.

In:    an account; a token from a cookie.
Out:   tokens; whose they are, as that account stands at this moment.
Never: a token in the clear on the disk; a phone that stays signed in to an account that is off.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Final

from becket.web.account import Account
from becket.web.accounts import Accounts
from becket.web.sessions import DAYS, seal_of
from becket.web.side_file import SideFile

TABLES: Final = """
CREATE TABLE IF NOT EXISTS signed_in (seal TEXT PRIMARY KEY, id TEXT NOT NULL, account TEXT NOT NULL,
    made TEXT NOT NULL, seen TEXT NOT NULL, ends TEXT NOT NULL, device TEXT NOT NULL);
"""
COOKIE: Final = "becket-account"
_SEEN: Final = timedelta(minutes=10)  # no oftener is written when a phone was last there
_DEVICE: Final = 160  # letters
_BROWSERS: Final = ("Firefox", "Edg", "Chrome", "Safari")  # each later one is named by the earlier too
_SYSTEMS: Final = ("Android", "iPhone", "iPad", "Windows", "Mac OS", "Linux")


@dataclass(frozen=True, kw_only=True)
class Device:
    """One phone that is signed in."""

    id: str
    made: str  # ISO 8601
    seen: str
    device: str  # in two words
    is_this: bool


class SignedIn:
    """Who is signed in where."""

    def __init__(self, file: SideFile, accounts: Accounts, now: Callable[[], datetime]) -> None:
        self._file, self._accounts, self._now = file, accounts, now

    def begin(self, account: str, device: str) -> str:
        """Return the token of a phone that is signed in from now on [-].

        Args:
            account: its id
            device: as its browser calls itself
        """
        token, now = secrets.token_urlsafe(32), self._now()
        ends = (now + timedelta(days=DAYS)).isoformat()
        row = (seal_of(token), secrets.token_hex(8), account, now.isoformat(), now.isoformat(), ends, device[:_DEVICE])
        with self._file.open(is_write=True) as base:
            base.execute("DELETE FROM signed_in WHERE ends <= ?", (now.isoformat(),))
            base.execute("INSERT INTO signed_in VALUES (?, ?, ?, ?, ?, ?, ?)", row)
        return token

    def whose(self, token: str) -> Account | None:
        """Return the account of a phone, as it stands now; None: it is not signed in [-].

        Args:
            token: from the cookie
        """
        if not token:
            return None
        now = self._now()
        with self._file.open() as base:
            query = "SELECT account, seen, ends FROM signed_in WHERE seal = ?"
            row = base.execute(query, (seal_of(token),)).fetchone()
            if row is None or datetime.fromisoformat(row[2]) <= now:
                return None
            if datetime.fromisoformat(row[1]) + _SEEN < now:
                base.execute("UPDATE signed_in SET seen = ? WHERE seal = ?", (now.isoformat(), seal_of(token)))
        account = self._accounts.one(row[0])
        return account if account.is_on else None

    def devices(self, account: str, token: str) -> tuple[Device, ...]:
        """Return the phones that are signed in to an account, the last seen first [-].

        Args:
            account: its id
            token: of the phone that asks
        """
        query = (
            "SELECT id, made, seen, device, seal = ? FROM signed_in WHERE account = ? AND ends > ? ORDER BY seen DESC"
        )
        with self._file.open() as base:
            rows = base.execute(query, (seal_of(token), account, self._now().isoformat())).fetchall()
        return tuple(
            Device(id=name, made=made, seen=seen, device=device_words(device), is_this=bool(is_this))
            for name, made, seen, device, is_this in rows
        )

    def end(self, token: str) -> None:
        """Sign one phone out.

        Args:
            token: from its cookie
        """
        with self._file.open() as base:
            base.execute("DELETE FROM signed_in WHERE seal = ?", (seal_of(token),))

    def end_one(self, account: str, device: str) -> None:
        """Sign one phone of an account out.

        Args:
            account: its id
            device: id of the phone; that of another account is left alone
        """
        with self._file.open() as base:
            base.execute("DELETE FROM signed_in WHERE account = ? AND id = ?", (account, device))

    def end_all(self, account: str, but: str = "") -> None:
        """Sign every phone of an account out.

        Args:
            account: its id
            but: token of the phone that stays; "" none
        """
        with self._file.open() as base:
            base.execute("DELETE FROM signed_in WHERE account = ? AND seal != ?", (account, seal_of(but)))


def device_words(device: str) -> str:
    """Return a phone in two words, as far as its browser tells [-].

    Args:
        device: as its browser calls itself

    >>> device_words("Mozilla/5.0 (X11; Linux x86_64) AppleWebKit/537.36 Chrome/156.0 Safari/537.36"), device_words("")
    ('Chrome, Linux', '?')
    """
    named = [next((one for one in known if one in device), None) for known in (_BROWSERS, _SYSTEMS)]
    return ", ".join(one for one in named if one) or device[:40] or "?"
