"""The house: the folder of one firm, its cranes as their files say now, and the store of what was done.

In:    a folder of crane books and job sheets.
Out:   cranes, plans, changes and scripts; each worked out once for a state of the files.
Never: a figure of an older file where the newer one cannot be read; writing into a book.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from copy import copy
from datetime import UTC, datetime
from pathlib import Path
from threading import RLock
from typing import Any, Final, TypeVar
from uuid import uuid4

from becket.book.crane import Book
from becket.book.tackle import State
from becket.errors import FaultyFileError, NotOnFileError, RefusedError
from becket.guide.count_script import count_script
from becket.guide.crane_now import CraneNow, crane_now
from becket.guide.event import Event
from becket.guide.script import Script
from becket.intake.settings import FILE_NAME as SETTINGS
from becket.intake.settings import read_settings
from becket.method.change import Change, work_out_change
from becket.method.facts import Around
from becket.planning.answer import Plan
from becket.planning.crew_records import CrewRecords
from becket.planning.plan import plan_sheet
from becket.records.store import Store, store_place
from becket.settings.values import Settings
from becket.web.change_site import KnownSite, site_for
from becket.web.crane_files import CraneFile, CraneFiles
from becket.web.crane_log import CraneLog
from becket.web.crew_minutes import CrewMinutes
from becket.web.feed import HiddenKeys
from becket.web.remembered import Remembered
from becket.web.script_once import script_once
from becket.web.script_pictures import script_of_change
from becket.web.script_shelf import ScriptShelf
from becket.web.sessions import Sessions
from becket.web.store_watch import StoreWatch

T = TypeVar("T")

_WORKED_OUT: Final = 500  # plans and changes in memory
_NAMED: Final = 5000  # ids of scripts
_CRANES: Final = 1000  # of which is known what stands

ScriptNamed = tuple[str, str | None, str | None]  # id, before, after


def moment_now() -> str:
    """Return this moment on the server's clock, ISO 8601 [-]."""
    return datetime.now(UTC).isoformat(timespec="milliseconds")


class House:
    """One firm's folder. Its methods may be called from several threads."""

    def __init__(self, folder: Path, store: Store, sessions: Sessions) -> None:
        self.folder, self.store, self.sessions = folder, store, sessions
        self._files = CraneFiles(folder)
        self._shelf = ScriptShelf(store)
        self._minutes = CrewMinutes(store, self._shelf)
        self._known: Remembered[Any] = Remembered(_WORKED_OUT)
        self._names: Remembered[ScriptNamed | RefusedError] = Remembered(_NAMED)
        self._counts: Remembered[ScriptNamed] = Remembered(_NAMED)
        self._logs: Remembered[CraneLog] = Remembered(_CRANES)
        remembers = (self._shelf, self._minutes, self._names, self._counts, self._logs)
        self._watch = StoreWatch(store, [one.forget for one in remembers])
        self.hidden = HiddenKeys()
        self._lock = RLock()
        self.receiving = RLock()  # held while a delivery is looked at and kept
        self.only: frozenset[str] | None = None  # the cranes that there are for who asks; None: all

    @classmethod
    def open(cls, folder: Path, url: str | None = None) -> House:
        """Return the house of a folder, its store opened and brought up to date.

        Args:
            folder: of crane books and job sheets; the store is made in it
            url: of a database elsewhere; None: ``becket.sqlite`` in the folder

        Raises:
            CannotKeepError: the store cannot be opened or the folder takes nothing.
            BrokenStoreError: the store is damaged, or of a newer becket.
        """
        store = Store.open(url if url is not None else store_place(folder))
        return cls(folder, store, Sessions(folder))

    def close(self) -> None:
        """Let go of the store [-]."""
        self.store.close()

    def within(self, cranes: frozenset[str] | None) -> House:
        """Return this house as if there were no cranes but these; what is worked out is shared [-].

        Args:
            cranes: ids; None: no bound
        """
        if cranes is None:
            return self
        found = copy(self)
        found.only = cranes
        return found

    def cranes(self) -> tuple[CraneFile, ...]:
        """Return every crane, as the files say now [-]."""
        with self._lock:
            return tuple(one for name, one in self._files.all().items() if self.only is None or name in self.only)

    def crane(self, name: str) -> CraneFile:
        """Return one crane, as its files say now [-].

        Args:
            name: its id

        Raises:
            NotOnFileError: there is no such crane.
        """
        with self._lock:
            return self._files.one(name, self.only)

    def plan(self, crane: CraneFile) -> Plan | None:
        """Return the plan of a crane's job sheet; None: there is no sheet, or book or sheet cannot be used.

        Args:
            crane: as its files say
        """
        book, sheet = crane.book, crane.sheet
        if book is None or sheet is None:
            return None
        records = self.crew_records(crane)
        shown = tuple(records.items())
        key = ("plan", str(sheet.rigged), len(sheet.jobs), shown, *_files_of(crane))  # may plan from what is recorded
        return self._once(key, lambda: plan_sheet(book, crane.settings, sheet, records))

    def crew_records(self, crane: CraneFile) -> CrewRecords:
        """Return how long the crew of a crane took for the changes that it closed [s].

        Args:
            crane: as its files say
        """
        with self._lock:
            return self._minutes.of(crane, self.log(crane.id))

    def site(self, crane: CraneFile, before: State, after: State) -> KnownSite:
        """Return where a change would be made, as far as plan, job sheet and book tell.

        Args:
            crane: as its files say
            before: what hangs
            after: what is to hang
        """
        return site_for(crane, self.plan(crane), before, after)

    def change(self, crane: CraneFile, before: State, after: State) -> Change:
        """Return a change, worked out for the site where it would be made.

        Args:
            crane: as its files say
            before: what hangs
            after: what is to hang

        Raises:
            NotOnFileError: a block is not in the book, or the book cannot be used.
        """
        book = _usable(crane)
        site = self.site(crane, before, after).site
        taken = self.crew_records(crane).get((before, after), ())
        around = Around(records=[one.worked for one in taken])
        key = ("change", str(before), str(after), repr(site), taken, *_files_of(crane))
        return self._once(key, lambda: work_out_change(book, crane.settings, before, after, site, around))

    def log(self, crane: str) -> CraneLog:
        """Return the record of a crane as far as it stands, brought up to date [-].

        Args:
            crane: its id; "" for the firm alone
        """
        with self._lock:
            self._watch.look()
            found = self._logs.once(crane, lambda: CraneLog(self.store, crane, self._shelf.of))
            found.bring_up_to_date()
            return found

    def events(self, crane: str, runs: Iterable[str] = ()) -> tuple[Event, ...]:
        """Return what stands of a crane and of the firm, in the one order of events: see ``CraneLog.events`` [-].

        Args:
            crane: its id; "" gives those of the firm alone
            runs: whose events are wanted too, long closed or not
        """
        with self._lock:
            return self.log(crane).events(runs)

    def now(self, crane: CraneFile) -> CraneNow:
        """Return what is known of a crane from what was entered [-].

        Args:
            crane: as its files say
        """
        events = self.events(crane.id)
        return crane_now(events, self.scripts(events))

    def last_received(self) -> datetime | None:
        """Return when the last event came in, by the server's clock then; None: none has yet [-]."""
        last = self.store.read(None, after=self.store.head().number - 1)
        return datetime.fromisoformat(last[-1].received) if last else None

    def note(
        self,
        kind: str,
        crane: str,
        entered: Mapping[str, object],
        *,
        key: str | None = None,
        person: str | None = None,
        run: str | None = None,
    ) -> int:
        """Return the number of an event of becket's own, kept from now on [-].

        Args:
            kind: one of the kinds of events
            crane: its id
            entered: what is noted
            key: where the same must not stand twice; None: a new one
            person: who brought it about; None: nobody named
            run: that it belongs to; None: to the crane as such

        Raises:
            CannotKeepError: the store does not take it.
        """
        now = moment_now()
        event = Event(
            key=key or f"becket-{uuid4().hex}",
            crane=crane,
            run=run,
            kind=kind,
            person=person,
            role="becket",
            device="becket",
            at=now,
            tick=max((one.tick for one in self.events(crane)), default=0) + 1,
            shown={},
            entered=dict(entered),
        )
        (outcome,) = self.store.append([event], now)
        if outcome.number is None:
            raise RefusedError(f"{kind}: {outcome.refused}")
        return outcome.number

    def settings(self) -> Settings:
        """Return the settings in force in this folder; those that becket ships with where the crew's cannot be read."""
        try:
            return read_settings(self.folder)
        except FaultyFileError:
            return read_settings(None)

    def scripts(self, events: Iterable[Event]) -> dict[str, Script]:
        """Return the scripts that runs among these events began with, by id; one that is not kept here is left out.

        Args:
            events: of any runs
        """
        return self._shelf.of(events)

    def script(self, name: str) -> Script | None:
        """Return a kept script by its id; None: it is not kept here.

        Args:
            name: its fingerprint
        """
        with self._lock:
            self._watch.look()
            return self._shelf.find(name)

    def script_for(self, crane: CraneFile, before: State, after: State) -> tuple[str, Script] | RefusedError:
        """Return the script of a change with its id, kept from now on with book and settings; or why there is none.

        Args:
            crane: as its files say
            before: what hangs
            after: what is to hang

        Raises:
            NotOnFileError: a block is not in the book, or the book cannot be used.
            CannotKeepError: the store does not take it.
        """
        named = self._script_name(crane, before, after)
        return named if isinstance(named, RefusedError) else self._with_script(named)

    def count_script_for(self, crane: CraneFile) -> tuple[str, Script]:
        """Return the script of a count of what is rigged, with its id, kept from now on [-].

        Args:
            crane: as its files say

        Raises:
            NotOnFileError: the book cannot be used.
            CannotKeepError: the store does not take it.
        """
        return self._with_script(self._count_name(crane))

    def keep_files(self, crane: CraneFile) -> None:
        """Keep the texts of book, settings and job sheet as they are now: a run names them by their fingerprint.

        Args:
            crane: as its files say

        Raises:
            RefusedError: the book changed since it was read.
            CannotKeepError: the store does not take it.
        """
        kept = self.store.keep_document("book", crane.path.read_bytes().decode("utf-8"))
        if kept != crane.fingerprint:
            raise RefusedError(f"{crane.path.name} changed while it was read; open the page again")
        settings = self.folder / SETTINGS
        if settings.exists():
            self.store.keep_document("settings", settings.read_bytes().decode("utf-8"))

    def _script_name(self, crane: CraneFile, before: State, after: State) -> ScriptNamed | RefusedError:
        def made() -> ScriptNamed | RefusedError:
            follows_from = (crane.id, crane.fingerprint, crane.settings, site, str(before), str(after), taken)
            try:
                script = script_once(follows_from, drawn)
            except RefusedError as error:
                return error
            return self._kept_script(crane, script)

        def drawn() -> Script:
            book, change = _usable(crane), self.change(crane, before, after)
            return script_of_change(book, crane.settings, change, crane=crane.id, fingerprint=crane.fingerprint)

        with self._lock:
            taken = self.crew_records(crane).get((before, after), ())
            site = self.site(crane, before, after)  # of the jobs that still lie ahead: it changes with the day
            return self._names.once((str(before), str(after), repr(site), taken, *_files_of(crane)), made)

    def _count_name(self, crane: CraneFile) -> ScriptNamed:
        def made() -> ScriptNamed:
            script = count_script(_usable(crane), crane.settings, crane=crane.id, fingerprint=crane.fingerprint)
            return self._kept_script(crane, script)

        with self._lock:
            self._watch.look()
            return self._counts.once(_files_of(crane), made)

    def _kept_script(self, crane: CraneFile, script: Script) -> ScriptNamed:
        self.keep_files(crane)
        return self._shelf.keep(script), script.before, script.after

    def _with_script(self, named: ScriptNamed) -> tuple[str, Script]:
        script = self._shelf.find(named[0])
        if script is None:
            raise NotOnFileError(f"script {named[0]} is not kept here any more; start becket serve again")
        return named[0], script

    def scripts_ahead(self, crane: CraneFile) -> list[dict[str, str | None]]:
        """Return the scripts that a phone keeps, each with its address: the count, and every change that passes [-].

        Args:
            crane: as its files say
        """
        if crane.book is None:
            return []
        named = [self._count_name(crane), *(self._script_name(crane, *one) for one in self.changes_ahead(crane))]
        return [
            {"id": one[0], "before": one[1], "after": one[2], "url": f"/script/{one[0]}.json"}
            for one in named
            if not isinstance(one, RefusedError)
        ]

    def changes_ahead(self, crane: CraneFile) -> tuple[tuple[State, State], ...]:
        """Return the changes that a phone keeps: those of the plan, then from and to every state on file [-].

        Args:
            crane: as its files say
        """
        plan = self.plan(crane)
        planned = [(one.before, one.after) for one in plan.changes] if plan else []
        states = [pattern.state for pattern in crane.book.patterns] if crane.book else []
        every = [(before, after) for before in states for after in states if before != after]
        return tuple(dict.fromkeys([*planned, *every]))

    def _once(self, key: Hashable, work: Callable[[], T]) -> T:
        """Return what was worked out before for this state of the files, or work it out now."""
        with self._lock:
            found: T = self._known.once(key, work)
            return found


def _usable(crane: CraneFile) -> Book:
    if crane.book is None:
        raise NotOnFileError(f"the book of {crane.id} cannot be used; {crane.faults[0]}")
    return crane.book


def _files_of(crane: CraneFile) -> tuple[object, ...]:
    return crane.id, crane.fingerprint, crane.sheet_fingerprint, crane.settings_fingerprint
