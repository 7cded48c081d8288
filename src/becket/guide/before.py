"""The screen before a change: where the boom goes, what comes out, how long it takes.

In:    a crane book, a change that passes.
Out:   labels with their values; warnings.
Never: a figure that the change does not have.
"""

from __future__ import annotations

from math import ceil

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.guide.figures_said import degrees_said, up
from becket.guide.script import Reeving
from becket.method.change import Change
from becket.method.step_words import CAUTIONS
from becket.reeving.seal import is_confirmed


def facts_before(book: Book, change: Change) -> tuple[tuple[str, str], ...]:
    """Return what is read before a change begins: label and value [-].

    Args:
        book: the crane
        change: that passes
    """
    return (*_position(change), *_work(change), *_manual(book, change))


def warnings_before(change: Change) -> tuple[str, ...]:
    """Return what is said before a change begins: what is asked at the crane, what the time leaves out, cautions [-].

    Args:
        change: that passes
    """
    asked = f"Not given, measured at the crane: {', '.join(change.asked)}." if change.asked else ""
    left = change.minutes.not_counted if change.minutes is not None else ()
    more = f"Not in the time: {'; '.join(left)}." if left else ""
    return tuple(text for text in (asked, more, *CAUTIONS) if text)


def reeving_of(book: Book, pattern: Pattern) -> Reeving:
    """Return a pattern as the counts find it [-].

    Args:
        book: the crane
        pattern: of the book
    """

    def sheaves(place: str) -> tuple[int, ...]:
        return tuple(one.sheave for one in pattern.path if one.place == place)

    return Reeving(
        state=str(pattern.state),
        block=pattern.block,
        falls=pattern.falls,
        head_sheaves=sheaves("head"),
        block_sheaves=sheaves("block"),
        dead_end=pattern.dead_end,
        is_confirmed=is_confirmed(book, pattern),
    )


def _position(change: Change) -> tuple[tuple[str, str], ...]:
    position, leave = change.position, change.rope_to_leave
    if position is None:
        return ()
    target = leave.target if leave is not None else None
    hook = f"{target:.1f} m at {degrees_said(leave.at_angle)}" if leave is not None and target is not None else "?"
    return (
        ("Boom", f"{position.length:.1f} m, code {position.code}"),
        ("Boom down to", degrees_said(position.angle)),
        ("Over the", position.sector),
        ("Head at radius", f"{up(position.radius, 1):.1f} m"),
        ("Free radius needed", f"{up(position.free_radius_needed, 1):.1f} m"),
        ("Counterweight", f"{position.counterweight / 1000:g} t"),
        ("Outriggers", position.outriggers),
        ("Wind at most", f"{position.wind:.0f} m/s" if position.wind is not None else "not on file: see the manual"),
        ("Hook under the head", hook),
    )


def _work(change: Change) -> tuple[tuple[str, str], ...]:
    minutes = change.minutes
    time = "not known"
    if minutes is not None:
        basis = f"median of {minutes.records} own records" if minutes.from_records else "estimate"
        time = f"{ceil(minutes.total / 60 - 1e-6)} min, {basis}"
    return (
        ("Keepers that come out", ", ".join(change.keepers) or "none"),
        ("Rope comes out of", ", ".join(map(str, change.draw_out)) or "no sheave"),
        ("Stays rigged", ", ".join(map(str, change.keep)) or "nothing"),
        ("Rope goes through", ", ".join(map(str, change.thread)) or "no sheave"),
        ("Time", time),
    )


def _manual(book: Book, change: Change) -> tuple[tuple[str, str], ...]:
    patterns = (change.facts.before_pattern, change.facts.after_pattern)
    position = change.position.page if change.position is not None else None
    pages = dict.fromkeys(page for page in (position, *(p.page for p in patterns if p is not None)) if page)
    issue = f", issue {book.manual_issue}" if book.manual_issue else ""
    return (("Manual", f"{book.manual_title}{issue}, pages {', '.join(pages)}" if pages else book.manual_title),)
