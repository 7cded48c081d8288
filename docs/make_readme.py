"""The pictures in the README and the page ``demo.md``: what ``becket demo`` prints, as it prints it now.

In:    README.md with a mark before and behind each picture; the walk of the demo.
Out:   README.md with the pictures of today; the whole walk as a page.
Never: output that the command does not give.
"""

from __future__ import annotations

import re
import tempfile
from collections.abc import Callable
from contextlib import chdir, redirect_stdout
from io import StringIO
from pathlib import Path

from becket.cli.walk import WALK, show_stop, show_walk, write_demo

README = Path(__file__).parent.parent / "README.md"
PICTURE = re.compile(r"(<!-- demo stop (\d+) -->\n).*?(<!-- end of picture -->)", re.DOTALL)


def pages() -> dict[str, str]:
    """Return the README with its pictures made anew, and the whole walk [-]."""
    whole = f"# The demo\n\nWhat `becket demo` prints. Made by `make docs`.\n\n```text\n{whole_walk()}\n```\n"
    return {"../README.md": with_pictures(README.read_text(encoding="utf-8")), "demo.md": whole}


def whole_walk() -> str:
    """Return what ``becket demo --into demo`` prints [-]."""
    return _said(show_walk)


def with_pictures(text: str) -> str:
    """Return a text, each of its pictures replaced by what the stop of the demo prints now [-].

    Args:
        text: with marks
    """
    return PICTURE.sub(lambda mark: f"{mark[1]}```text\n{picture(int(mark[2]))}\n```\n{mark[3]}", text)


def picture(number: int) -> str:
    """Return the command of a stop and its answer [-].

    Args:
        number: of the stop, from 1
    """
    return _said(lambda folder: show_stop(WALK[number - 1], folder))


def _said(show: Callable[[Path], object]) -> str:
    said = StringIO()
    with tempfile.TemporaryDirectory() as place, chdir(place), redirect_stdout(said):
        write_demo(Path("demo"))
        show(Path("demo"))
    return said.getvalue().strip()
