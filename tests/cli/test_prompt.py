"""Lines typed by a person, or piped."""

from __future__ import annotations

import io

import pytest

from becket.cli.prompt import LONGEST, asked_line
from becket.errors import UnreadableTextError


def test_the_prompt_goes_to_standard_error(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("  head 3  \nrest"))
    assert asked_line("Path: ") == "head 3"
    captured = capsys.readouterr()
    assert captured.out == ""
    assert captured.err == "Path: \n"


@pytest.mark.parametrize(
    ("stdin", "text"),
    [
        (io.StringIO(""), "standard input: ended; two lines: path, dead end"),
        (io.StringIO("x" * (LONGEST + 1)), "standard input: a line over 10000 characters; one path, one line"),
        (
            io.TextIOWrapper(io.BytesIO(b"\xff\xfe\n"), encoding="utf-8"),
            "standard input: not UTF-8 text; two lines of text: path, dead end",
        ),
    ],
)
def test_what_cannot_be_a_line_is_refused(monkeypatch: pytest.MonkeyPatch, stdin: io.TextIOBase, text: str) -> None:
    monkeypatch.setattr("sys.stdin", stdin)
    with pytest.raises(UnreadableTextError) as error:
        asked_line("Path: ")
    assert str(error.value) == text
