"""What a phone learns of what others entered, and what it must not learn yet.

In:    what is kept of a crane, its scripts.
Out:   events after a number, the older ones that were opened since; a hidden entry without its value.
Never: a blind entry before every entry of its group is in.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from threading import RLock
from typing import Any, Final

from becket.guide.event import Event, event_as_dict
from becket.guide.script import Script
from becket.guide.sealed import sealed_keys
from becket.records.kept import Kept
from becket.records.store import Store
from becket.web.remembered import Remembered

SEEN: Final = ("item", "round")  # what stays of a hidden entry
MOST: Final = 2000  # events that are read for one answer, besides older ones of the same runs

_RUNS: Final = 2000  # states of runs of which is remembered what is hidden


@dataclass(frozen=True, kw_only=True)
class News:
    """What one answer is made of."""

    kept: tuple[Kept, ...]  # after the number; of every run among them the older ones too
    head: int  # number up to which they go
    is_all: bool  # there is nothing behind it


def news_after(store: Store, crane: str, after: int, most: int = MOST) -> News:
    """Return what a phone is told of: only as much of the store is read as that takes [-].

    Args:
        store: of the firm
        crane: its id
        after: number of the last event that the phone has
        most: events after it
    """
    new = store.news(crane, after, most)
    is_all = len(new.kept) < most
    runs = {one.event.run for one in new.kept if one.event.run is not None} if after else set()
    older = [one for run in sorted(runs) for one in store.read(crane, run=run) if one.number <= after]
    return News(kept=(*older, *new.kept), head=new.head.number if is_all else new.kept[-1].number, is_all=is_all)


class HiddenKeys:
    """What is hidden, each run gone through once for a state of its record. Threads may use it at the same time."""

    def __init__(self) -> None:
        self._known: Remembered[frozenset[str]] = Remembered(_RUNS)
        self._lock = RLock()

    def __call__(self, kept: Iterable[Kept], scripts: Mapping[str, Script]) -> frozenset[str]:
        """Return the same as ``hidden_keys`` [-].

        Args:
            kept: of any runs, of each as many as are kept up to a number
            scripts: by id
        """
        runs: dict[str, list[Kept]] = defaultdict(list)
        for one in kept:
            if one.event.run is not None:
                runs[one.event.run].append(one)
        return frozenset().union(*(self._of_run(run, of_run, scripts) for run, of_run in runs.items()))

    def _of_run(self, run: str, kept: list[Kept], scripts: Mapping[str, Script]) -> frozenset[str]:
        known = tuple(sorted(name for name in _begun_with(one.event for one in kept) if name in scripts))
        key = run, len(kept), kept[-1].hash, known  # the chain's hash stands for every event before it
        with self._lock:
            found = self._known.find(key)
        if found is None:
            found = hidden_keys(kept, scripts)
            with self._lock:
                self._known.keep(key, found)
        return found


Hidden = Callable[[Iterable[Kept], Mapping[str, Script]], frozenset[str]]


def stamp_of(store: Store, number: int, near: Iterable[Kept] = ()) -> str:
    """Return by what a phone tells whether the server still has what it had: "" where there is no such event [-].

    It says nothing of what was entered: a hidden value cannot be tried out on it.

    Args:
        store: of the firm
        number: of the last event that the phone has
        near: events among which it may be
    """
    found = next((one for one in near if one.number == number), None) or store.at(number)
    if found is None:
        return ""
    return sha256(f"{number} {found.event.key} {found.received}".encode()).hexdigest()[:16]


def feed_events(
    kept: Iterable[Kept], scripts: Mapping[str, Script], after: int, hidden_of: Hidden | None = None
) -> list[dict[str, Any]]:
    """Return the events after a number and those opened since, in the server's order; hidden ones without their values.

    Args:
        kept: the events of a crane and of the firm after the number, and the older ones of the same runs at least
        scripts: by id
        after: number of the last event that the phone has
        hidden_of: gives the same as ``hidden_keys``, from memory; None: that itself
    """
    hidden_of = hidden_of or hidden_keys
    every = sorted(kept, key=lambda one: one.number)
    touched = {one.event.run for one in every if one.number > after}  # in any other run nothing was opened since
    every = [one for one in every if one.event.run in touched]
    hidden = hidden_of(every, scripts)
    was_hidden = hidden_of([one for one in every if one.number <= after], scripts)
    opened = was_hidden - hidden
    chosen = [one for one in every if one.number > after or one.event.key in opened]
    return [told(one, one.event.key in hidden) for one in chosen]


def hidden_keys(kept: Iterable[Kept], scripts: Mapping[str, Script]) -> frozenset[str]:
    """Return the keys of entries that nobody may see yet [-].

    An entry of a run whose script is not known is hidden whatever it is: it cannot be told that it is not blind.

    Args:
        kept: of any runs
        scripts: by id
    """
    runs: dict[str, list[Kept]] = defaultdict(list)
    for one in kept:
        if one.event.run is not None:
            runs[one.event.run].append(one)
    found: set[str] = set()
    for of_run in runs.values():
        events = [one.event for one in of_run]
        names = _begun_with(events)
        known = [scripts[name] for name in names if name in scripts]
        if len(names) == 1 and known:
            found |= set(sealed_keys(known[0], events))
        else:
            found |= {event.key for event in events if event.kind == "entered"}
    return frozenset(found)


def _begun_with(events: Iterable[Event]) -> set[str]:
    return {str(event.entered.get("script")) for event in events if event.kind == "run_started"}


def told(kept: Kept, is_hidden: bool) -> dict[str, Any]:
    """Return one event as a phone gets it [-].

    No hash of the chain goes with it: of a few possible values of a hidden entry, the one that gives its hash, or the
    hash of any entry chained behind it, can be found by trying.

    Args:
        kept: as the store has it
        is_hidden: nobody may see what was entered
    """
    plain = {**event_as_dict(kept.event), "number": kept.number, "received": kept.received}
    if is_hidden:
        entered, shown = kept.event.entered, kept.event.shown
        plain["entered"] = {**{name: entered[name] for name in SEEN if name in entered}, "sealed": True}
        plain["shown"] = {name: shown[name] for name in SEEN if name in shown}
    return plain
