"""An answer on its way out: as text or as JSON, with its exit code.

In:    text made by a ``text_`` module, a JSON object made by ``json_answers``, a verdict.
Out:   one answer on standard output.
Never: reading, computing.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Mapping
from typing import NoReturn

import click

from becket.cli.lines import wrapped
from becket.cli.overview import GOVERNS
from becket.verdict import Verdict


def printable(text: str) -> str:
    """Return the text with every control character spelled out: a file cannot drive the terminal [-].

    >>> printable("a" + chr(27) + "[2J")
    'a\\\\x1b[2J'
    """
    return "".join(c if c.isprintable() or c == "\n" else c.encode("unicode_escape").decode() for c in text)


def give(text: Callable[[], str], answer: Callable[[], Mapping[str, object]], as_json: bool, code: int) -> NoReturn:
    """Print the answer and leave with its exit code [-].

    Args:
        text: makes the text for a person [-]
        answer: makes the JSON object, SI numbers [-]
        as_json: which of the two is wanted [-]
        code: exit code: 0, 1 or 2 [-]
    """
    out = json.dumps(answer(), indent=1, ensure_ascii=True, allow_nan=False) if as_json else f"{text()}\n\n{_foot()}"
    show(out)
    raise click.exceptions.Exit(code)


def show(text: str) -> None:
    """Write text to standard output; characters that it cannot carry are spelled out [-]."""
    encoding = getattr(sys.stdout, "encoding", None) or "ascii"
    click.echo(printable(text).encode(encoding, "backslashreplace").decode(encoding))


def exit_code(verdict: Verdict) -> int:
    """Return 0 for pass, 1 for fail or unknown [-]."""
    return 0 if verdict is Verdict.PASS else 1


def _foot() -> str:
    return wrapped(GOVERNS)
