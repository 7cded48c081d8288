"""Trouble and inspections of a crane in words.

In:    the events of a crane and of the firm; what locks it out.
Out:   plain text for the page.
Never: a judgement whether a crane is fit.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from becket.guide.event import Event, Plain
from becket.web.present.record import moment_to_minute
from becket.web.present.record_kept import Person, Word, people_of

KINDS = ("wrong reeve", "two-block", "shock")


@dataclass(frozen=True, kw_only=True)
class LockedWords:
    """What locks a crane out."""

    what: str
    by: str


@dataclass(frozen=True, kw_only=True)
class TroubleRow:
    """One thing that was entered."""

    what: str
    by: str
    lines: tuple[str, ...]


def locked_words(locked: Plain, events: Iterable[Event], word: Word) -> LockedWords:
    """Return what locks a crane out, in words [-].

    Args:
        locked: as crane_now gives it
        events: of the crane and of the firm
        word: the catalogue
    """
    people = people_of(events)
    by = _by(people, str(locked.get("by")), str(locked.get("at")), word)
    return LockedWords(what=kind_words(locked.get("what"), word), by=by)


def trouble_rows(events: Iterable[Event], word: Word) -> tuple[TroubleRow, ...]:
    """Return every trouble and inspection of a crane, the newest first [-].

    Args:
        events: of the crane and of the firm, in order
        word: the catalogue
    """
    every = tuple(events)
    people = people_of(every)
    rows = [_row(event, people, word) for event in every if event.kind in ("trouble_entered", "inspection_entered")]
    return tuple(reversed(rows))


def kind_words(what: object, word: Word) -> str:
    """Return what happened, in words [-].

    Args:
        what: as entered
        word: the catalogue
    """
    return word(f"trouble.kind.{what}") if what in KINDS else str(what)


def _row(event: Event, people: Mapping[str, Person], word: Word) -> TroubleRow:
    by = _by(people, str(event.person), event.at, word)
    entered = event.entered
    if event.kind == "trouble_entered":
        note = str(entered.get("note") or "")
        return TroubleRow(what=kind_words(entered.get("what"), word), by=by, lines=(note,) if note else ())
    licence = str(entered.get("licence") or word("trouble.licence_none"))
    key = "trouble.fit_said" if entered.get("fit") is True else "trouble.not_fit_said"
    found = str(entered.get("found") or "")
    what = word(key, by_whom=entered.get("by_whom"), licence=licence)
    return TroubleRow(what=what, by=by, lines=(found,) if found else ())


def _by(people: Mapping[str, Person], person: str, at: str, word: Word) -> str:
    name = people[person].name if person in people else person
    return word("trouble.locked_by", name=name, at=moment_to_minute(at))
