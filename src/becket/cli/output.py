"""Standard output that cannot be written any more.

In:    an error of the system.
Out:   one line on standard error, or nothing where the reader went away; an exit code.
Never: a second error when the interpreter closes.
"""

from __future__ import annotations

import os
import sys


def lost_output(error: OSError) -> int:
    """Return the exit code for output that could not be written: 1 for a reader that left (``| head``), else 2 [-].

    Args:
        error: of the system
    """
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    if isinstance(error, BrokenPipeError):
        return 1
    print(f"standard output: cannot be written; {error.strerror or error}", file=sys.stderr)
    return 2
