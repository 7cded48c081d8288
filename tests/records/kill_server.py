"""Kill the server itself with phones at it, in a seeded place, and look what became of what it acknowledged.

Three phones deliver entries and send photos over HTTP. The server dies: at the n-th statement, at a commit, between
commit and answer, in the answer, around what is written of a photo, in the middle of a request, or after some moments.
It is started again and the phones send again what nobody acknowledged, and some of what was.

In:    ``python -m tests.records.kill_server --cases 500``, long (``--postgresql``: on that); the suite takes a few.
Out:   the faults that were found; exit code 1 when there is one.
Never: a place that the seed does not give again.
"""

from __future__ import annotations

import argparse
import http.client
import json
import os
import random
import signal
import subprocess
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from becket.guide.event import Event, event_as_dict
from becket.records.photo_check import check_photos
from becket.records.photo_file import hash_of, make_photo
from becket.records.store import Store, store_place
from becket.records.verify import verify
from becket.web.sessions import COOKIE, Sessions
from tests.records.invented import an_event
from tests.records.test_photos import jpeg

ROOT: Final = Path(__file__).resolve().parents[2]
OWN: Final = {"Sec-Fetch-Site": "same-origin"}
OUTSIDE: Final = ("torn", "late")  # killed from outside: half a request sent, some moments gone
KINDS: Final = (
    *("statement", "commit", "committed", "chaining", "before-answer", "in-answer"),
    *("syncing", "synced", "replaced", "unlinking", *OUTSIDE),
)
DELIVERIES: Final = 6  # of each phone at one server, then it is killed if nothing killed it before
PIECE: Final = 9000  # bytes of a photo
TIMEOUT: Final = 20.0  # [s]


@dataclass
class Phone:
    """One phone: what it has entered, what was acknowledged."""

    name: str
    cookie: str
    events: list[Event] = field(default_factory=list)
    numbers: dict[str, int] = field(default_factory=dict)  # acknowledged, by key
    photos: dict[str, tuple[Event, bytes]] = field(default_factory=dict)  # by key of its event
    arrived: dict[str, int] = field(default_factory=dict)  # acknowledged bytes of a photo, by key of its event
    faults: list[str] = field(default_factory=list)

    def enter(self, draw: random.Random) -> None:
        """Enter something: notes, now and then a photo; the person first."""
        if not self.events:
            person = {"id": self.name, "name": f"Nobody {self.name}", "role": "rigger", "salt": "00", "check": "00"}
            self._write("person_added", person, crane="")
        for _ in range(draw.choice((1, 1, 2, 5))):
            self._write("noted", {"text": "Which head sheave is it over? ½ ≠ 1" * draw.randrange(1, 9)})
        if draw.random() < 0.3:
            data = jpeg(draw.randrange(60, 300), draw.randrange(60, 300))
            entered = {"photo": hash_of(data), "bytes": len(data), "item": None, "pattern": f"main:{len(self.events)}"}
            event = self._write("photo_taken", entered)
            self.photos[event.key] = event, data

    def _write(self, kind: str, entered: dict[str, Any], crane: str = "hazel-70") -> Event:
        number = len(self.events) + 1
        names: dict[str, Any] = {"key": f"{self.name}.{number}", "device": self.name, "person": self.name}
        self.events.append(an_event(number, **names, crane=crane, run=None, kind=kind, shown={}, entered=entered))
        return self.events[-1]

    def deliver(self, port: int, events: list[Event]) -> None:
        """Deliver; what is acknowledged keeps its number for ever."""
        body = json.dumps({"events": [event_as_dict(one) for one in events]}).encode()
        status, told = self.ask(port, "POST", "/api/events", body, "application/json")
        if status != 200:
            self.faults.append(f"{self.name}: {status} {told}")
            return
        for one in told["results"]:
            if one["number"] is None or self.numbers.setdefault(one["key"], one["number"]) != one["number"]:
                self.faults.append(f"{one['key']}: {one}, acknowledged as {self.numbers.get(one['key'])}")

    def send_photos(self, port: int) -> None:
        """Send on every photo whose entry was acknowledged, from where the server says it is."""
        for key, (event, data) in self.photos.items():
            while key in self.numbers and self.arrived.get(key) != len(data):
                path = f"/api/photo/hazel-70/{hash_of(data)}?event={key}"
                status, told = self.ask(port, "GET", path)
                if status == 200 and not told["whole"]:
                    self._look(key, told["offset"])
                    piece = data[told["offset"] : told["offset"] + PIECE]
                    status, told = self.ask(port, "PUT", f"{path}&offset={told['offset']}", piece, "image/jpeg")
                if status != 200:
                    self.faults.append(f"photo of {event.key}: {status} {told}")
                    return
                self._look(key, len(data) if told["whole"] else told["offset"])

    def _look(self, key: str, offset: int) -> None:
        if offset < self.arrived.get(key, 0):
            self.faults.append(f"photo of {key}: {offset} bytes are there, {self.arrived[key]} were acknowledged")
        self.arrived[key] = offset

    def ask(self, port: int, method: str, path: str, body: bytes = b"", kind: str = "") -> tuple[int, Any]:
        """Return status and answer, wholly read."""
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=TIMEOUT)
        try:
            headers = {"Cookie": f"{COOKIE}={self.cookie}", **(OWN if method != "GET" else {})}
            connection.request(
                method, path, body if method != "GET" else None, {**headers, **({"Content-Type": kind} if kind else {})}
            )
            answer = connection.getresponse()
            return answer.status, json.loads(answer.read())
        finally:
            connection.close()

    def tear(self, port: int) -> http.client.HTTPConnection:
        """Return a connection on which half a delivery was sent."""
        connection = http.client.HTTPConnection("127.0.0.1", port, timeout=TIMEOUT)
        connection.putrequest("POST", "/api/events")
        for name, value in {**OWN, "Cookie": f"{COOKIE}={self.cookie}", "Content-Type": "application/json"}.items():
            connection.putheader(name, value)
        connection.putheader("Content-Length", "5000")
        connection.endheaders(b'{"events": [{"key": "torn')
        return connection

    def work(self, port: int, seed: str, pending: list[Event]) -> None:
        """Send again what was not acknowledged and a part of what was, then go on, until the server is gone."""
        draw = random.Random(seed)
        with suppress(OSError, http.client.HTTPException, ValueError):
            again = [one for one in self.events if one.key in self.numbers and draw.random() < 0.1]
            self.deliver(port, [*pending, *again][:400])
            for _ in range(DELIVERIES):
                self.send_photos(port)
                self.enter(draw)
                self.deliver(port, [one for one in self.events if one.key not in self.numbers])


class Nursery:
    """Starts one server after another."""

    def __init__(self) -> None:
        words = [sys.executable, "-m", "tests.records.serve_and_die"]
        paths = {**os.environ, "PYTHONPATH": f"{ROOT / 'src'}:{ROOT}"}
        self.died_there = False
        self.process = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=ROOT, env=paths)

    def start(self, folder: Path, url: str, kind: str, count: int) -> tuple[int, int]:
        """Return process and port of a server that listens; 0, 0: it died before it did."""
        assert self.process.stdin is not None
        told = {"folder": str(folder), "url": url, "kind": kind, "count": count}
        self.process.stdin.write(json.dumps(told).encode() + b"\n")
        self.process.stdin.flush()
        found, self.died_there = self.hear(), False
        if "died" in found:
            found, self.died_there = self.hear(), True
        assert found.get("ended", -signal.SIGKILL) == -signal.SIGKILL, f"it ended by itself: {found}"
        return int(found.get("pid", 0)), int(found.get("port", 0))

    def ended(self) -> int:
        """Return how the server ended; ``died_there`` says whether it was at the place."""
        found = self.hear()
        if "died" in found:
            found, self.died_there = self.hear(), True
        return int(found["ended"])

    def hear(self) -> dict[str, Any]:
        """Return the next line."""
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        assert line, "it ended by itself"
        found: dict[str, Any] = json.loads(line)
        return found

    def close(self) -> None:
        """End it."""
        self.process.communicate(timeout=30)


@dataclass
class Site:
    """One folder, its database, the phones there, and what the deaths were."""

    folder: Path
    url: str
    nursery: Nursery
    phones: list[Phone]
    deaths: Counter[str] = field(default_factory=Counter)


@contextmanager
def a_site(folder: Path, url: str | None = None) -> Iterator[Site]:
    """Give a site with three phones that are open."""
    folder.mkdir(exist_ok=True)
    sessions, nursery = Sessions(folder), Nursery()
    cookies = [sessions.use_link(sessions.new_link()) for _ in range(3)]
    phones = [Phone(name=f"p{number}", cookie=str(cookie)) for number, cookie in enumerate(cookies, 1)]
    try:
        yield Site(folder=folder, url=url or f"sqlite:///{store_place(folder)}", nursery=nursery, phones=phones)
    finally:
        nursery.close()


def killed(site: Site, seed: int) -> list[str]:
    """Return the faults found after one death: the kind of place by turns, the rest drawn by the seed."""
    draw = random.Random(seed)
    kind = KINDS[seed % len(KINDS)]
    count = draw.randrange(1, {"statement": 120, "chaining": 40, "commit": 60, "late": 2, "torn": 2}.get(kind, 9))
    pid, port = site.nursery.start(site.folder, site.url, kind, count)
    if not pid:
        site.deaths["at its start"] += 1
    else:
        _let_them_work(site, pid, port, seed, draw.random() * 0.4 if kind == "late" else TIMEOUT)
        ended = site.nursery.ended()
        if ended != -signal.SIGKILL:
            return [f"it was not killed: {ended}"]
        site.deaths[kind if kind in OUTSIDE or site.nursery.died_there else "place not reached"] += 1
    return looked(site)


def _let_them_work(site: Site, pid: int, port: int, seed: int, patience: float) -> None:
    work = []
    for phone in site.phones:
        pending = [one for one in phone.events if one.key not in phone.numbers]
        work.append(threading.Thread(target=phone.work, args=(port, f"{seed} {phone.name}", pending)))
    torn = site.phones[0].tear(port) if KINDS[seed % len(KINDS)] == "torn" else None
    for one in work:
        one.start()
    end = time.monotonic() + patience
    for one in work:
        one.join(max(0.0, end - time.monotonic()))
    with suppress(ProcessLookupError):
        os.kill(pid, signal.SIGKILL)
    for one in work:
        one.join()
    if torn is not None:
        torn.close()


def looked(site: Site) -> list[str]:
    """Return every fault of what lies on the disk: lost, doubled, a broken chain, half a photo as a whole one."""
    with Store.open(site.url) as store:
        there = [(one.event.key, one.number) for one in store.read(None)]
        found = verify(store)
        photos = check_photos(store, site.folder / "photos")
    faults = [fault for phone in site.phones for fault in phone.faults]
    faults += [] if found.is_whole else [str(found.first_broken)]
    faults += [] if [number for _, number in there] == list(range(1, len(there) + 1)) else ["gaps"]
    faults += [f"{key}: twice" for key, count in Counter(key for key, _ in there).items() if count > 1]
    acknowledged = {key: number for phone in site.phones for key, number in phone.numbers.items()}
    faults += [f"{key}: acknowledged as {number}" for key, number in acknowledged.items() - dict(there).items()]
    return [*faults, *photos.broken, *_half_photos(site)]


def _half_photos(site: Site) -> list[str]:
    whole = {hash_of(data): data for phone in site.phones for _, data in phone.photos.values()}
    kept = site.folder.glob("photos/*.jpg")
    return [
        f"{path.name} is not the photo that was sent"
        for path in kept
        if path.name[0] != "." and path.read_bytes() != make_photo(whole[path.stem]).data
    ]


def finished(site: Site) -> list[str]:
    """Return the faults found when the server stays up and every phone sends all that it has, twice."""
    pid, port = site.nursery.start(site.folder, site.url, "late", 1)
    assert pid > 0, "it did not start"
    for phone in [*site.phones, *site.phones]:
        for start in range(0, len(phone.events), 200):
            phone.deliver(port, phone.events[start : start + 200])
        phone.arrived = dict.fromkeys(phone.arrived, 0)
        phone.send_photos(port)
    os.kill(pid, signal.SIGKILL)
    site.nursery.ended()
    with Store.open(site.url) as store:
        there = Counter(one.event.kind for one in store.read(None))
    sent = Counter(one.kind for phone in site.phones for one in phone.events)
    photos = len({hash_of(data) for phone in site.phones for _, data in phone.photos.values()})
    faults = [] if there == sent + Counter(photo_kept=photos) else [f"kept {there}, sent {sent}"]
    left = [path.name for path in (site.folder / "photos").rglob("*") if path.is_file()]
    faults += [f"{name} is left over" for name in left if name[0] == "." or name.endswith(".part")]
    return [*faults, *looked(site)]


def main() -> int:
    """Print what was found; return 1 when something was."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--cases", type=int, default=500)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--postgresql", action="store_true")
    asked = parser.parse_args()
    server = None
    if asked.postgresql:
        from tests.records.postgres import Server

        server = Server(fsync="on")
    faults, acknowledged, deaths = 0, 0, Counter[str]()
    last = asked.first + asked.cases
    for start in range(asked.first, last, 25):  # a folder of its own for every 25 places
        with tempfile.TemporaryDirectory() as folder:
            url = server.new_database() if server else None
            with a_site(Path(folder), url) as site:
                found = [(seed, fault) for seed in range(start, min(start + 25, last)) for fault in killed(site, seed)]
                found += [(start, fault) for fault in finished(site)]
            for seed, fault in found:
                print(f"seed {seed}: {fault}", flush=True)
            faults += len(found)
            acknowledged += sum(len(phone.numbers) for phone in site.phones)
            deaths += site.deaths
    if server:
        server.stop()
    print(f"killed in {asked.cases} places, {acknowledged} acknowledged events, {faults} faults; {dict(deaths)}")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main())
