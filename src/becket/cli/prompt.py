"""One line asked of the person at the keyboard.

In:    standard input, a terminal or a pipe.
Out:   the line without its end.
Never: prompts on standard output: that is the answer's.
"""

from __future__ import annotations

import sys

import click

from becket.errors import UnreadableTextError

LONGEST = 10_000


def asked_line(prompt: str) -> str:
    """Return one line typed after the prompt [-].

    Args:
        prompt: what is asked; shown on standard error

    Raises: UnreadableTextError where the input has ended, is not text or is longer than any path.
    """
    click.echo(prompt, nl=False, err=True)
    try:
        line = sys.stdin.readline(LONGEST)
    except UnicodeDecodeError:
        raise UnreadableTextError("standard input: not UTF-8 text", "two lines of text: path, dead end") from None
    finally:
        if not sys.stdin.isatty():
            click.echo(err=True)
    if not line:
        raise UnreadableTextError("standard input: ended", "two lines: path, dead end")
    if len(line) >= LONGEST:
        raise UnreadableTextError(f"standard input: a line over {LONGEST} characters", "one path, one line")
    return line.strip()
