"""How far a long answer is, on a terminal only.

In:    how many of how many are done.
Out:   one line on standard error that overwrites itself and is gone at the end.
Never: a line in a file or a pipe; standard output.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager


@contextmanager
def progress_line(what: str) -> Iterator[Callable[[int, int], None]]:
    """Return a function that is told how many of how many are done [-].

    Args:
        what: is being worked out
    """
    shows = sys.stderr.isatty()

    def tell(done: int, whole: int) -> None:
        if shows:
            print(f"\r{what}: {done} of {whole} ", end="", file=sys.stderr, flush=True)

    try:
        yield tell
    finally:
        if shows:
            print("\r\033[K", end="", file=sys.stderr, flush=True)
