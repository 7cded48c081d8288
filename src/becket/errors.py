"""Every error a person can meet.

In:    the facts of what went wrong.
Out:   exceptions whose text says what stands there and what would be right.
Never: printing, exit codes.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True, order=True)
class Fault:
    """One slip in a file, with its place. ``line`` and ``column`` count from 1; 0 is the whole file."""

    file: str
    line: int
    column: int
    field: str
    found: str
    wanted: str

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}: {self.field}: {self.found}; {self.wanted}"


class BecketError(Exception):
    """The base of every error that a person can mend."""


class FaultyFileError(BecketError, ValueError):
    """A file cannot be used as it stands; ``faults`` lists every slip, sorted by place."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = tuple(sorted(faults))
        super().__init__("\n".join(str(fault) for fault in self.faults))


class OutOfRangeError(BecketError, ValueError):
    """A quantity lies where its formula means nothing: the field, the value, what is wanted."""

    def __init__(self, field: str, value: object, wanted: str) -> None:
        self.field, self.value, self.wanted = field, value, wanted
        super().__init__(f"{field}: {value}; {wanted}")


class NotReachedError(BecketError, ValueError):
    """The boom does not reach: no angle gives this radius."""


class NotOnFileError(BecketError, LookupError):
    """A state, block, chart or pattern is not in the book; says what is and which page to look for."""


class UnreadableTextError(BecketError, ValueError):
    """A quantity, state, path or date that cannot be read: what stands there, what would be right."""

    def __init__(self, found: str, wanted: str) -> None:
        self.found, self.wanted = found, wanted
        super().__init__(f"{found}; {wanted}")


class RefusedError(BecketError, ValueError):
    """becket will not do this, and says why (a typist confirms himself, a file outside the folder)."""


class CannotWriteError(BecketError, OSError):
    """A file could not be written; nothing half-written is left behind."""


class CannotKeepError(BecketError, OSError):
    """The store could not keep it or give it: disk full, read-only, locked, not reached; nothing is half-written."""


class BrokenStoreError(BecketError, ValueError):
    """The store cannot be used as it is: not a database of becket, damaged, made by a newer becket, guards gone."""


class TooOftenError(BecketError, ValueError):
    """Asked too often, or by too many at once; ``seconds`` says when to come again."""

    def __init__(self, why: str, seconds: int) -> None:
        self.seconds = seconds
        super().__init__(f"{why} Wait {seconds} s, then try again.")
