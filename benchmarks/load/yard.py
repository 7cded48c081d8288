"""A firm with many cranes, each with a whole change that two phones wrote down.

In:    a folder, how many cranes.
Out:   crane books and scripts kept there; the events of each change.
Never: a crane that is anybody's.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from importlib.resources import files
from itertools import islice
from pathlib import Path

from becket.book.tackle import State
from becket.guide.event import Event
from becket.guide.script import Script, script_text
from becket.web.house import House
from tests.web.run_answered import Writer, answered, people_events

DEMO, JOBS = "hazel-70.crane.yaml", "hazel-70.jobs.yaml"
TWO, FOUR = State(block="main", falls=2), State(block="main", falls=4)
NOON = "2026-11-30T12:00:00+01:00"


@dataclass(frozen=True, kw_only=True)
class Yard:
    """What stands ready in a folder."""

    cranes: tuple[str, ...]
    script: Script
    names: dict[str, str]  # crane -> id of its script
    pattern: tuple[Event, ...]  # one whole change, to be written again for each crane


def make_yard(folder: Path, cranes: int, url: str | None = None) -> Yard:
    """Return a firm whose books, scripts and crew list are kept [-].

    Args:
        folder: to be made
        cranes: how many
        url: of the database; None: a file in the folder
    """
    folder.mkdir(parents=True)
    text = (files("becket.demo") / DEMO).read_text(encoding="utf-8")
    (folder / DEMO).write_text(text, encoding="utf-8")
    (folder / JOBS).write_bytes((files("becket.demo") / JOBS).read_bytes())
    house = House.open(folder, url)
    try:
        made = house.script_for(house.crane("hazel-70"), TWO, FOUR)
        assert isinstance(made, tuple), made
        ids = tuple(f"crane-{number:03}" for number in range(cranes))
        names = {}
        for crane in ids:
            (folder / f"{crane}.crane.yaml").write_text(text, encoding="utf-8")
            script = script_text(replace(made[1], crane=crane))
            names[crane] = house.store.keep_document("script", script)
        house.store.append(people_events(), NOON)
    finally:
        house.close()
    pattern = tuple(answered(made[1], Writer(), made[0]))
    return Yard(cranes=ids, script=made[1], names=names, pattern=pattern)


def change_at(yard: Yard, crane: str, number: int) -> list[Event]:
    """Return a whole change of a crane as two phones wrote it, begun and closed [-].

    Args:
        yard: that stands ready
        crane: its id
        number: of the change, from 0: keys and order numbers follow from it
    """
    run, first = f"{crane}-r{number}", number * len(yard.pattern)
    return [
        replace(
            event,
            key=f"{run}-{place:03}",
            crane=crane,
            run=run,
            tick=first + place,
            device=f"{crane}-{event.role}",
            entered={**event.entered, "script": yard.names[crane]} if event.kind == "run_started" else event.entered,
        )
        for place, event in enumerate(yard.pattern, 1)
    ]


def in_parts(events: list[Event], most: int) -> list[list[Event]]:
    """Return events in parts of a delivery [-].

    Args:
        events: of one phone
        most: of one part
    """
    left = iter(events)
    return list(iter(lambda: list(islice(left, most)), []))
