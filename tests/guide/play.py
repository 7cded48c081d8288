"""A crew that plays a run: the events of two invented people who enter what the script wants.

In:    a script.
Out:   events, as their phones would write them.
Never: the fold: what comes next is read off the script, so that a test of the fold stands on its own feet.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from becket.guide.event import Event
from becket.guide.script import Field, Item, Script
from becket.guide.turn import items_in_turn

PEOPLE = {"operator": "ines", "rigger": "tomas"}
CRANE = "hazel-70"
RUN = "run-1"
SCRIPT = "0123456789abcdef"


def right_value(asked: Field) -> object:
    """Return a value that a field takes [-]."""
    if asked.want is not None:
        return list(asked.want) if isinstance(asked.want, tuple) else asked.want
    good = [word for word in asked.choices if word not in asked.stops]
    number = asked.least if asked.least is not None else asked.most if asked.most is not None else 1
    values: Mapping[str, object] = {
        "falls": 4,
        "count": int(number),
        "number": number,
        "sheave": asked.sheaves[0] if asked.sheaves else 1,
        "sheaves": list(asked.sheaves[:1]),
        "choice": good[0] if good else "",
        "text": "nothing seen",
        "name": "Ines Invented",
        "time": "13:02",
    }
    return values[asked.kind]


def right_values(script: Script, item: Item, state: str | None = None) -> dict[str, object]:
    """Return what a careful person enters at an item [-].

    Args:
        script: of the run
        item: of the script
        state: that is rigged, for a count; None: the first that the script expects
    """
    reeving = next(one for one in script.expects if state in (None, one.state))
    known: dict[str, object] = {
        "sheaves": list(reeving.head_sheaves),
        "ends_on": reeving.dead_end.split()[0],
        "ropes": reeving.falls,
        "block_sheaves": list(reeving.block_sheaves),
        "place": reeving.dead_end,
        "block": reeving.block,
        "falls": reeving.falls,
    }
    is_count = item.group is not None
    return {one.name: known[one.name] if is_count and one.name in known else right_value(one) for one in item.fields}


@dataclass
class Play:
    """A run being played: every call writes events down."""

    script: Script
    lot: int = 0
    state: str | None = None
    device: str = "phone-1"
    run: str = RUN
    tick: int = 0
    minute: int = 0
    events: list[Event] = field(default_factory=list)

    def write(
        self, kind: str, entered: Mapping[str, object], person: str | None = None, role: str = "operator"
    ) -> Event:
        """Write one event down, a minute after the last; give it back [-]."""
        self.tick, self.minute = self.tick + 1, self.minute + 1
        event = Event(
            key=f"{self.run}.{self.tick:04}",
            crane=CRANE,
            run=self.run,
            kind=kind,
            person=person or PEOPLE["operator"],
            role=role,
            device=self.device,
            at=f"2026-11-{25 + self.minute // 1440:02}T{self.minute // 60 % 24:02}:{self.minute % 60:02}:00+01:00",
            tick=self.tick,
            shown={},
            entered=entered,
        )
        self.events.append(event)
        return event

    def start(self, **other: object) -> Play:
        """Begin the run [-]."""
        entered = {
            "kind": self.script.kind,
            "script": SCRIPT,
            "book": self.script.book,
            "before": self.script.before,
            "after": self.script.after,
            **PEOPLE,
            "lot": self.lot,
            "why": "the lift at two",
        }
        self.write("run_started", {**entered, **other})
        return self

    def enter(self, name: str, values: Mapping[str, object] | None = None, counted: int = 1, **by: str) -> Event:
        """Enter an item: what is right, or the values given [-]."""
        item = self.script.item(name)
        right = right_values(self.script, item, self.state) if values is None else values
        role = by.get("role", item.who if item.who in PEOPLE else "operator")
        person = by.get("person", PEOPLE[role])
        return self.write("entered", {"item": name, "round": counted, "values": right}, person=person, role=role)

    def upto(self, name: str | None) -> Play:
        """Enter every item that stands before one, or all [-]."""
        for item in items_in_turn(self.script, self.lot):
            if item.id == name:
                return self
            self.enter(item.id)
        return self

    def after(self, name: str) -> Play:
        """Enter every item that stands behind one [-]."""
        ids = [item.id for item in items_in_turn(self.script, self.lot)]
        for one in ids[ids.index(name) + 1 :]:
            self.enter(one)
        return self

    def sign(self, *roles: str) -> Play:
        """Sign, each with own digits [-]."""
        for role in roles or tuple(PEOPLE):
            self.write("signed", {"role": role, "values": {}}, person=PEOPLE[role], role=role)
        return self

    def whole(self) -> Play:
        """Play the run from its first screen to its close [-]."""
        return self.start().upto(None).sign()


def with_item(script: Script, item: Item) -> Script:
    """Return a script in which one item is another one of the same id [-]."""
    return replace(script, items=tuple(item if one.id == item.id else one for one in script.items))
