"""The invented crew of the demo, put on its crew list, so that the phone can be tried at once.

In:    the demo's folder.
Out:   three people in its store; what is said of them.
Never: a count, a record, anything of a crane: what is rigged is not known until two people count it.
"""

from __future__ import annotations

import json
from datetime import UTC, datetime
from hashlib import pbkdf2_hmac, sha256
from importlib.resources import files
from pathlib import Path
from typing import Final

from becket.guide.event import FIRM, Event
from becket.records.store import Store, store_place

ROUNDS: Final = 100_000  # PBKDF2, SHA-256, as the phone checks digits
MOMENT: Final = "2026-01-01T06:00:00+00:00"  # always the same: the same folder twice holds the same crew once


def keep_crew(folder: Path) -> None:
    """Put the demo's crew on the crew list of a folder; who is on it already stays.

    Args:
        folder: of the demo

    Raises:
        CannotKeepError: the folder takes no records.
    """
    with Store.open(store_place(folder)) as store:
        events = [_added(one, tick) for tick, one in enumerate(crew(), 1)]
        there = {kept.event.key for kept in store.find([event.key for event in events])}
        now = datetime.now(UTC).isoformat(timespec="milliseconds")
        store.append([event for event in events if event.key not in there], now)


def crew() -> list[dict[str, str]]:
    """Return the invented people, each with the digits that the demo tells [-]."""
    people: list[dict[str, str]] = json.loads((files("becket.demo") / "crew.json").read_text(encoding="utf-8"))
    return people


def told_of_crew() -> str:
    """Return what the demo says of its crew [-].

    >>> told_of_crew().split(",")[0]
    'Otto Operator 1111'
    """
    return ", ".join(f"{one['name']} {one['digits']}" for one in crew())


def _added(person: dict[str, str], tick: int) -> Event:
    salt = sha256(person["id"].encode()).hexdigest()[:32]
    check = pbkdf2_hmac("sha256", person["digits"].encode(), bytes.fromhex(salt), ROUNDS).hex()
    plain = {name: value for name, value in person.items() if name != "digits"}
    return Event(
        key=f"{person['id']}-added",
        crane=FIRM,
        run=None,
        kind="person_added",
        person=person["id"],
        role=person["role"],
        device="becket-demo",
        at=MOMENT,
        tick=tick,
        shown={},
        entered={**plain, "salt": salt, "check": check},
    )
