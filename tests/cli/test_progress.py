"""How far a long answer is."""

from __future__ import annotations

import io

import pytest

from becket.cli.progress import progress_line


class Terminal(io.StringIO):
    """Standard error that is a terminal."""

    def isatty(self) -> bool:
        """Return that it is one."""
        return True


def test_on_a_terminal_one_line_that_is_gone_at_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Terminal()
    monkeypatch.setattr("sys.stderr", screen)
    with progress_line("Loads") as tell:
        tell(1, 3)
        tell(2, 3)
    assert screen.getvalue() == "\rLoads: 1 of 3 \rLoads: 2 of 3 \r\033[K"


def test_in_a_pipe_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    pipe = io.StringIO()
    monkeypatch.setattr("sys.stderr", pipe)
    with progress_line("Loads") as tell:
        tell(1, 3)
    assert pipe.getvalue() == ""
