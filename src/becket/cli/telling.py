"""How far a long piece of work is, on standard error, where a person looks on.

In:    what is worked out, how much of it is done.
Out:   a line that moves and goes away again; nothing where no one looks on, nothing in the first second.
Never: standard output.
"""

from __future__ import annotations

import time
from types import TracebackType

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn

PATIENCE = 1.0  # a person waits so long without asking [s]


class Telling:
    """A context in which progress is told: ``with Telling() as tell: tell("falls", 3, 12)``."""

    def __init__(self) -> None:
        columns = TextColumn("{task.description}"), BarColumn(), TextColumn("{task.completed} of {task.total}")
        console = Console(stderr=True)
        self._progress = Progress(*columns, console=console, transient=True, auto_refresh=False)
        self._is_watched = console.is_terminal
        self._start = time.monotonic()
        self._tasks: dict[str, TaskID] = {}

    def __enter__(self) -> Telling:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._tasks:
            self._progress.stop()

    def __call__(self, what: str, done: int, of: int) -> None:
        """Tell how far the work is [-].

        Args:
            what: is worked out
            done: so many
            of: so many
        """
        if not self._is_watched or time.monotonic() - self._start < PATIENCE:
            return
        if not self._tasks:
            self._progress.start()
        if what not in self._tasks:
            self._tasks[what] = self._progress.add_task(what, total=of)
        self._progress.update(self._tasks[what], completed=done, refresh=True)
