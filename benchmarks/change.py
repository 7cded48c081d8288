"""How long one change takes, steps and proof with it: all pairs of the demo cranes, and changes of random cranes.

In:    ``--quick`` for few random changes.
Out:   the median and the slowest pair, the time of the random changes, the growth of memory over them.
Never: a verdict on the numbers.
"""

from __future__ import annotations

import gc
import statistics
import sys
import time
import tracemalloc
from dataclasses import replace
from importlib.resources import as_file, files
from itertools import permutations
from math import radians
from random import Random

from becket.book.crane import Book
from becket.book.tackle import State
from becket.intake.book import read_book
from becket.intake.settings import read_settings
from becket.method.change import Change, work_out_change
from becket.method.site import Site
from becket.settings.values import Settings
from becket.verdict import Verdict

RANDOM_CHANGES = 2000
MEMORY_CHANGES = 120  # after as many to warm up


def demo_cranes(settings: Settings) -> list[tuple[Book, Site]]:
    """Return each demo crane with a site that its first re-reeving position allows.

    Args:
        settings: values of the method
    """
    with as_file(files("becket.demo")) as folder:
        books = [read_book(path, settings).book for path in sorted(folder.glob("*.crane.yaml"))]
    return [(b, Site(counterweight=b.rereeve[0].counterweight, outriggers=b.rereeve[0].outriggers)) for b in books]


def pairs(settings: Settings) -> list[tuple[Book, Site, State, State]]:
    """Return every change between two states on file of a demo crane.

    Args:
        settings: values of the method
    """
    return [
        (book, site, before, after)
        for book, site in demo_cranes(settings)
        for before, after in permutations([p.state for p in book.patterns], 2)
    ]


def changed_at_random(book: Book, chance: Random) -> Book:
    """Return a crane with other masses, heights, sag and switch.

    Args:
        book: of the demo
        chance: where the figures come from
    """
    low = radians(chance.uniform(-3, -1))
    blocks = {
        name: replace(
            b, mass=(b.mass or 0.0) * chance.uniform(0.6, 1.3), stands=(b.stands or 0.0) + 0.1 * chance.random()
        )
        for name, b in book.blocks.items()
    }
    return replace(
        book,
        blocks=blocks,
        boom=replace(book.boom, foot_z=book.boom.foot_z + chance.uniform(-0.4, 0.4), lowest={"side": low}),
        switch=replace(book.switch, trips=chance.uniform(0.7, 1.4), margin=chance.uniform(0.2, 0.5)),
        rereeve=tuple(replace(row, lowest=low) for row in book.rereeve if row.sector == "side"),
    )


def random_change(chance: Random, settings: Settings, every: list[tuple[Book, Site, State, State]]) -> Change:
    """Return one change of a random crane.

    Args:
        chance: where the figures come from
        settings: values of the method
        every: changes of the demo cranes to draw from
    """
    book, site, before, after = chance.choice(every)
    return work_out_change(changed_at_random(book, chance), settings, before, after, site)


def grown_memory(settings: Settings, every: list[tuple[Book, Site, State, State]]) -> int:
    """Return how much memory is held after some changes more than before them, once warmed up [bytes].

    Args:
        settings: values of the method
        every: changes of the demo cranes to draw from
    """
    chance = Random(3)
    tracemalloc.start()
    for _ in range(MEMORY_CHANGES):
        random_change(chance, settings, every)
    gc.collect()
    before = tracemalloc.get_traced_memory()[0]
    for _ in range(MEMORY_CHANGES):
        random_change(chance, settings, every)
    gc.collect()
    after = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    return after - before


def main() -> int:
    """Print the times; return 0 [-]."""
    settings = read_settings(None)
    every = pairs(settings)
    taken, proved = [], 0
    for book, site, before, after in every:
        start = time.perf_counter()
        change = work_out_change(book, settings, before, after, site)
        taken.append((time.perf_counter() - start, f"{book.crane} {before} to {after}"))
        proved += bool(change.rules) and all(r.verdict is Verdict.PASS for r in change.rules)
    median = statistics.median(seconds for seconds, _ in taken)
    slowest = max(taken)
    print(f"{len(every)} pairs of the demo cranes, {proved} with every rule proved")
    worst = f"slowest {1000 * slowest[0]:.1f} ms: {slowest[1]}"
    print(f"one change: median {1000 * median:.1f} ms (aim: under 50 ms), {worst}")
    rounds = 100 if "--quick" in sys.argv else RANDOM_CHANGES
    chance, written = Random(2), 0
    start = time.process_time()
    for _ in range(rounds):
        written += bool(random_change(chance, settings, every).steps)
    seconds = time.process_time() - start
    print(
        f"{rounds} random changes, {written} with steps: {seconds:.1f} s of one core "
        f"({RANDOM_CHANGES * seconds / rounds:.0f} s for {RANDOM_CHANGES}; aim: under 60 s)"
    )
    print(f"memory grown over {MEMORY_CHANGES} changes: {grown_memory(settings, every):.0f} bytes")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
