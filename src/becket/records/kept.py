"""What the store gives back.

In:    rows.
Out:   frozen records.
Never: a database.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from becket.guide.event import Event

DOCUMENT_KINDS: Final = ("book", "settings", "jobs", "script")


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What became of one event that was handed in: its number, or why it is refused."""

    key: str
    number: int | None
    refused: str | None
    is_new: bool  # False: it was there before, or it is refused


@dataclass(frozen=True, kw_only=True)
class Kept:
    """One event as it is kept."""

    event: Event
    number: int  # from 1, no gap, over all cranes
    received: str  # the server's clock
    before: str  # hash of the event before
    hash: str


@dataclass(frozen=True, kw_only=True)
class Head:
    """The end of the chain: number and hash of the last event; number 0 where there is none."""

    number: int
    hash: str


@dataclass(frozen=True, kw_only=True)
class Mark:
    """By what a store is known again: the last event and the last document of one moment."""

    head: Head
    documents: int  # number of the last; 0: there is none
    document: str  # its fingerprint


@dataclass(frozen=True, kw_only=True)
class News:
    """Events and the end of the chain, both of the same moment."""

    kept: tuple[Kept, ...]
    head: Head


@dataclass(frozen=True, kw_only=True)
class Document:
    """A text that events name by its fingerprint: a book, settings, a job sheet, a script."""

    kind: str  # one of DOCUMENT_KINDS
    fingerprint: str
    text: str
