"""Wrong passwords and wrong invitations: how many, and how long to wait for the next.

In:    a name, an address; the clock.
Out:   leave to try, or the seconds to wait; kept in the file, a new start forgets nothing.
Never: a name or an address in the clear; a right password that shortens the wait of another.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import datetime, timedelta
from ipaddress import IPv6Address, ip_address
from math import ceil
from typing import Final

from becket.errors import TooOftenError
from becket.web.sessions import seal_of
from becket.web.side_file import SideFile

TABLES: Final = "CREATE TABLE IF NOT EXISTS tries (what TEXT PRIMARY KEY, wrong INTEGER, until REAL, last REAL);\n"
FREE: Final = {"name": 5, "address": 20}  # wrong ones before the first wait: a crew shares one address
FIRST: Final = 30  # s; then twice as long each time
LONGEST: Final = 900  # s
# after the last one; many share an address
FORGOTTEN: Final = {"name": timedelta(days=1), "address": timedelta(hours=1)}

Tried = tuple[tuple[str, float], ...]  # what is counted, and the wait that this try has set


class Tries:
    """Counts before it is known whether a try is right: many at once are no more than one after another."""

    def __init__(self, file: SideFile, now: Callable[[], datetime]) -> None:
        self._file, self._now = file, now

    def begin(self, *, name: str | None, address: str) -> Tried:
        """Count a try as wrong, and return what ``right`` takes back [-].

        Args:
            name: that is tried; None: none is
            address: of the network, from where

        Raises:
            TooOftenError: it is not the time yet; nothing is counted, nothing may be looked at.
        """
        now = self._now().timestamp()
        counted = [("name", name)] if name is not None else []
        keys = {f"{kind} {seal_of(what)}": FREE[kind] for kind, what in (*counted, ("address", network_of(address)))}
        with self._file.open(is_write=True) as base:
            for kind, span in FORGOTTEN.items():
                old = (f"{kind} %", now - span.total_seconds())
                base.execute("DELETE FROM tries WHERE what LIKE ? AND last < ?", old)
            marks = ", ".join("?" * len(keys))
            rows = base.execute(f"SELECT what, wrong, until FROM tries WHERE what IN ({marks})", tuple(keys)).fetchall()
            left = max((_left(until, now) for _, _, until in rows), default=0)
            if left > 0:
                raise TooOftenError("Wrong too often.", left)
            wrong = {what: number for what, number, _ in rows}
            tried = []
            for key, free in keys.items():
                number = wrong.get(key, 0) + 1
                until = now + _wait(number, free)
                base.execute("REPLACE INTO tries VALUES (?, ?, ?, ?)", (key, number, until, now))
                tried.append((key, until))
        return tuple(tried)

    def right(self, tried: Iterable[tuple[str, float]]) -> None:
        """Take back what was counted: the name begins anew, the address is one better [-].

        Args:
            tried: of ``begin``
        """
        with self._file.open(is_write=True) as base:
            for key, until in tried:
                if key.startswith("name "):
                    base.execute("DELETE FROM tries WHERE what = ?", (key,))
                    continue
                base.execute("UPDATE tries SET wrong = wrong - 1 WHERE what = ?", (key,))
                base.execute("UPDATE tries SET until = 0 WHERE what = ? AND until = ?", (key, until))


def network_of(address: str) -> str:
    """Return what is counted as one address: IPv6 by the network of a house [-].

    Args:
        address: of who asks

    >>> network_of("192.0.2.7"), network_of("2001:db8::7"), network_of("testclient")
    ('192.0.2.7', '2001:db8::', 'testclient')
    """
    try:
        found = ip_address(address)
    except ValueError:
        return address[:100]
    return str(IPv6Address(int(found) >> 64 << 64)) if isinstance(found, IPv6Address) else str(found)


def _wait(wrong: int, free: int) -> float:
    return 0.0 if wrong < free else float(min(LONGEST, FIRST * 2 ** min(wrong - free, 10)))


def _left(until: float, now: float) -> int:
    """Return the whole seconds to wait; a clock that was set back makes no wait longer than the longest."""
    return 0 if until <= now else min(LONGEST, ceil(until - now))
