"""Progress is told on standard error to a person who looks on, and only where it takes its time."""

from __future__ import annotations

import sys

import pytest

from becket.cli import telling
from becket.cli.telling import Telling


def test_nothing_where_no_one_looks_on(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(telling, "PATIENCE", -1.0)
    with Telling() as tell:
        tell("falls", 1, 2)
    assert capsys.readouterr() == ("", "")


def looked_on(monkeypatch: pytest.MonkeyPatch) -> None:
    """Make standard error a terminal."""
    monkeypatch.setattr(sys.stderr, "isatty", lambda: True, raising=False)
    monkeypatch.setenv("TERM", "xterm")
    monkeypatch.setenv("COLUMNS", "80")


def test_told_to_a_person(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> None:
    looked_on(monkeypatch)
    monkeypatch.setattr(telling, "PATIENCE", -1.0)
    with Telling() as tell:
        tell("changes", 3, 12)
        tell("falls", 1, 2)
    told = capsys.readouterr()
    assert told.out == ""
    assert "changes" in told.err
    assert "3 of 12" in told.err
    assert "1 of 2" in told.err


def test_what_is_done_in_a_second_is_not_told(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    looked_on(monkeypatch)
    monkeypatch.setattr(telling, "PATIENCE", 60.0)
    with Telling() as tell:
        tell("changes", 3, 12)
    assert capsys.readouterr() == ("", "")


def test_an_error_on_the_way_gets_through(monkeypatch: pytest.MonkeyPatch) -> None:
    looked_on(monkeypatch)
    monkeypatch.setattr(telling, "PATIENCE", -1.0)

    def stopped() -> None:
        with Telling() as tell:
            tell("changes", 3, 12)
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        stopped()
