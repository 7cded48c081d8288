"""How long ``becket --help`` takes to start, against a bare interpreter.

In:    ``--quick`` for few rounds.
Out:   the median of each, and their ratio (aim: under 5).
Never: a verdict that fails a build: tests/cli holds what can be held.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import time
from pathlib import Path

SOURCE = Path(__file__).parent.parent / "src"
BARE = ("-c", "pass")
HELP = ("-m", "becket.cli.main", "--help")
COMMAND_HELP = ("-m", "becket.cli.main", "falls", "--help")


def median_start(arguments: tuple[str, ...], rounds: int) -> float:
    """Return the median time from start to end of one interpreter [s].

    Args:
        arguments: what the interpreter is told
        rounds: how often
    """
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        subprocess.run(
            [sys.executable, *arguments],
            check=True,
            stdout=subprocess.DEVNULL,
            env={**os.environ, "PYTHONPATH": str(SOURCE)},
        )
        taken.append(time.perf_counter() - start)
    return statistics.median(taken)


def main() -> int:
    """Print the medians and their ratios; return 0 [-]."""
    rounds = 5 if "--quick" in sys.argv else 30
    bare = median_start(BARE, rounds)
    for name, arguments in (("becket --help", HELP), ("becket falls --help", COMMAND_HELP)):
        took = median_start(arguments, rounds)
        print(f"{name}: {took * 1000:.0f} ms, bare interpreter {bare * 1000:.0f} ms, ratio {took / bare:.1f}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
