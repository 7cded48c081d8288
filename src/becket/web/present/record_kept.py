"""What a record is told from: the script, the state, every event of the run with its place in the chain.

In:    a script, the state that the fold gives, kept events, people of the crew list.
Out:   one frozen record; the words of a person, a device, a moment.
Never: a value that is still hidden; a clock set right.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from functools import cached_property
from typing import Protocol

from becket.guide.event import Event, order_of
from becket.guide.run_state import RunState
from becket.guide.script import Group, Item, Script
from becket.web.present.taught import Taught

Word = Callable[..., str]
SERVER = "becket"  # the device of becket's own events
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


class KeptLike(Protocol):
    """An event as the store gives it back."""

    @property
    def event(self) -> Event: ...
    @property
    def number(self) -> int: ...
    @property
    def received(self) -> str: ...
    @property
    def hash(self) -> str: ...


@dataclass(frozen=True, kw_only=True)
class Person:
    """Somebody on the crew list."""

    name: str
    role: str
    licence: str


@dataclass(frozen=True)
class RunKept:
    """One run with all that is kept of it. ``sealed``: keys of blind entries whose group is not complete."""

    script: Script
    state: RunState
    kept: tuple[KeptLike, ...]  # of this run, sorted by (tick, key)
    people: Mapping[str, Person]
    sealed: frozenset[str]
    word: Word
    pictures: Mapping[str, bytes] = field(default_factory=dict, repr=False)  # photos as kept, by their original's hash
    taught: Taught | None = None  # None: it is not a closed change, or nobody asked
    is_given_up: bool = False  # by an inspection while it was open
    broken: str | None = None  # what is not as it was kept; None: everything is, or nobody looked

    @cached_property
    def devices(self) -> dict[str, str]:
        """The devices of the run by a letter, in the order in which they first wrote; becket itself by its name [-]."""
        ids = dict.fromkeys(one.event.device for one in self.kept)
        phones = [name for name in ids if name != SERVER]
        found = {name: self.word("record.device", letter=_letter(n)) for n, name in enumerate(phones)}
        return {**found, **({SERVER: self.word("record.device_becket")} if SERVER in ids else {})}

    @cached_property
    def items(self) -> dict[str, Item]:
        """The items of the script by id [-]."""
        return {item.id: item for item in self.script.items}

    @cached_property
    def groups(self) -> dict[str, Group]:
        """The group of each blind item that is compared [-]."""
        return {name: group for group in self.script.groups for name in group.items}

    @cached_property
    def apart(self) -> frozenset[str]:
        """Keys of events that the state does not count: out of turn, or after the close [-]."""
        return frozenset(self.state.out_of_turn) | frozenset(self.state.late)

    @cached_property
    def last_shown(self) -> KeptLike | None:
        """The last event before the first hidden one: from a later hash a hidden value could be tried out [-]."""
        first = min((one.number for one in self.kept if one.event.key in self.sealed), default=None)
        open_ones = [one for one in self.kept if first is None or one.number < first]
        return max(open_ones, key=lambda one: one.number, default=None)

    def of_kind(self, *kinds: str) -> list[KeptLike]:
        """Return the events of some kinds, in order [-].

        Args:
            kinds: of events
        """
        return [one for one in self.kept if one.event.kind in kinds]

    def name_of(self, person: str | None) -> str:
        """Return the name of a person; one who is not on the list by id [-].

        Args:
            person: id
        """
        if person is None:
            return self.word("record.nobody")
        known = self.people.get(person)
        return known.name if known else self.word("record.not_on_list", id=person)

    def said_by(self, one: KeptLike) -> str:
        """Return who entered something, when, and on which device: the clock of the device and the server's [-].

        Args:
            one: a kept event
        """
        event = one.event
        is_own = event.person is None and event.role == "becket"
        words = {
            "role": self.word(f"record.role.{event.role}"),
            "name": self.word("record.role.becket") if is_own else self.name_of(event.person),
            "at": self.at(event.at),
            "device": self.devices[event.device],
        }
        return self.word("record.entered_by", **words, server=self.server_at(one))

    def at(self, moment: str) -> str:
        """Return a moment as the device's clock told it; with its day where that is not the day of the start [-].

        Args:
            moment: ISO 8601
        """
        start = self.state.started or (self.kept[0].event.at if self.kept else moment)
        return clock_words(moment) if day_words(moment) == day_words(start) else moment_words(moment)

    def server_at(self, one: KeptLike) -> str:
        """Return when the server took an event in, in the time zone of the device [-].

        Args:
            one: a kept event
        """
        return self.at(server_moment(one))


def run_kept(
    script: Script,
    state: RunState,
    kept: Iterable[KeptLike],
    *,
    people: Mapping[str, Person],
    sealed: Iterable[str],
    word: Word,
) -> RunKept:
    """Return what a record is told from, its events in order [-].

    Args:
        script: of the run
        state: as folded from its events
        kept: events of the run
        people: of the crew list
        sealed: keys of entries that nobody may see yet
        word: the catalogue of words
    """
    ordered = tuple(sorted(kept, key=lambda one: order_of(one.event)))
    return RunKept(script, state, ordered, people, frozenset(sealed), word)


def people_of(events: Iterable[Event]) -> dict[str, Person]:
    """Return the crew list: the newest entry of each person [-].

    Args:
        events: of the firm
    """
    found: dict[str, Person] = {}
    for event in sorted(events, key=order_of):
        if event.kind == "person_added":
            given = {key: str(event.entered.get(key) or "") for key in ("name", "role", "licence")}
            found[str(event.entered.get("id"))] = Person(**given)
    return found


def server_moment(one: KeptLike) -> str:
    """Return when the server took an event in, told in the time zone of the device, ISO 8601 [-].

    Args:
        one: a kept event
    """
    return datetime.fromisoformat(one.received).astimezone(datetime.fromisoformat(one.event.at).tzinfo).isoformat()


def seconds_between(first: str, second: str) -> float:
    """Return how much later the second moment is [s].

    Args:
        first: ISO 8601
        second: ISO 8601

    >>> seconds_between("2026-11-30T15:31:00+01:00", "2026-11-30T14:31:20Z")
    20.0
    """
    return (datetime.fromisoformat(second) - datetime.fromisoformat(first)).total_seconds()


def clock_words(moment: str) -> str:
    """Return the time of day as a 24 h clock, with seconds [-].

    Args:
        moment: ISO 8601

    >>> clock_words("2026-11-30T15:31:20.5+01:00")
    '15:31:20'
    """
    return datetime.fromisoformat(moment).strftime("%H:%M:%S")


def day_words(moment: str) -> str:
    """Return the day [-].

    Args:
        moment: ISO 8601

    >>> day_words("2026-11-30T15:31:20+01:00")
    'Mon 30 Nov'
    """
    found = datetime.fromisoformat(moment)
    return f"{DAYS[found.weekday()]} {found.day} {MONTHS[found.month - 1]}"


def moment_words(moment: str) -> str:
    """Return day and time of day [-].

    Args:
        moment: ISO 8601

    >>> moment_words("2026-11-30T15:31:20+01:00")
    'Mon 30 Nov 15:31:20'
    """
    return f"{day_words(moment)} {clock_words(moment)}"


def joined(parts: Sequence[str]) -> str:
    """Return parts as one text with commas [-].

    Args:
        parts: in order
    """
    return ", ".join(part for part in parts if part)


def _letter(number: int) -> str:
    return chr(ord("A") + number) if number < 26 else str(number + 1)
