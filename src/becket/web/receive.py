"""What a phone sends: each event looked at by itself, then all that are good kept in one go.

In:    the object of one delivery.
Out:   for each event its number, or why it is refused.
Never: an event lost because another is bad; an event twice.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from becket.errors import UnreadableTextError
from becket.guide.event import FIRM, Event, read_event
from becket.guide.legal import why_refused
from becket.web.account import Account
from becket.web.allowed import why_not_allowed
from becket.web.compare_reading import compare_reading
from becket.web.house import House, moment_now

MOST_EVENTS: Final = 500  # of one delivery

# {"key", "number", "refused"}, as the phone gets it; "later" where another account may bring it: the phone keeps it
Answer = dict[str, Any]


def receive(house: House, found: object, account: Account | None = None) -> dict[str, Any]:
    """Return what became of every event of a delivery, in its order, and the end of the chain.

    Args:
        house: with the store
        found: as parsed from JSON
        account: of who delivers, on a shared server

    Raises:
        UnreadableTextError: it is no delivery.
        CannotKeepError: none of them is kept; the phone keeps them.
    """
    events = _delivery(found)
    with house.receiving:  # two phones that begin a change at once: the second is told of the first
        delivery = _Delivery(house, _runs(events), account)
        answers = [delivery.look(one) for one in events]
        delivery.keep()
    return {"results": answers, "head": house.store.head().number}


def _delivery(found: object) -> list[object]:
    events = found.get("events") if isinstance(found, Mapping) else None
    if not isinstance(events, list):
        raise UnreadableTextError("no list of events", 'a delivery is {"events": [...]}')
    if len(events) > MOST_EVENTS:
        raise UnreadableTextError(f"{len(events)} events", f"a delivery has at most {MOST_EVENTS}; send it in parts")
    return events


def _runs(events: list[object]) -> set[str]:
    """Return the runs that a delivery names: one that was closed long ago is looked at again."""
    named = (event.get("run") for event in events if isinstance(event, Mapping))
    return {run for run in named if isinstance(run, str)}


class _Delivery:
    """One delivery as it is gone through: what is on file, with what came in before in the same delivery."""

    def __init__(self, house: House, runs: set[str], account: Account | None) -> None:
        self.house, self.runs, self.account = house, runs, account
        self._good: list[tuple[Event, Answer]] = []
        self._on_file: dict[str, tuple[Event, ...]] = {}

    def look(self, found: object) -> Answer:
        """Return the answer to one event; that of a good one gets its number in ``keep``."""
        answer: Answer = {"key": _key(found), "number": None, "refused": None}
        try:
            event = read_event(found)
        except UnreadableTextError as error:
            answer["refused"] = str(error)
            return answer
        why = why_not_allowed(self.account, event)
        if why is not None and not self._is_kept(event):
            return {**answer, "refused": why, "later": True}
        on_file = self._of(event.crane)
        if all(one.key != event.key for one in on_file):  # what is there already was looked at when it came first
            answer["refused"] = why_refused(event, on_file, self.house.scripts([*on_file, event]))
        if answer["refused"] is None:
            self._good.append((event, answer))
        return answer

    def keep(self) -> None:
        """Keep the good ones, all or none, and write their numbers into their answers."""
        outcomes = self.house.store.append([event for event, _ in self._good], moment_now())
        for (event, answer), outcome in zip(self._good, outcomes, strict=True):
            answer["number"], answer["refused"] = outcome.number, outcome.refused
            if event.kind == "pattern_read" and outcome.number is not None:
                compare_reading(self.house, event)

    def _is_kept(self, event: Event) -> bool:
        """Whether this very event is on file: its answer was lost, and its account may no more what it might then."""
        return any(one.event == event for one in self.house.store.find([event.key]))

    def _of(self, crane: str) -> list[Event]:
        """Return what there is of a crane and of the firm, what came before in this delivery among it."""
        if crane not in self._on_file:
            self._on_file[crane] = self.house.events(crane, self.runs)
        return [*self._on_file[crane], *(one for one, _ in self._good if one.crane in (crane, FIRM))]


def _key(found: object) -> str | None:
    key = found.get("key") if isinstance(found, Mapping) else None
    return key if isinstance(key, str) else None
