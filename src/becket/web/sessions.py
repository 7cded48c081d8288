"""Who may open the pages: a link that is good once, then a session on that phone.

In:    tokens as they come from a link or a cookie.
Out:   whether they are good; new ones, 128 random bits each.
Never: a token in the clear on the disk; a link that opens twice; anything about what was done.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from hashlib import sha256
from pathlib import Path
from typing import Final

from becket.web.side_file import SideFile

FILE: Final = "sessions.sqlite"
COOKIE: Final = "becket"
DAYS: Final = 90
_TABLES: Final = """
CREATE TABLE IF NOT EXISTS link (seal TEXT PRIMARY KEY, made TEXT NOT NULL, used TEXT);
CREATE TABLE IF NOT EXISTS session (seal TEXT PRIMARY KEY, made TEXT NOT NULL, ends TEXT NOT NULL);
"""


def _now() -> datetime:
    return datetime.now(UTC)


class Sessions:
    """Links and sessions, in a file of their own beside the records: losing it costs a new link and nothing else."""

    def __init__(self, folder: Path, *, days: int = DAYS, now: Callable[[], datetime] = _now) -> None:
        self.days, self._now = days, now
        self._file = SideFile(folder / FILE, _TABLES, "links and open phones are lost")

    def new_link(self) -> str:
        """Return a new token that opens the pages once [-].

        Raises:
            CannotWriteError: the folder takes nothing.
        """
        token = secrets.token_urlsafe(16)
        with self._file.open() as base:
            base.execute("INSERT INTO link VALUES (?, ?, NULL)", (seal_of(token), self._now().isoformat()))
        return token

    def use_link(self, token: str) -> str | None:
        """Return the token of a new session; None: the link is not known or was used [-].

        Args:
            token: from the link

        Raises:
            CannotWriteError: the folder takes nothing; the link is still good.
        """
        session, now = secrets.token_urlsafe(32), self._now()
        with self._file.open() as base:
            row = (now.isoformat(), seal_of(token))
            if base.execute("UPDATE link SET used = ? WHERE seal = ? AND used IS NULL", row).rowcount != 1:
                return None
            ends = (now + timedelta(days=self.days)).isoformat()
            base.execute("INSERT INTO session VALUES (?, ?, ?)", (seal_of(session), now.isoformat(), ends))
        return session

    def is_open(self, token: str) -> bool:
        """Return whether a session is good [-].

        Args:
            token: from the cookie
        """
        if not token:
            return False
        with self._file.open() as base:
            found = base.execute("SELECT ends FROM session WHERE seal = ?", (seal_of(token),)).fetchone()
        return found is not None and datetime.fromisoformat(found[0]) > self._now()


def seal_of(token: str) -> str:
    """Return what is kept of a token in its place [-].

    Args:
        token: as it was given out
    """
    return sha256(token.encode()).hexdigest()
