"""A record of a run as it is told: to a page and to paper, the same words on both.

In:    nothing.
Out:   frozen records of plain text.
Never: deciding what is said; a template; a value that is still hidden.
"""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, kw_only=True)
class Line:
    """One thing that the record holds: what, the value, and who, when, on which device below it."""

    label: str
    value: str
    below: tuple[str, ...] = ()


@dataclass(frozen=True, kw_only=True)
class PhotoTold:
    """One photo of the record: what it is of, who took it and when, both hashes below it."""

    photo: str  # SHA-256 of the original
    title: str
    note: str
    below: tuple[str, ...]
    missing: str  # why it is not shown; "" where it is
    width: int  # [px]
    height: int  # [px]
    data: bytes | None = field(repr=False)  # JPEG, as it is kept


@dataclass(frozen=True, kw_only=True)
class Section:
    """A part of the record. ``says``: sentences that an auditor reads first."""

    name: str  # "counts", "path": the anchor on the page
    title: str
    says: tuple[str, ...] = ()
    lines: tuple[Line, ...] = ()
    photos: tuple[PhotoTold, ...] = ()
    is_long: bool = False  # folded on the page, small on paper
    is_folded: bool = False  # folded on the page: it opens with one tap
    is_count: bool = False  # what persons saw, each alone
    is_empty: bool = False  # nothing of the kind happened; ``says`` says so


@dataclass(frozen=True, kw_only=True)
class Signer:
    """One of the two persons of a run."""

    role: str
    name: str
    licence: str
    signed: str  # "signed 15:48:02" or "not signed"


@dataclass(frozen=True, kw_only=True)
class RecordTold:
    """A whole record, ready to be set."""

    run: str  # id
    crane: str
    manual: str  # title and issue
    book: str  # fingerprint of the book that the run began with
    status: str  # "open", "stopped", "closed"
    title: str  # "4 falls, main block, since Mon 30 Nov 15:31"
    what: str  # "2 falls, main block → 4 falls, main block"
    state: str  # what stands above the title: "closed", "NOT CLOSED", "STOPPED"
    signers: tuple[Signer, ...]
    closing: str  # "Signed 15:48. It cannot be changed. Add a note."
    sections: tuple[Section, ...]
    head_hash: str  # of the chain, at the last event of the run
    last_number: int
    broken: str = ""  # that it is not as it was kept, and what to do; "" where it is
