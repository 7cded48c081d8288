"""What is known of a run at one moment: what is done, what is asked next, what differs, what is still missing.

In:    nothing.
Out:   frozen records.
Never: the rules that make them: run.py, course.py.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from becket.guide.event import Plain

SEALED: Final[Plain] = {"sealed": True}


@dataclass(frozen=True, kw_only=True)
class Attempt:
    """A value that was entered and is not what the step asks for. It is kept."""

    by: str | None
    at: str
    round: int
    values: Plain
    why: str


@dataclass(frozen=True, kw_only=True)
class ItemState:
    """One item as far as it has come. ``done`` False: every other fact but the attempts is None."""

    done: bool
    by: str | None = None
    role: str | None = None
    device: str | None = None
    at: str | None = None
    values: Plain | None = None  # SEALED: a blind count that is not complete
    round: int  # in which it was done, or is asked
    attempts: tuple[Attempt, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Entry:
    """What one person saw, alone, in one round of a group."""

    item: str
    role: str
    by: str
    device: str
    at: str
    values: Plain


@dataclass(frozen=True, kw_only=True)
class Round:
    """One compared round of a group. Every one is kept."""

    group: str
    round: int
    agreed: bool
    entries: tuple[Entry, ...]
    why: str | None  # None: agreed
    finds: str | None  # the state that the counts found: "main:4"


@dataclass(frozen=True, kw_only=True)
class Stop:
    """A run left safe."""

    item: str | None
    left: tuple[object, ...]  # texts that were shown: what had to hold before walking away
    told: object
    by: str | None
    at: str


@dataclass(frozen=True, kw_only=True)
class Resume:
    """What was found on coming back, against what was kept."""

    by: str | None
    at: str
    kept: Plain | None  # None: the item keeps nothing
    seen: Plain
    differs: tuple[str, ...]  # names of the values that are not as kept
    restarted: str | None  # the pause that starts again
    why: tuple[str, ...]  # in words


@dataclass(frozen=True, kw_only=True)
class Signature:
    """One person's signature under own values."""

    by: str
    at: str
    device: str


@dataclass(frozen=True, kw_only=True)
class RunState:
    """A run, as its events make it. The rules: docs/theory/run.md."""

    status: str  # "open", "stopped", "closed"
    at: str | None  # item that is asked; of a group that differs its first item
    round: int | None  # that an entry of this item has to name
    screen: str  # "item", "waiting", "differ", "follow_by_hand", "stopped", "not_as_kept", "sign", "closed"
    order: tuple[str, ...]  # ids of all items as this run asks them, the lot drawn
    items: Mapping[str, ItemState]
    rounds: Mapping[str, int]  # of every group and every pause
    differ: Round | None
    rounds_kept: tuple[Round, ...]
    people: Mapping[str, str | None]  # "operator", "rigger"
    stop: Stop | None
    resume: Resume | None  # the last one, until the next entry
    signed: Mapping[str, Signature]
    missing: tuple[str, ...]  # what keeps it from closing, in words
    devices: tuple[str, ...]  # in the order in which they came in
    one_device: bool  # every blind count came from one device
    out_of_turn: tuple[str, ...]  # keys of events that count for nothing
    late: tuple[str, ...]  # keys of events that came after the close
    started: str | None
    ended: str | None
    result: str | None  # the state that was closed with: "main:4"
