"""A change answered from its first item to its two signatures, as a phone writes it, for tests of records.

In:    a script.
Out:   events with right values, and the same kept in a chain; any of them can be replaced.
Never: a value that the script does not ask for.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any

from becket.guide.event import Event, canonical_text, order_of
from becket.guide.run import fold_run
from becket.guide.script import Field, Item, Script
from becket.records.chain import BEGINNING, link_hash
from becket.records.kept import Kept

CRANE, RUN = "hazel-70", "run-1"
START = datetime.fromisoformat("2026-11-30T14:40:00+01:00")
PEOPLE = {
    "p-op": {"id": "p-op", "name": "Ada Quill", "role": "operator", "licence": "OP 4471", "salt": "00", "check": "00"},
    "p-ri": {"id": "p-ri", "name": "Bo Fenn", "role": "rigger", "licence": "RG 208", "salt": "00", "check": "00"},
}
PERSON = {"operator": "p-op", "rigger": "p-ri"}


@dataclass
class Writer:
    """Writes one event after another; ``step``: seconds from one to the next."""

    device: str = "phone-1"
    now: datetime = START
    step: float = 40.0
    number: int = 0

    def write(self, kind: str, entered: Mapping[str, Any], *, role: str = "operator", **more: Any) -> Event:
        """Return the next event [-]."""
        self.number += 1
        self.now += timedelta(seconds=self.step)
        parts: dict[str, Any] = {
            "key": f"e-{self.number:04d}",
            "crane": CRANE,
            "run": RUN,
            "kind": kind,
            "person": PERSON.get(role),
            "role": role,
            "device": self.device,
            "at": self.now.isoformat(),
            "tick": self.number,
            "shown": {},
            "entered": entered,
        }
        return Event(**{**parts, **more})


def people_events() -> list[Event]:
    """Return the crew list as events of the firm [-]."""
    writer = Writer(now=START - timedelta(days=1))
    firm: dict[str, Any] = {"crane": "", "run": None}
    return [
        writer.write("person_added", found, role=str(found["role"]), key=f"p-{name}", **firm)
        for name, found in PEOPLE.items()
    ]


def started(writer: Writer, script: Script, script_name: str) -> Event:
    """Return the event that begins the run [-]."""
    entered = {
        "kind": script.kind,
        "script": script_name,
        "book": script.book,
        "before": script.before,
        "after": script.after,
        "operator": "p-op",
        "rigger": "p-ri",
        "lot": 0,
        "why": "the transformer needs 4 falls",
    }
    return writer.write("run_started", entered)


def answered(script: Script, writer: Writer, script_name: str = "script-1") -> list[Event]:
    """Return a whole run: begun, every item answered right, both signatures [-].

    Args:
        script: of the run
        writer: of the events
        script_name: id of the script
    """
    events = [started(writer, script, script_name)]
    for _ in range(2 * len(script.items)):
        state = fold_run(script, events)
        if state.screen != "item":
            break
        assert state.at is not None
        events.append(entry(script, writer, script.item(state.at), round_number=state.round or 1))
    state = fold_run(script, events)
    assert state.screen == "sign", (state.screen, state.at, state.missing)
    for role in ("operator", "rigger"):
        events.append(writer.write("signed", {"role": role, "values": {}}, role=role))
    return events


def entry(script: Script, writer: Writer, item: Item, *, round_number: int = 1, **values: Any) -> Event:
    """Return the entry of an item with right values [-].

    Args:
        script: of the run
        writer: of the events
        item: that is asked
        round_number: of the item
        values: other than the right ones
    """
    role = item.who if item.who in PERSON else "operator"
    given = {field.name: right_value(script, field) for field in item.fields}
    entered = {"item": item.id, "round": round_number, "values": {**given, **values}}
    return writer.write("entered", entered, role=role, shown={"item": item.id, "screen": "pad"})


def right_value(script: Script, field: Field) -> object:
    """Return a value that is right [-]."""
    if field.want is not None:
        return field.want
    after = next((one for one in script.expects if one.state == script.after), script.expects[0])
    by_name: dict[str, object] = {
        "ropes": after.falls,
        "sheaves": list(after.head_sheaves),
        "block_sheaves": list(after.block_sheaves),
        "ends_on": "block" if after.falls % 2 else "head",
    }
    if (field.kind in ("falls", "sheaves") and field.name in by_name) or field.name == "ends_on":
        return by_name[field.name]
    if field.kind == "choice":
        return next(choice for choice in field.choices if choice not in field.stops)
    by_kind: dict[str, object] = {"text": "clean", "name": "Bo Fenn", "time": "14:52", "count": 2, "falls": after.falls}
    if field.kind in by_kind:
        return by_kind[field.kind]
    least, most = field.least, field.most
    if least is not None and most is not None:
        return round((least + most) / 2, 1)
    return least if least is not None else most if most is not None else 5


def chained(events: Iterable[Event], *, later: float = 1200.0, first: int = 3) -> tuple[Kept, ...]:
    """Return events as the store keeps them, in their order; the server got them ``later`` seconds [-]."""
    kept: list[Kept] = []
    before = BEGINNING
    for number, event in enumerate(sorted(events, key=order_of), first):
        received = (datetime.fromisoformat(event.at) + timedelta(seconds=later)).isoformat()
        made = link_hash(before, number, received, canonical_text(event))
        kept.append(Kept(event=event, number=number, received=received, before=before, hash=made))
        before = made
    return tuple(kept)


def moved(event: Event, seconds: float, **more: Any) -> Event:
    """Return an event at another time of its device's clock [-]."""
    at = (datetime.fromisoformat(event.at) + timedelta(seconds=seconds)).isoformat()
    return replace(event, at=at, **more)
