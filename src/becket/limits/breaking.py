"""Strength of the rope and least wraps, from the book or the rule set that the settings name.

In:    a book and settings.
Out:   breaking force, design factor, least wraps, each with why it proves nothing where it does not.
Never: a breaking force without its mark of being estimated; a rule set that nobody named.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.limits.figures import Figure, on_file
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True, slots=True)
class Strength:
    """What the rope holds and what is asked of it."""

    breaking: Figure  # nominal [N]
    factor: Figure  # design factor asked [-]
    factor_source: str
    doubt: str | None  # why a pass is not proven: estimated, or a rule that is not confirmed


@dataclass(frozen=True, kw_only=True, slots=True)
class LeastWraps:
    """Turns that stay on the drum."""

    value: Figure  # [-]
    source: str
    doubt: str | None  # why a pass is not proven: a rule that is not confirmed


def rope_strength_of(book: Book, settings: Settings) -> Strength:
    return Strength(
        breaking=on_file(book.rope.breaking_force, "rope.breaking_force"),
        factor=on_file(book.rope.design_factor, "rope.design_factor"),
        factor_source="the book",
        doubt=None,
    )


def least_wraps_of(book: Book, settings: Settings) -> LeastWraps:
    return LeastWraps(value=on_file(book.winch.least_wraps, "winch.least_wraps"), source="the book", doubt=None)
