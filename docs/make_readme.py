"""The pictures in the README: what stops of ``becket demo`` print, as they print it now.

In:    README.md with a mark before and behind each picture; the walk of the demo.
Out:   README.md with the pictures of today.
Never: output that the command does not give.
"""

from __future__ import annotations

import re
import tempfile
from contextlib import chdir, redirect_stdout
from io import StringIO
from pathlib import Path

from becket.cli.walk import WALK, show_stop, write_demo

README = Path(__file__).parent.parent / "README.md"
PICTURE = re.compile(r"(<!-- demo stop (\d+) -->\n).*?(<!-- end of picture -->)", re.DOTALL)


def pages() -> dict[str, str]:
    """Return the README with its pictures made anew [-]."""
    return {"../README.md": with_pictures(README.read_text(encoding="utf-8"))}


def with_pictures(text: str) -> str:
    """Return a text, each of its pictures replaced by what the stop of the demo prints now [-].

    Args:
        text: with marks
    """
    return PICTURE.sub(lambda mark: f"{mark[1]}```text\n{picture(int(mark[2]))}\n```\n{mark[3]}", text)


def picture(number: int) -> str:
    """Return the command of a stop and its answer, without the line that every answer ends with [-].

    Args:
        number: of the stop, from 1
    """
    said = StringIO()
    with tempfile.TemporaryDirectory() as folder, chdir(folder), redirect_stdout(said):
        write_demo(Path("demo"))
        show_stop(WALK[number - 1], Path("demo"))
    return said.getvalue().strip()
