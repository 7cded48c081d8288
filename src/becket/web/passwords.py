"""Passwords: what is taken as one, what is kept of it, whether another is the same.

In:    a password as it was typed.
Out:   an argon2id hash with its parameters in it; yes or no; why one is not taken.
Never: a password kept; a faster answer where there is nothing to compare with.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from contextlib import contextmanager
from threading import BoundedSemaphore
from typing import Final
from unicodedata import normalize

from argon2 import PasswordHasher, Type
from argon2.exceptions import Argon2Error, InvalidHashError

from becket.errors import TooOftenError

SHORTEST: Final = 12
LONGEST: Final = 128
LEAST_UNLIKE: Final = 5  # different characters
_RUNS: Final = re.compile(r"\d+|\D+")  # of figures, of letters
ROWS: Final = ("abcdefghijklmnopqrstuvwxyz", "0123456789", "qwertyuiopasdfghjklzxcvbnm", "qwertzuiopasdfghjklyxcvbnm")
WORDS: Final = ("password", "passwort", "contraseña", "becket", "letmein", "welcome", "crane")

TIMES: Final = 3
MEMORY: Final = 64 * 1024  # KiB
LANES: Final = 4
AT_ONCE: Final = 2  # of 64 MiB each
WAITING: Final = 6  # besides; who comes then is told to come again


def our_hasher() -> PasswordHasher:
    """Return the hasher of a real server: argon2id, RFC 9106, the second recommended choice [-]."""
    return PasswordHasher(time_cost=TIMES, memory_cost=MEMORY, parallelism=LANES, type=Type.ID)


class Passwords:
    """Hashes and compares, a few at once."""

    def __init__(self, hasher: PasswordHasher | None = None) -> None:
        self._hasher = hasher or our_hasher()
        self._room, self._work = BoundedSemaphore(AT_ONCE + WAITING), BoundedSemaphore(AT_ONCE)
        self._nobodys = self._hasher.hash("nobody has this password")

    def hashed(self, password: str) -> str:
        """Return what is kept of a password [-].

        Args:
            password: as typed

        Raises:
            TooOftenError: too many at once.
        """
        with self._turn():
            return self._hasher.hash(tidy(password))

    def is_same(self, kept: str | None, password: str) -> bool:
        """Return whether a password is the one that was kept; with none kept it takes as long and is not [-].

        Args:
            kept: of ``hashed``; None: there is none
            password: as typed

        Raises:
            TooOftenError: too many at once.
        """
        with self._turn():
            try:
                is_same = self._hasher.verify(kept or self._nobodys, tidy(password)[: 4 * LONGEST])
            except (Argon2Error, InvalidHashError):
                return False
        return is_same and kept is not None

    def is_old(self, kept: str) -> bool:
        """Return whether it was hashed with other parameters than are used now [-].

        Args:
            kept: of ``hashed``
        """
        return self._hasher.check_needs_rehash(kept)

    @contextmanager
    def _turn(self) -> Iterator[None]:
        if not self._room.acquire(blocking=False):
            raise TooOftenError("Too many sign in at this moment.", 3)
        try:
            with self._work:
                yield
        finally:
            self._room.release()


def tidy(password: str) -> str:
    """Return a password as it is hashed: the same letters, however the keyboard puts them together [-].

    Args:
        password: as typed
    """
    return normalize("NFC", password)


def why_not_taken(password: str, name: str) -> str | None:
    """Return why a password is not taken, the key of its words; None: it is taken [-].

    Args:
        password: as typed
        name: of whose account it would be

    >>> why_not_taken("four grey herons", "Ada"), why_not_taken("123456789012", "Ada")
    (None, 'accounts.fault.trivial')
    """
    plain = tidy(password)
    if len(plain) < SHORTEST:
        return "accounts.fault.short"
    if len(plain) > LONGEST:
        return "accounts.fault.long"
    return "accounts.fault.trivial" if _is_trivial(plain.casefold(), name.casefold()) else None


def _is_trivial(password: str, name: str) -> bool:
    letters = "".join(one for one in password if one.isalnum())
    of_name = "".join(one for one in name if one.isalnum())
    if len(set(password)) < LEAST_UNLIKE:
        return True
    rows = (f"{row * 2} {row[::-1] * 2} " for row in ROWS)
    every = "".join(rows)
    if letters and all(run in every for run in _RUNS.findall(letters)):  # asdfghjkl123: two rows behind one another
        return True
    rest = letters.rstrip("0123456789")
    return bool(rest) and rest in (*WORDS, *(word * 2 for word in WORDS), of_name, of_name * 2)
