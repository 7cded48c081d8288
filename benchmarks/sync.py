"""How quick many phones are served at once: each delivers its half of a whole change, then asks for what is new.

In:    a server of its own, on SQLite and on PostgreSQL; ``--quick``: 20 phones, SQLite alone.
Out:   time of a delivery and of a feed, events a second, memory; exit code 1 where an event is lost, double or refused,
       where the chain does not hold, or where the quick run takes more work than QUICK_MOST.
Never: a server on other cores than the phones: it is the same machine.
"""

from __future__ import annotations

import asyncio
import time
from argparse import ArgumentParser
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import httpx

from becket.guide.event import Event, event_as_dict
from becket.records.store import Store, store_place
from becket.records.verify import verify
from benchmarks.load.server import Server, serving
from benchmarks.load.yard import Yard, change_at, in_parts, make_yard
from tests.records.postgres import Server as Postgres

AT_ONCE = 500  # events of one delivery, as the phone makes it
WAYS = (("all at once", AT_ONCE), ("one event at a time", 1))
QUICK_PHONES, QUICK_MOST = 10, 30.0  # [ms] of the server's work for one event with its feed


@dataclass
class Seen:
    """How long each answer took [ms]."""

    deliveries: list[float] = field(default_factory=list)
    feeds: list[float] = field(default_factory=list)
    again: int = 0  # asked once more: the server had closed a connection that lay idle
    keys: Counter[str] = field(default_factory=Counter)  # of every event that was delivered
    events: int = 0
    wall: float = 0.0
    busy: float = 0.0  # of the server [s]


@dataclass(frozen=True, kw_only=True)
class Phone:
    """One phone: its session, its crane, what it has to deliver."""

    client: httpx.AsyncClient
    crane: str
    events: list[Event]

    async def asked(self, seen: Seen, method: str, path: str, **more: Any) -> httpx.Response:
        """Return an answer; where the connection was closed meanwhile, ask once more, as a browser does."""
        try:
            return await self.client.request(method, path, **more)
        except httpx.TransportError:
            seen.again += 1
            return await self.client.request(method, path, **more)

    async def deliver(self, events: list[Event], seen: Seen) -> None:
        """Deliver events; each has to be taken."""
        start = time.perf_counter()
        plain = [event_as_dict(one) for one in events]
        answer = await self.asked(seen, "POST", "/api/events", json={"events": plain})
        seen.deliveries.append((time.perf_counter() - start) * 1000)
        refused = [one for one in answer.json()["results"] if one["refused"] is not None]
        assert not refused, refused[0]

    async def ask(self, known: dict[str, Any], seen: Seen) -> dict[str, Any]:
        """Ask for what is new; return up to where the phone has everything now, as its next question says it."""
        while True:
            start = time.perf_counter()
            answer = await self.asked(seen, "GET", f"/api/feed/{self.crane}", params=known)
            seen.feeds.append((time.perf_counter() - start) * 1000)
            found: dict[str, Any] = answer.json()
            known = {"after": found["head"], "stamp": found["stamp"]}
            if answer.headers.get("x-becket-more") != "yes":
                return known

    async def sync(self, most: int, seen: Seen) -> None:
        """Deliver everything, so many events at a time, and ask after each delivery, as the phone does."""
        known: dict[str, Any] = {"after": 0}
        for part in in_parts(self.events, most):
            await self.deliver(part, seen)
            known = await self.ask(known, seen)


async def phones_at(server: Server, yard: Yard, each: int | None) -> list[Phone]:
    """Return two phones a crane; the change is begun, so that the second may deliver before the first.

    Args:
        server: at which they are
        yard: with the cranes
        each: events of a phone at most; None: its half of the change
    """
    found = []
    for crane in yard.cranes:
        start, *rest = change_at(yard, crane, 0)
        for role in ("operator", "rigger"):
            events = [one for one in rest if one.role == role][:each]
            found.append(Phone(client=await server.phone(), crane=crane, events=events))
        await found[-2].deliver([start], Seen())
        await found[-2].ask({"after": 0}, Seen())
    return found


async def measured(server: Server, yard: Yard, most: int, each: int | None) -> Seen:
    """Return what all phones saw that began at the same moment."""
    phones = await phones_at(server, yard, each)
    seen = Seen(events=sum(len(one.events) for one in phones))
    seen.keys.update(event.key for one in phones for event in one.events)
    seen.keys.update(change_at(yard, crane, 0)[0].key for crane in yard.cranes)
    start, busy = time.perf_counter(), server.busy()
    await asyncio.gather(*(one.sync(most, seen) for one in phones))
    seen.wall, seen.busy = time.perf_counter() - start, server.busy() - busy
    for one in phones:
        await one.client.aclose()
    return seen


def check(wanted: Counter[str], place: str) -> str | None:
    """Return what is wrong with the store after it all; None: every event is there once and the chain holds."""
    with Store.look(place) as store:
        there = Counter(one.event.key for one in store.every() if one.event.crane)
        found = verify(store)
    if there != wanted:
        return f"lost {sum((wanted - there).values())}, double or strange {sum((there - wanted).values())}"
    return None if found.is_whole else f"the chain does not hold: {found.first_broken}"


def share(taken: list[float], part: float) -> float:
    """Return the time that this part of the answers stayed under [ms]."""
    return sorted(taken)[min(int(len(taken) * part), len(taken) - 1)]


def told(name: str, seen: Seen, memory: float) -> None:
    """Print one line for deliveries, one for feeds."""
    pace = f"{seen.events} events in {seen.wall:.1f} s, {seen.events / seen.wall:.0f} events/s"
    again = f"; {seen.again} asked again" if seen.again else ""
    print(f"{name}: {pace}; server at work {seen.busy:.1f} s, memory {memory:.0f} MB{again}")
    for what, taken in (("delivery", seen.deliveries), ("feed", seen.feeds)):
        times = ", ".join(f"p{part * 100:.0f} {share(taken, part):.0f} ms" for part in (0.5, 0.95))
        print(f"  {what:8} {times}, longest {max(taken):.0f} ms, {len(taken)} of them", flush=True)


def one_run(
    name: str, phones: int, most: int, url: str | None = None, each: int | None = None
) -> tuple[Seen, str | None]:
    """Return what was seen with so many phones, and what was wrong afterwards."""
    with TemporaryDirectory(prefix="becket-sync-") as folder:
        place = Path(folder) / "data"
        yard = make_yard(place, phones // 2, url)
        with serving(place, url) as server:
            seen = asyncio.run(measured(server, yard, most, each))
            told(name, seen, server.memory())
        wrong = check(seen.keys, url or store_place(place))
        print(f"  {wrong or 'none lost, none double, the chain holds'}", flush=True)
        return seen, wrong


def on_postgres(phones: int, each: int | None) -> list[str | None]:
    """Return what was wrong on PostgreSQL, which waits for its disk."""
    database = Postgres(fsync="on")
    try:
        return [
            one_run(f"PostgreSQL, {phones} phones, {words}", phones, most, database.new_database(), each)[1]
            for words, most in WAYS
        ]
    finally:
        database.stop()


def quick() -> int:
    """Measure a few phones and print; return 0 where nothing was lost and the work is bounded [-]."""
    name = f"SQLite, {QUICK_PHONES} phones, one event at a time"
    seen, fault = one_run(name, QUICK_PHONES, 1)
    work = 1000 * seen.busy / seen.events
    print(
        f"  {work:.1f} ms of work an event, {QUICK_MOST:.0f} ms is most: {'good' if work <= QUICK_MOST else 'too slow'}"
    )
    return 1 if fault or work > QUICK_MOST else 0


def main() -> int:
    """Measure and print; return 0 where nothing was lost [-]."""
    parser = ArgumentParser(prog="python -m benchmarks.sync")
    parser.add_argument("--quick", action="store_true", help="few phones on SQLite, with a bound")
    parser.add_argument("--only", choices=("sqlite", "postgresql"), help="one of the two")
    parser.add_argument("--each", type=int, metavar="N", help="events of a phone at most (its half of a change)")
    given = parser.parse_args()
    if given.quick:
        return quick()
    wrong: list[str | None] = []
    if given.only != "postgresql":
        wrong += [one_run(f"SQLite, 200 phones, {words}", 200, most, None, given.each)[1] for words, most in WAYS]
    if given.only != "sqlite":
        wrong += on_postgres(500, given.each)
    return 1 if any(wrong) else 0


if __name__ == "__main__":
    raise SystemExit(main())
