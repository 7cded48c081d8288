"""What the closed changes of a crane teach about the minutes of its crew.

In:    the events of one crane, or the folder that holds them; the scripts they began with, settings.
Out:   the time taken by kind of change; of each run what it taught, or why nothing.
Never: a time from another crane.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from becket.book.tackle import State
from becket.guide.event import Event
from becket.guide.run import fold_run
from becket.guide.script import Script, read_script
from becket.guide.taken import Learned, time_taken
from becket.planning.crew_records import CrewRecords, Taken
from becket.records.store import Store
from becket.reeving.words import read_state
from becket.settings.values import Settings
from becket.web.crane_files import CraneFile
from becket.web.crane_log import CraneLog
from becket.web.script_shelf import ScriptShelf


class CrewMinutes:
    """What the closed changes of each crane taught, each looked at once. For one thread at a time."""

    def __init__(self, store: Store, shelf: ScriptShelf) -> None:
        self._store, self._shelf = store, shelf
        self._taught: dict[str, dict[str, _Taught]] = {}  # crane -> run

    def forget(self) -> None:
        """Forget what was looked at: the store is another [-]."""
        self._taught.clear()

    def of(self, crane: CraneFile, log: CraneLog) -> CrewRecords:
        """Return how long the crew of a crane took for each kind of change, in the order in which they began [s].

        Args:
            crane: as its files say
            log: of its record, up to date
        """
        known, taught = self._taught.get(crane.id, {}), {}
        for run, last in log.closed_runs():
            seal = (last, crane.settings_fingerprint)
            one = known.get(run)
            taught[run] = one if one is not None and one.seal == seal else self._look(crane, run, seal)
        self._taught[crane.id] = taught
        found: dict[tuple[State, State], list[Taken]] = defaultdict(list)
        for one in taught.values():
            if one.kind is not None and one.taken is not None:
                found[one.kind].append(one.taken)
        return {kind: tuple(taken) for kind, taken in found.items()}

    def _look(self, crane: CraneFile, run: str, seal: tuple[int, str]) -> _Taught:
        events = [one.event for one in self._store.read(crane.id, run=run)]
        records = crew_records(crane.settings, events, self._shelf.of(events))
        kind, taken = next(iter(records.items()), (None, ()))
        return _Taught(seal=seal, kind=kind, taken=taken[0] if taken else None)


@dataclass(frozen=True, kw_only=True)
class _Taught:
    """What one closed run taught. ``taken`` None: nothing."""

    seal: tuple[int, str]  # number of its last event, settings
    kind: tuple[State, State] | None
    taken: Taken | None


def learned_by_run(
    settings: Settings, events: Iterable[Event], scripts: Mapping[str, Script]
) -> dict[str, tuple[Script, Learned]]:
    """Return what every run of a crane teaches, by the id of the run [s].

    Args:
        settings: how short a record may be to be believed
        events: of one crane
        scripts: by id
    """
    runs: dict[str, list[Event]] = defaultdict(list)
    begun: dict[str, Script] = {}
    for event in events:
        if event.run is None:
            continue
        runs[event.run].append(event)
        script = scripts.get(str(event.entered.get("script"))) if event.kind == "run_started" else None
        if script is not None:
            begun[event.run] = script
    return {
        run: (script, time_taken(settings, script, fold_run(script, runs[run]), runs[run]))
        for run, script in begun.items()
    }


def crew_records(settings: Settings, events: Iterable[Event], scripts: Mapping[str, Script]) -> CrewRecords:
    """Return how long this crew took for each kind of change, closed changes only [s].

    Args:
        settings: how short a record may be to be believed
        events: of one crane
        scripts: by id

    Source: docs/theory/method.md, "Minutes".
    """
    found: dict[tuple[State, State], list[Taken]] = defaultdict(list)
    for run, (script, learned) in learned_by_run(settings, events, scripts).items():
        if learned.taken is not None and script.before is not None and script.after is not None:
            kind = read_state(script.before), read_state(script.after)
            found[kind].append(replace(learned.taken, run=run))
    return {kind: tuple(taken) for kind, taken in found.items()}


def records_in_store(settings: Settings, place: str, crane: str) -> CrewRecords:
    """Return how long a crew took, from the records that ``becket serve`` keeps [s].

    Args:
        settings: how short a record may be to be believed
        place: the file of the records or the address of their database
        crane: its id

    Raises:
        CannotKeepError: there are no records, or they cannot be opened.
        BrokenStoreError: they are damaged, of another version, of another program.
        RefusedError: the address is none.
    """
    store = Store.look(place)
    try:
        events = [one.event for one in store.read(crane)]
        names = {str(event.entered.get("script")) for event in events if event.kind == "run_started"}
        documents = {name: store.document(name) for name in names}
    finally:
        store.close()
    scripts = {name: read_script(one.text) for name, one in documents.items() if one is not None}
    return crew_records(settings, events, scripts)
