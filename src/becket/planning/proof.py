"""Whether the changes of a plan have a method that passes every rule.

In:    a crane book, settings, a job sheet, the changes that a search chose.
Out:   the changes that have none, each with what stops it.
Never: searching; a proof of a change that nobody chose.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from becket.book.crane import Book
from becket.book.jobs import JobSheet
from becket.book.tackle import State
from becket.method.change import Change, work_out_change
from becket.method.site import Site
from becket.planning.model import Model
from becket.planning.places import Pair
from becket.planning.search import Move
from becket.reeving.words import read_state
from becket.settings.values import Settings
from becket.verdict import Verdict


def unproved_changes(
    book: Book, settings: Settings, sheet: JobSheet, model: Model, moves: Iterable[Move]
) -> dict[Pair, str]:
    """Return the chosen changes that have no method which passes every rule, each with what stops it [-].

    Args:
        book: the crane
        settings: in force
        sheet: the coming jobs
        model: that was searched
        moves: changes that the search chose

    Source: docs/theory/planning.md, "Proof".
    """
    found: dict[Pair, str] = {}
    for move in moves:
        pair = (read_state(move.before), read_state(move.after))
        if pair not in found:
            job = model.changes[move.before_group][move.place].job
            why = _what_stops(book, settings, pair, _sites(book, sheet, job))
            found.update({pair: why} if why is not None else {})
    return found


def _what_stops(book: Book, settings: Settings, pair: tuple[State, State], sites: Iterator[Site]) -> str | None:
    """Return what stops a change on all of the sites; None: it passes on one of them."""
    why = "there is no site for it"
    for site in sites:
        change = work_out_change(book, settings, *pair, site)
        if change.verdict is Verdict.PASS:
            return None
        why = _why(change)
    return f"No method passes: {why}."


def _sites(book: Book, sheet: JobSheet, job: int | None) -> Iterator[Site]:
    if job is not None:
        at = sheet.jobs[job]
        yield Site(counterweight=at.counterweight, outriggers=at.outriggers, free_radius=at.free_radius)
        return
    radius = sheet.yard.free_radius if sheet.yard else None
    for weight, pads in dict.fromkeys((row.counterweight, row.outriggers) for row in book.rereeve):
        yield Site(counterweight=weight, outriggers=pads, free_radius=radius)


def _why(change: Change) -> str:
    said = [reason.why for reason in change.reasons if reason.verdict is not Verdict.PASS]
    said += [f"rule {rule.name}: {rule.why}" for rule in change.rules if rule.verdict is not Verdict.PASS]
    return said[0] if said else "its verdict is unknown"
