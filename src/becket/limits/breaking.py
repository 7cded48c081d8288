"""Strength of the rope and least wraps, from the book or the rule set that the settings name.

In:    a book and settings.
Out:   breaking force, design factor, least wraps, each with why it proves nothing where it does not.
Never: a breaking force without its mark of being estimated; a rule set that nobody named.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.limits.figures import Figure, missing
from becket.mechanics.rope import breaking_force_of_class
from becket.settings.rope_classes import class_of
from becket.settings.rules import RuleFigure, design_factor_wanted, least_wraps
from becket.settings.values import Settings

PASCALS_PER_MEGAPASCAL = 1e6  # the book keeps the grade as it is printed, N/mm2


@dataclass(frozen=True, kw_only=True, slots=True)
class Strength:
    """What the rope holds and what is asked of it."""

    breaking: Figure  # nominal [N]
    factor: Figure  # design factor asked [-]
    factor_source: str
    doubt: str | None  # why a pass is not proven: estimated, found worn, or a rule that is not confirmed


@dataclass(frozen=True, kw_only=True, slots=True)
class LeastWraps:
    """Turns that stay on the drum."""

    value: Figure  # [-]
    source: str
    doubt: str | None  # why a pass is not proven: a rule that is not confirmed


def rope_strength_of(book: Book, settings: Settings) -> Strength:
    """Return what the rope holds and what is asked of it [-].

    Args:
        book: the crane; its figures go before a rule set
        settings: with the rule set that is named, or none

    Source: docs/theory/rope.md, eq. 1 and 3; docs/theory/limits.md, "Strength of the rope".
    """
    factor, source, unconfirmed = _design_factor(book, settings)
    breaking, estimated = _breaking_force(book)
    doubts = [doubt for doubt in (estimated, unconfirmed, _wear(book)) if doubt]
    return Strength(breaking=breaking, factor=factor, factor_source=source, doubt=" ".join(doubts) or None)


def _wear(book: Book) -> str | None:
    found = book.rope.found_worn
    if found is None:
        return None
    return (
        f"The rope was found worn or damaged on {found} (rope.found_worn): what it holds now is not known. "
        "A competent person inspects it; take that line out of the book when the rope is cut, replaced or found fit."
    )


def least_wraps_of(book: Book, settings: Settings) -> LeastWraps:
    """Return the turns that stay on the drum, of the book, else of the rule set named [-].

    Args:
        book: the crane
        settings: with the rule set that is named, or none

    Source: docs/theory/limits.md, "Rope".
    """
    if book.winch.least_wraps is not None:
        return LeastWraps(value=float(book.winch.least_wraps), source="the book", doubt=None)
    rule = least_wraps(settings.rules) if settings.rules else None
    if rule is None:
        return LeastWraps(value=missing("winch.least_wraps"), source="", doubt=None)
    return LeastWraps(value=rule.value, source=rule.cited, doubt=_unconfirmed(rule))


def _design_factor(book: Book, settings: Settings) -> tuple[Figure, str, str | None]:
    rope = book.rope
    if rope.design_factor is not None:
        return rope.design_factor, book.sources.get("rope.design_factor", "the book"), None
    rule = design_factor_wanted(settings.rules, rope.rotation_resistant, rope.type) if settings.rules else None
    if rule is None:
        return missing("rope.design_factor"), "", None
    return rule.value, rule.cited, _unconfirmed(rule)


def _breaking_force(book: Book) -> tuple[Figure, str | None]:
    rope = book.rope
    if rope.breaking_force is not None:
        return rope.breaking_force, None
    kind = class_of(rope.construction) if rope.grade is not None else None
    if kind is None or rope.grade is None:
        return missing("rope.breaking_force"), None
    grade = rope.grade * PASCALS_PER_MEGAPASCAL
    return (
        breaking_force_of_class(rope.diameter, grade, kind.force_factor),
        f"The breaking force is estimated from the class {kind.rope_class}-{kind.core}, {rope.grade:.0f} N/mm2 "
        f"({kind.source}): it proves nothing, look it up on the rope's certificate.",
    )


def _unconfirmed(rule: RuleFigure) -> str | None:
    return f"{rule.source} is from memory and proves nothing: check the current text." if rule.is_from_memory else None
