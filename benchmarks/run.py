"""Run every benchmark of this folder, one after the other.

In:    the environment variable QUICK: set, the small sizes are run.
Out:   what each benchmark prints; exit code 1 when one could not run.
Never: a verdict on the numbers.
"""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path


def main() -> int:
    """Return 0 when every benchmark ran [-]."""
    quick = ["--quick"] if os.environ.get("QUICK") else []
    failed = 0
    for path in sorted(Path(__file__).parent.glob("*.py")):
        if path.stem in ("__init__", "run"):
            continue
        print(f"== {path.stem}", flush=True)
        failed += subprocess.run([sys.executable, "-m", f"benchmarks.{path.stem}", *quick], check=False).returncode != 0
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main())
