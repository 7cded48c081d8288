"""The long fuzz: ``python -m tests.fuzz.run --cases 100000 --seed 1``.

In:    how many cases, a seed, how many processes (two at most).
Out:   progress, a summary of what was answered, every disagreement; exit code 1 if there is one.
Never: deciding who is right.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Iterator, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, field
from multiprocessing import get_context

from tests.fuzz.cases import random_case
from tests.fuzz.compare import Compared, compare

CHUNK = 250
SHOWN = 40


@dataclass(kw_only=True)
class Tally:
    """What a run of cases gave."""

    cases: int = 0
    rows: int = 0
    recommended: int = 0
    verdicts: Counter[tuple[str, str]] = field(default_factory=Counter)  # limit, the slow evaluation's verdict
    disagreements: list[str] = field(default_factory=list)

    def add(self, number: int, compared: Compared) -> None:
        """Count one case in."""
        self.cases += 1
        self.rows += len(compared.slow.rows)
        self.recommended += compared.slow.recommended is not None
        for row in (*compared.slow.rows, compared.slow.too_many):
            self.verdicts.update((name, str(limit.verdict)) for name, limit in row.limits.items())
        self.disagreements += [f"case {number}: {one}" for one in compared.disagreements]

    def join(self, other: Tally) -> None:
        """Count the cases of another tally in."""
        self.cases += other.cases
        self.rows += other.rows
        self.recommended += other.recommended
        self.verdicts.update(other.verdicts)
        self.disagreements += other.disagreements


def run_chunk(seed: int, first: int, count: int) -> Tally:
    """Return what the cases from ``first`` on gave [-]."""
    tally = Tally()
    for number in range(first, first + count):
        tally.add(number, compare(random_case(seed, number)))
    return tally


def run_all(seed: int, cases: int, processes: int) -> Iterator[Tally]:
    """Yield the tally of each chunk as it is done, in order."""
    chunks = [(seed, first, min(CHUNK, cases - first)) for first in range(0, cases, CHUNK)]
    if processes == 1:
        yield from (run_chunk(*chunk) for chunk in chunks)
        return
    with ProcessPoolExecutor(max_workers=processes, mp_context=get_context("spawn")) as pool:
        yield from pool.map(run_chunk, *zip(*chunks, strict=True))


def summary_of(tally: Tally, seconds: float) -> str:
    """Return the summary, one line a limit [-]."""
    lines = [
        f"{tally.cases} cases, {tally.rows} rows, {tally.recommended} with a recommendation, {seconds:.0f} s,"
        f" {len(tally.disagreements)} disagreements"
    ]
    for name in dict.fromkeys(limit for limit, _ in tally.verdicts):
        counts = "  ".join(f"{verdict} {tally.verdicts[name, verdict]:>8}" for verdict in ("pass", "fail", "unknown"))
        lines.append(f"  {name:<16}{counts}")
    return "\n".join([*lines, *tally.disagreements[:SHOWN]])


def main(words: Sequence[str] | None = None) -> int:
    """Return 0 when product and slow evaluation agree everywhere, else 1 [-]."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.run", description=__doc__)
    parser.add_argument("--cases", type=int, default=100_000)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--processes", type=int, default=2, choices=(1, 2))
    asked = parser.parse_args(words)
    tally, start = Tally(), time.monotonic()
    for part in run_all(asked.seed, asked.cases, asked.processes):
        tally.join(part)
        if tally.cases % 5000 == 0:
            print(f"{tally.cases} cases, {len(tally.disagreements)} disagreements", flush=True)
    print(summary_of(tally, time.monotonic() - start))
    return 1 if tally.disagreements else 0


if __name__ == "__main__":
    sys.exit(main())
