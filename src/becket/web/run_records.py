"""The records of a crane, found in the store.

In:    the house, a crane, the id of a run.
Out:   what a record is told from; what two persons signed, for the window card.
Never: a blind entry before its time; a window card that two persons have not signed.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime
from math import ceil
from pathlib import Path
from tempfile import TemporaryDirectory

from becket.book.crane import Book
from becket.cards.window_card import Signed
from becket.errors import NotOnFileError, RefusedError
from becket.guide.closing import limit_tried
from becket.guide.crane_now import last_lock_out_ended
from becket.guide.event import FIRM, order_of
from becket.guide.run import fold_run, in_order
from becket.guide.script import Script
from becket.guide.sealed import sealed_keys
from becket.guide.taken import time_taken
from becket.intake.book import read_book
from becket.planning.crew_records import crew_time
from becket.records.chain import fingerprint_of
from becket.records.kept import Kept
from becket.records.run_links import first_broken_link
from becket.reeving.words import read_state
from becket.web.crane_files import CraneFile
from becket.web.house import House
from becket.web.photos import photo_bytes, photos_in
from becket.web.present.record_kept import Person, RunKept, Word, people_of, run_kept
from becket.web.present.taught import Taught

OF_LOCK_OUT = ("trouble_entered", "inspection_entered")
PLACE_TO_WRITE = "................"  # nobody enters the name of the place; it is written by hand


def records_of(house: House, crane: str, word: Word) -> dict[str, RunKept]:
    """Return what every record of a crane is told from, by run, the newest first [-].

    A run whose script is not kept is left out: nothing can be said of it.

    Args:
        house: with the store
        crane: its id
        word: the catalogue
    """
    by_run: dict[str, list[Kept]] = defaultdict(list)
    for one in house.store.read(crane):
        if one.event.run is not None:
            by_run[one.event.run].append(one)
    people = people_of(one.event for one in house.store.read(FIRM))
    found = {name: _record(house, kept, people, word) for name, kept in by_run.items()}
    known = {name: run for name, run in found.items() if run is not None}
    return dict(sorted(known.items(), key=lambda item: item[1].kept[0].number, reverse=True))


def record_of(house: House, crane: str, run: str, word: Word) -> RunKept:
    """Return what one record is told from [-].

    Args:
        house: with the store
        crane: its id
        run: id of the run
        word: the catalogue

    Raises:
        NotOnFileError: no such record of this crane.
    """
    people = people_of(one.event for one in house.store.read(FIRM))
    found = _record(house, house.store.read(crane, run=run), people, word)
    if found is None:
        raise NotOnFileError(word("record.no_such", run=run))
    return replace(
        found,
        pictures=_pictures(house, found),
        taught=_taught(house, crane, run, found),
        broken=_broken(house, found),
        is_given_up=_is_given_up(house, crane, found),
    )


def signed_of(run: RunKept) -> Signed:
    """Return what two persons signed, for the window card [-].

    Args:
        run: a closed one

    Raises:
        RefusedError: it is not closed by both, not as it was kept, or was given up by an inspection.
    """
    state = run.state
    if run.broken is not None:
        raise RefusedError(run.word("record.broken", what=run.broken))
    if run.is_given_up:
        raise RefusedError(run.word("record.given_up"))
    if state.status != "closed" or state.result is None or state.ended is None:
        raise RefusedError(run.word("record.window_refused"))
    setting = next(
        (one for one in reversed(state.rounds_kept) if one.agreed and _is_indicator(run.script, one.group)), None
    )
    limit = limit_tried(run.script, state)
    return Signed(
        falls=read_state(state.result).falls,
        setting=_whole(setting.entries[0].values.get("falls")) if setting else None,
        wraps_left=_last_number(run, "wraps"),
        limit_tried=_number((state.items[limit.id].values or {}).get("distance")) if limit else None,
        rigged_at=f"{datetime.fromisoformat(state.ended):%Y-%m-%d %H:%M}, {PLACE_TO_WRITE}",
    )


def book_of(house: House, crane: CraneFile, fingerprint: str) -> Book:
    """Return the book that a run began with, as it was then [-].

    Args:
        house: with the store
        crane: as its files say now
        fingerprint: of the book

    Raises:
        NotOnFileError: that state of the book is not kept.
    """
    if crane.book is not None and crane.fingerprint == fingerprint:
        return crane.book
    document = house.store.document(fingerprint)
    if document is None or document.kind != "book":
        raise NotOnFileError(f"state {fingerprint} of the book is not kept; the window card needs it")
    with TemporaryDirectory() as folder:
        path = Path(folder) / crane.path.name
        path.write_bytes(document.text.encode("utf-8"))
        return read_book(path, crane.settings).book


def _record(
    house: House, kept: tuple[Kept, ...] | list[Kept], people: Mapping[str, Person], word: Word
) -> RunKept | None:
    events = [one.event for one in kept]
    scripts = house.scripts(events)
    if len(scripts) != 1:
        return None
    (script,) = scripts.values()
    sealed = sealed_keys(script, events)
    return run_kept(script, fold_run(script, events), kept, people=people, sealed=sealed, word=word)


def _broken(house: House, run: RunKept) -> str | None:
    """Return what of a record is not as it was kept, in words; None: all that it is told from is."""
    number = first_broken_link(house.store.database, [one.number for one in run.kept])
    if number is not None:
        return run.word("record.broken_event", number=number)
    name = str(run.of_kind("run_started")[0].event.entered.get("script"))
    for wanted, key in ((name, "record.broken_script"), (run.script.book, "record.broken_book")):
        document = house.store.document(wanted)
        if document is not None and fingerprint_of(document.text) != wanted:
            return run.word(key)
    return None


def _is_given_up(house: House, crane: str, run: RunKept) -> bool:
    """Whether an inspection ended a lock-out while the run was open: what it says hangs was not counted after that."""
    first = min(order_of(one.event) for one in run.kept)
    last = max(order_of(one.event) for one in run.of_kind("run_started", "entered", "signed"))
    told = in_order(one.event for one in house.store.read(crane) if one.event.kind in OF_LOCK_OUT)
    ended = (last_lock_out_ended(told[: at + 1]) for at in range(len(told)))
    return any(one is not None and first < order_of(one) < last for one in ended)


def _taught(house: House, crane: str, name: str, run: RunKept) -> Taught | None:
    """Return what a closed change taught; None: it is none."""
    script = run.script
    if script.kind != "change" or run.state.status != "closed" or script.before is None or script.after is None:
        return None
    file = house.crane(crane)
    learned = time_taken(file.settings, script, run.state, [one.event for one in run.kept])
    own = house.crew_records(file).get((read_state(script.before), read_state(script.after)), ())
    return Taught(
        taken=learned.taken,
        why=learned.why,
        place=next((place for place, one in enumerate(own, 1) if one.run == name), None),
        time=crew_time(file.settings, own),
        needed=ceil(file.settings.records_needed),
    )


def _pictures(house: House, run: RunKept) -> dict[str, bytes]:
    """Return the photos of a run that are as they were kept, by the hash of their original [-]."""
    seen = photos_in([one.event for one in run.kept])
    found = {one.photo.photo: photo_bytes(house, one.photo.photo, one.kept) for one in seen if one.kept}
    return {name: data for name, data in found.items() if data is not None}


def _is_indicator(script: Script, name: str) -> bool:
    return any(group.name == name and group.compare == "indicator" for group in script.groups)


def _last_number(run: RunKept, name: str) -> float | None:
    """Return the last value of this name that counts; None: nobody was asked."""
    found: float | None = None
    for item in run.state.order:
        values = run.state.items[item].values or {}
        if run.state.items[item].done and name in values:
            found = _number(values[name])
    return found


def _number(value: object) -> float | None:
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _whole(value: object) -> int | None:
    return value if isinstance(value, int) and not isinstance(value, bool) else None
