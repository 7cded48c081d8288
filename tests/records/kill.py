"""Kill a process that appends, in a seeded place, and look what became of what it acknowledged.

In:    ``python -m tests.records.kill --cases 500`` for a long run on SQLite; the suite calls ``killed`` and ``missed``.
Out:   the faults that were found; exit code 1 when there is one.
Never: a place that the seed does not give again.
"""

from __future__ import annotations

import argparse
import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from becket.records.store import Store
from becket.records.verify import verify
from tests.records.invented import NOON, an_event

ROOT = Path(__file__).resolve().parents[2]
Acknowledged = dict[str, int]


def killed(url: str, name: str, seed: int) -> Acknowledged:
    """Return what a process acknowledged before it was killed: after so many lines and so many microseconds."""
    place = random.Random(seed)
    at_once, lines, pause = place.choice((1, 1, 7)), place.randrange(0, 40), place.random() * 0.004
    command = [sys.executable, "-m", "tests.records.writer", url, name, str(at_once)]
    paths = {**os.environ, "PYTHONPATH": f"{ROOT / 'src'}:{ROOT}"}
    with subprocess.Popen(command, stdout=subprocess.PIPE, cwd=ROOT, env=paths) as process:
        assert process.stdout is not None
        said = [process.stdout.readline() for _ in range(lines + 1)]
        time.sleep(pause)
        process.send_signal(signal.SIGKILL)
        said += process.stdout.readlines()
    assert process.returncode == -signal.SIGKILL, "it was not killed"
    assert said[0] == b"open\n", said
    words = [line.decode().split() for line in said[1:] if line.endswith(b"\n")]
    return {key: int(number) for key, number in words}


def missed(url: str, acknowledged: Acknowledged) -> list[str]:
    """Return every fault of the store after kills: an acknowledged event that is not there once, a broken chain."""
    with Store.open(url) as store:
        there = [(one.event.key, one.number) for one in store.read(None)]
        faults = [
            f"{key}: acknowledged as {number}" for key, number in acknowledged.items() if (key, number) not in there
        ]
        keys = [key for key, _ in there]
        faults += [f"{key}: twice" for key in set(keys) if keys.count(key) > 1]
        found = verify(store)
        if not found.is_whole:
            faults.append(str(found.first_broken))
        if [number for _, number in there] != list(range(1, len(there) + 1)):
            faults.append("gaps")
        last = there[-1][1] if there else 0
        (outcome,) = store.append([an_event(1, key=f"after.{last}")], NOON)
        if outcome.number != last + 1:
            faults.append(f"after it: {outcome}")
    return faults


def main() -> int:
    """Print what was found; return 1 when something was."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--cases", type=int, default=500)
    cases, faults, count = parser.parse_args().cases, 0, 0
    for start in range(0, cases, 25):  # a store of its own for every 25 places
        with tempfile.TemporaryDirectory() as folder:
            url, acknowledged = str(Path(folder) / "becket.sqlite"), Acknowledged()
            for seed in range(start, min(start + 25, cases)):
                acknowledged |= killed(url, f"p{seed}", seed)
                for fault in missed(url, acknowledged):
                    faults += 1
                    print(f"seed {seed}: {fault}", flush=True)
            count += len(acknowledged)
    print(f"killed in {cases} places, {count} acknowledged events, {faults} faults")
    return 1 if faults else 0


if __name__ == "__main__":
    raise SystemExit(main())
