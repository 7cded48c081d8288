"""What a pattern check needs and what it says.

In:    a crane book, settings, a pattern, the fall lengths to look at.
Out:   one frozen record with the places of the falls; one frozen record for each finding.
Never: a check.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import Block, Pattern
from becket.reeving.places import FallPlaces, fall_places, sides_missing
from becket.settings.values import Settings
from becket.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class Finding:
    """One thing looked at, in a pattern or a run: what it is called, its verdict, and why with what to do."""

    name: str
    verdict: Verdict
    why: str


@dataclass(frozen=True, kw_only=True)
class PatternCase:
    """A pattern with everything its checks share."""

    book: Book
    settings: Settings
    pattern: Pattern
    block: Block | None  # None: the book has no such block
    places: FallPlaces | None  # None: a sideways place is not on file
    lacking: tuple[str, ...]  # what keeps the places from being known
    least_fall: float | None  # head shaft to block shaft, shortest [m]
    greatest_fall: float | None  # longest [m]
    hook_load: float | None  # at which the loaded block is looked at [kg]


def pattern_case(book: Book, settings: Settings, pattern: Pattern) -> PatternCase:
    """Return a pattern with what its checks share, at no fall length and no load of a lift [-].

    Args:
        book: the crane
        settings: in force
        pattern: of the book

    Source: docs/theory/reeving.md, "Checks".
    """
    return PatternCase(
        book=book,
        settings=settings,
        pattern=pattern,
        block=book.blocks.get(pattern.block),
        places=fall_places(book, pattern),
        lacking=sides_missing(book, pattern),
        least_fall=None,
        greatest_fall=None,
        hook_load=None,
    )
