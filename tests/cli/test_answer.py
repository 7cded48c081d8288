"""Answers on their way out."""

from __future__ import annotations

import io
import json

import click
import pytest

from becket.cli.answer import exit_code, give, printable, show
from becket.cli.overview import GOVERNS
from becket.verdict import Verdict


@pytest.mark.parametrize(("verdict", "code"), [(Verdict.PASS, 0), (Verdict.FAIL, 1), (Verdict.UNKNOWN, 1)])
def test_only_pass_leaves_with_nothing_to_say(verdict: Verdict, code: int) -> None:
    assert exit_code(verdict) == code


@pytest.mark.parametrize("code", [0, 1, 2])
def test_text_ends_with_what_governs_and_json_is_one_object(capsys: pytest.CaptureFixture[str], code: int) -> None:
    for as_json in (False, True):
        with pytest.raises(click.exceptions.Exit) as leave:
            give(lambda: "rig 4 falls", lambda: {"recommended": 4}, as_json, code)
        assert leave.value.exit_code == code
        out = capsys.readouterr().out
        if as_json:
            assert json.loads(out) == {"recommended": 4}
        else:
            assert " ".join(out.split()) == f"rig 4 falls {GOVERNS}"


def test_a_number_that_json_does_not_know_is_a_bug_not_an_answer() -> None:
    with pytest.raises(ValueError, match="not JSON compliant"):
        give(lambda: "", lambda: {"use": float("nan")}, True, 0)


@pytest.mark.parametrize("code_point", [0x1B, 0x07, 0x00, 0x08, 0x0D, 0x9B, 0x202E, 0x200B])
def test_a_file_cannot_drive_the_terminal(code_point: int, capsys: pytest.CaptureFixture[str]) -> None:
    show(f"Hazel {chr(code_point)}[31m 70")
    out = capsys.readouterr().out
    assert chr(code_point) not in out
    assert out.startswith("Hazel \\")
    assert printable("two\nlines") == "two\nlines"


def test_a_character_that_the_terminal_does_not_know_is_spelled_out(monkeypatch: pytest.MonkeyPatch) -> None:
    raw = io.BytesIO()
    monkeypatch.setattr("sys.stdout", io.TextIOWrapper(raw, encoding="ascii", write_through=True))
    show("Größe")
    assert raw.getvalue() == b"Gr\\xf6\\xdfe\n"
