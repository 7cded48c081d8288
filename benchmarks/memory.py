"""Whether the server's memory stays flat: events for hours, and phones that ask.

In:    a server of its own on SQLite; ``--quick``: 2,000 events, 20 feeds.
Out:   memory after every tenth of the events; how long verifying them takes; exit code 1 where the second half of the
       events took more memory than FLAT for each 1000, where an event is lost, where the chain does not hold.
Never: a memory of the benchmark itself in the figure.
"""

from __future__ import annotations

import asyncio
import resource
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from becket.records.store import Store, store_place
from benchmarks.load.server import ROOT, Server, serving
from benchmarks.load.yard import Yard, change_at, in_parts, make_yard
from benchmarks.sync import Phone, Seen

EVENTS, FEEDS, CRANES = 100_000, 1000, 20
FLAT = 1.0  # [MB] more for 1000 events: what is held of one closed run is 0.2 kB
QUICK_FLAT = 10.0  # [MB] a server that has just begun still fills what it remembers
AT_ONCE = 50


async def filled(server: Server, yard: Yard, events: int, feeds: int) -> tuple[list[tuple[int, float]], int]:
    """Return memory by the number of events that came in, and that number.

    Args:
        server: that takes them
        yard: its cranes
        events: how many at least
        feeds: asked in between, one in 20 from the beginning
    """
    client, seen, done, asked = await server.phone(), Seen(), 0, 0
    memory: list[tuple[int, float]] = []
    for number in range(events):  # of the change at each crane
        for crane in yard.cranes:
            phone = Phone(client=client, crane=crane, events=change_at(yard, crane, number))
            for part in in_parts(phone.events, AT_ONCE):
                await phone.deliver(part, seen)
            done += len(phone.events)
            while asked < feeds * done / events:
                await phone.ask({"after": 0 if asked % 20 == 0 else max(done - 200, 0)}, seen)
                asked += 1
            if done >= events * len(memory) / 10:
                memory.append((done, server.memory()))
                print(f"{done:7} events: {memory[-1][1]:.0f} MB", flush=True)
            if done >= events:
                await client.aclose()
                return memory, done
    raise AssertionError("unreached")


def verified(folder: Path) -> tuple[bool, float, float]:
    """Return whether ``becket record verify`` finds all whole, how long it took, its start included, and how much of \
    that it was at work [s]."""
    start, before = time.perf_counter(), resource.getrusage(resource.RUSAGE_CHILDREN)
    words = [sys.executable, "-m", "becket.cli.main", "record", "verify", "--data", str(folder)]
    ended = subprocess.run(words, cwd=ROOT / "src", capture_output=True, text=True, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    busy = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
    return ended.returncode == 0, time.perf_counter() - start, busy


def main() -> int:
    """Measure and print; return 0 where the memory is flat and nothing is lost [-]."""
    events, feeds = (2000, 20) if "--quick" in sys.argv else (EVENTS, FEEDS)
    with TemporaryDirectory(prefix="becket-memory-") as name:
        folder = Path(name) / "data"
        yard = make_yard(folder, 2 if "--quick" in sys.argv else CRANES)
        with serving(folder) as server:
            memory, done = asyncio.run(filled(server, yard, events, feeds))
        with Store.look(store_place(folder)) as store:
            there = sum(1 for one in store.every() if one.event.crane)
        is_whole, taken, busy = verified(folder)
    middle, last = memory[len(memory) // 2], memory[-1]
    most = QUICK_FLAT if "--quick" in sys.argv else FLAT
    growth = (last[1] - middle[1]) / (last[0] - middle[0]) * 1000
    print(f"second half: {growth:.2f} MB more for 1000 events, {most} is most; {done - there} events lost")
    whole = "whole" if is_whole else "NOT WHOLE"
    print(f"becket record verify of {there} events: {taken:.2f} s, {busy:.2f} s of them at work, {whole}")
    return 0 if growth <= most and there == done and is_whole else 1


if __name__ == "__main__":
    raise SystemExit(main())
