"""What stands of the record of one crane: everything that a rule or a page looks at, and nothing that is past.

In:    the store, read on from the last number that was read.
Out:   events of the crane and of the firm in the one order; where each run begins and ends.
Never: a whole record in memory; a run that was closed taken as closed when something came in for it since.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Final

from becket.guide import legal
from becket.guide.event import Event, order_of
from becket.guide.photo import photos_kept
from becket.guide.run import course_of
from becket.guide.script import Script
from becket.records.kept import Kept
from becket.records.store import Store

# what is past with its run; every other kind stands for ever
OF_A_RUN: Final = frozenset({"run_started", "phone_joined", "photo_taken", "photo_kept", "noted", *legal.OF_A_RUN})
_AT_ONCE: Final = 1000  # events read at a time
_BOTH: Final = 2  # signatures that close a run

Order = tuple[int, str]  # of an event


@dataclass(frozen=True, kw_only=True)
class RunKnown:
    """What is remembered of a run, closed or not."""

    start: Order | None  # None: it has none, or its start has not come in
    close: Order | None  # None: not closed, or its script is not kept
    is_count: bool  # it holds nothing up: the next run takes its place
    last: int  # number of its last event


class CraneLog:
    """The record of one crane, as far as it stands. One thread at a time brings it up to date; ``runs`` is never \
    changed, only replaced, so that another may go through it meanwhile."""

    def __init__(self, store: Store, crane: str, scripts: Callable[[Iterable[Event]], Mapping[str, Script]]) -> None:
        self._store, self._crane, self._scripts = store, crane, scripts
        self.read = 0  # number up to which the store was read
        self.newest: str | None = None  # key of the last event that came in
        self.runs: dict[str, RunKnown] = {}
        self.photos: dict[str, str] = {}  # SHA-256 of the original -> of what is kept, by becket's own last word
        self._lasting: list[Event] = []
        self._at_hand: dict[str, list[Event]] = {}
        self._top: Event | None = None  # of the greatest tick
        self._events: tuple[Event, ...] | None = None

    def bring_up_to_date(self) -> None:
        """Read what came in since the last time [-]."""
        while True:
            news = self._store.news(self._crane, self.read, most=_AT_ONCE)
            if news.kept:
                self._take(news.kept)
            is_all = len(news.kept) < _AT_ONCE
            self.read = news.head.number if is_all else news.kept[-1].number
            if is_all:
                return

    def events(self, runs: Iterable[str] = ()) -> tuple[Event, ...]:
        """Return what stands, in order, once each: all that belongs to no run, every change that is not closed, the \
        run that was closed last, the run that began last, the event of the greatest tick [-].

        Args:
            runs: that are given too, whatever became of them
        """
        if self._events is None:
            self._events = self._in_order(())
        past = [run for run in runs if run in self.runs and run not in self._at_hand]
        return self._in_order(self._of_run(run) for run in past) if past else self._events

    def last_runs(self, most: int) -> tuple[str, ...]:
        """Return the ids of the runs that began last, in the order in which they began [-].

        Args:
            most: how many
        """
        begun = sorted((known.start, run) for run, known in self.runs.items() if known.start is not None)
        return tuple(run for _, run in begun[-most:])

    def closed_runs(self) -> tuple[tuple[str, int], ...]:
        """Return every run that is closed with the number of its last event, in the order in which they began [-]."""
        begun = sorted(
            (known.start, run, known.last) for run, known in self.runs.items() if known.start and known.close
        )
        return tuple((run, last) for _, run, last in begun)

    def _take(self, kept: Iterable[Kept]) -> None:
        """Take events that follow on what was read; then let go of what is past with them."""
        touched: dict[str, int] = {}
        for one in kept:
            event = one.event
            self.newest = event.key
            if self._top is None or order_of(event) > order_of(self._top):
                self._top = event
            if event.kind == "photo_kept" and event.crane == self._crane:
                self.photos.update({name: str(one.get("kept")) for name, one in photos_kept([event]).items()})
            if event.run is None or event.kind not in OF_A_RUN or event.crane != self._crane:
                self._lasting.append(event)
            if event.run is not None:
                if event.run in self.runs and event.run not in self._at_hand:
                    self._at_hand[event.run] = self._of_run(event.run)
                self._at_hand.setdefault(event.run, []).append(event)
                touched[event.run] = one.number
        self.runs = {**self.runs, **{run: self._known(run, last) for run, last in touched.items()}}
        self._hold()
        self._events = None

    def _known(self, run: str, last: int) -> RunKnown:
        events = self._at_hand[run]
        start = min((one for one in events if one.kind == "run_started"), key=order_of, default=None)
        return RunKnown(
            start=None if start is None else order_of(start),
            close=None if start is None else self._close_of(start, events),
            is_count=start is not None and start.entered.get("kind") == "count",
            last=last,
        )

    def _close_of(self, start: Event, events: list[Event]) -> Order | None:
        if sum(one.kind == "signed" for one in events) < _BOTH:
            return None
        script = self._scripts([start]).get(str(start.entered.get("script")))
        closed_by = course_of(script, events).closed_by if script is not None else None
        return order_of(closed_by) if closed_by is not None else None

    def _hold(self) -> None:
        """Keep at hand what stands of the runs: the rest lies in the store."""
        closed = [(known.close, run) for run, known in self.runs.items() if known.close is not None]
        begun = [(known.start, run) for run, known in self.runs.items() if known.start is not None]
        last = {max(pairs)[1] for pairs in (closed, begun) if pairs}
        for run, known in self.runs.items():
            is_open = known.close is None and not known.is_count
            if is_open or run in last:
                if run not in self._at_hand:
                    self._at_hand[run] = self._of_run(run)
            else:
                self._at_hand.pop(run, None)

    def _of_run(self, run: str) -> list[Event]:
        """Return the events of a run that were read, from the store."""
        upto = self.runs[run].last
        own = [one.event for one in self._store.read(self._crane, run=run) if one.number <= upto]
        return [*own, *(one for one in self._lasting if one.run == run and one.crane != self._crane)]

    def _in_order(self, more: Iterable[Iterable[Event]]) -> tuple[Event, ...]:
        every = {one.key: one for one in self._lasting}
        for events in (*self._at_hand.values(), *more):
            every.update({one.key: one for one in events})
        if self._top is not None:
            every[self._top.key] = self._top
        return tuple(sorted(every.values(), key=order_of))
