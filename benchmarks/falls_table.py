"""How long one falls table takes: 16 falls, every limit.

In:    ``--quick`` for few rounds.
Out:   the median for a book that is new each time and for one in use, and the slowest limits.
Never: a verdict on the numbers.

The crane is that of the tests with eight sheaves on head and block and a pattern for every number of falls; the load
is light, so that no limit stops early.
"""

from __future__ import annotations

import statistics
import sys
import time
from collections.abc import Callable
from dataclasses import replace

from becket.book.crane import Book
from becket.book.tackle import Pass, Pattern
from becket.limits.table import falls_table
from becket.verdict import Verdict
from tests.crane import invented_book, invented_lift, invented_settings, sealed

FALLS = 16
SIDES = {number: -0.385 + 0.11 * (number - 1) for number in range(1, FALLS // 2 + 1)}


def wide_book() -> Book:
    """Return the invented crane with eight sheaves on head and block and all sixteen patterns on file."""
    book = invented_book()
    main = replace(book.blocks["main"], sheaves=SIDES, mass=1500.0)
    patterns = tuple(_typed(book.patterns[3], falls) for falls in range(1, FALLS + 1))
    wide = replace(
        book,
        head=replace(book.head, sheaves=SIDES),
        blocks={**book.blocks, "main": main},
        rope=replace(book.rope, length=400.0),
        winch=replace(
            book.winch, pull=(*book.winch.pull, 33e3, 32e3, 31e3, 30e3, 29e3), speed=(*book.winch.speed, *(2.0,) * 5)
        ),
        patterns=patterns,
    )
    return sealed(wide)


def _typed(like: Pattern, falls: int) -> Pattern:
    places = [Pass(place="block" if i % 2 else "head", sheave=i // 2 + 1) for i in range(falls)]
    return replace(like, falls=falls, path=tuple(places), dead_end="block" if falls % 2 else "head b")


def median_of(work: Callable[[], object], rounds: int) -> float:
    """Return the median time of a piece of work [s].

    Args:
        work: what is timed
        rounds: how often
    """
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        work()
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def main() -> int:
    """Print the medians; return 0 [-]."""
    rounds = 20 if "--quick" in sys.argv else 400
    book, settings, lift = wide_book(), invented_settings(), invented_lift(load=2000.0)
    answer = falls_table(book, settings, "main", lift)
    assert len(answer.rows) == FALLS
    answered = sum(limit.verdict is not Verdict.UNKNOWN for row in answer.rows for limit in row.limits)
    print(f"{FALLS} falls, {len(answer.rows[0].limits)} limits, {answered} of {FALLS * 17} answered pass or fail")
    books = iter([replace(book) for _ in range(rounds)])
    new = median_of(lambda: falls_table(next(books), settings, "main", lift), rounds)
    used = median_of(lambda: falls_table(book, settings, "main", lift), rounds)
    print(f"one table, book in use: {1000 * used:.2f} ms; book not seen before: {1000 * new:.2f} ms (aim: under 2 ms)")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
