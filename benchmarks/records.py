"""How long the store takes: to keep one event, to verify, to take all records out and in, and how much memory.

In:    ``--quick`` for a tenth of the events.
Out:   seconds, events a second, megabytes.
Never: a verdict on the numbers.
"""

from __future__ import annotations

import resource
import statistics
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from becket.records.archive import export_archive
from becket.records.store import Store
from becket.records.take_in import take_in_archive
from becket.records.verify import verify
from tests.records.invented import NOON, an_event, some

EVENTS, SINGLE, AT_ONCE = 100_000, 200, 50


def silent(what: str, done: int, of: int) -> None:
    """Tell nobody how far it is."""


def singles(store: Store, count: int) -> list[float]:
    """Return how long each of so many events took to be on the disk [ms].

    Args:
        store: that takes them
        count: how many
    """
    taken = []
    for number in range(1, count + 1):
        event = an_event(number, key=f"single.{number}")
        start = time.perf_counter()
        store.append([event], NOON)
        taken.append((time.perf_counter() - start) * 1000)
    return sorted(taken)


def memory() -> float:
    """Return the most memory that this program has used [MB]."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1000


def now() -> tuple[float, float]:
    """Return the time on the wall and the time at work [s]."""
    return time.perf_counter(), time.process_time()


def told(name: str, start: tuple[float, float], count: int, more: str = "") -> None:
    """Print how long a piece of work took.

    Args:
        name: of the work
        start: when it began, on the wall and at work
        count: events
        more: the aim
    """
    taken, busy = (after - before for after, before in zip(now(), start, strict=True))
    pace = f"{taken:.2f} s, {busy:.2f} s of them at work, {count / taken:.0f} events/s"
    print(f"{name} {count} events: {pace}, most memory {memory():.0f} MB{more}")


def main() -> int:
    """Print what was measured; return 0 [-]."""
    count = EVENTS // (10 if "--quick" in sys.argv else 1)
    with TemporaryDirectory() as folder:
        path = Path(folder)
        with Store.open(str(path / "a.sqlite")) as store:
            taken = singles(store, SINGLE)
            print(f"one event: median {statistics.median(taken):.2f} ms, p95 {taken[int(SINGLE * 0.95)]:.2f} ms")
            start = now()
            for first in range(1, count - SINGLE, AT_ONCE):
                store.append(some(first, first + AT_ONCE - 1), NOON)
            told(f"append, {AT_ONCE} at once,", start, count - SINGLE)
            start, before = now(), memory()
            found = verify(store)
            told("verify", start, found.count, f", {memory() - before:.1f} more (aim: 100000 under 5 s, memory flat)")
            start, before = now(), memory()
            export_archive(store, path / "a.zip", None, silent)
            told(
                "export",
                start,
                count,
                f", {memory() - before:.1f} more; {(path / 'a.zip').stat().st_size / 1e6:.1f} MB",
            )
        with Store.open(str(path / "b.sqlite")) as empty:
            start, before = now(), memory()
            take_in_archive(empty, path / "a.zip", None, silent)
            told("import", start, count, f", {memory() - before:.1f} more")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
