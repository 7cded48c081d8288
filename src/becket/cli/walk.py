"""The walk of ``becket demo``: which commands it runs on the demo cranes, in which order.

In:    a folder.
Out:   the demo files in it; each command shown as one would type it, and its answer.
Never: an answer that the command itself does not give; a file overwritten that differs.
"""

from __future__ import annotations

import io
import shlex
import sys
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, redirect_stderr
from dataclasses import dataclass
from importlib.resources import files
from pathlib import Path
from typing import Final

import click

from becket.cli.answer import show
from becket.cli.demo_crew import keep_crew, told_of_crew
from becket.cli.group import run_group
from becket.cli.lines import WIDTH, wrapped
from becket.errors import CannotWriteError, RefusedError

BIG, BIG_JOBS = "hazel-70.crane.yaml", "hazel-70.jobs.yaml"
SMALL, SMALL_JOBS = "rowan-30.crane.yaml", "rowan-30.jobs.csv"
DEMO_FILES: Final = (BIG, BIG_JOBS, SMALL, SMALL_JOBS)
CARD, SLIP, PHONE = "hazel-70-main-4.pdf", "count-slip.pdf", "hazel-70.html"
WRITTEN: Final = (CARD, SLIP, PHONE)  # by the walk itself, into the same folder
PUMP: Final = (
    *("--block", "main", "--load", "13.2 t", "--load-basis", "weighed", "--rigging", "420 kg", "--boom", "20.4 m"),
    *("--radius", "6 m to 9 m", "--chart", "full outriggers, 12 t", "--top", "6 m", "--bottom", "-4 m"),
)
BOILER: Final = (
    *("--block", "hook", "--load", "19 500 lb", "--load-basis", "weighed", "--rigging", "900 lb"),
    *("--boom", "53.5 ft", "--radius", "15 ft to 20 ft", "--chart", "full outriggers"),
    *("--top", "16 ft", "--bottom", "0 ft"),
)


@dataclass(frozen=True, kw_only=True)
class Stop:
    """One command of the walk. ``typed`` is what the second person types where the command asks."""

    title: str
    words: tuple[str, ...]
    code: int = 0
    typed: str | None = None


WALK: Final = (
    Stop(
        title="The files first: every slip in one run. These are good.",
        words=("check", BIG, BIG_JOBS),
    ),
    Stop(
        title="How many falls does the pump of Tuesday need, and why not fewer?",
        words=("falls", BIG, *PUMP),
    ),
    Stop(
        title="On the ball one figure is missing. Unknown is no pass: the answer names it, and who has it.",
        words=(
            *("falls", BIG, "--block", "ball", "--load", "0.7 t", "--load-basis", "weighed", "--rigging", "60 kg"),
            *("--boom", "20.4 m", "--radius", "10 m to 14 m", "--chart", "full outriggers, 12 t"),
            *("--top", "6 m", "--bottom", "0 m"),
        ),
        code=1,
    ),
    Stop(
        title="The other way round: what can the two falls do that are on now?",
        words=(
            *("limits", BIG, "main:2", "--boom", "20.4 m", "--radius", "9 m"),
            *("--chart", "full outriggers, 12 t", "--top", "6 m"),
        ),
    ),
    Stop(
        title="The pattern for four falls, as the crew typed it from the manual, and what becket checks in it.",
        words=("pattern", BIG, "main:4"),
    ),
    Stop(
        title="A second person reads page 7-15 and types what it shows. It differs: neither is kept.",
        words=("confirm", BIG, "main:5", "--by", "RS"),
        code=1,
        typed="head 2, block 1, head 4, block 3, head 3\nblock\n",
    ),
    Stop(
        title="The week: twelve lifts. Where is it cheapest to re-reeve? One lift no reeving can do.",
        words=("plan", BIG, BIG_JOBS),
        code=1,
    ),
    Stop(
        title="The change itself: where to put the boom, how much rope to leave, what comes out, what goes in.",
        words=(
            *("change", BIG, "main:2", "main:4", "--counterweight", "12 t", "--outriggers", "full"),
            *("--free-radius", "40 m", "--ground", "0 m", "--slope", "0 deg"),
        ),
    ),
    Stop(
        title="The small crane: its manual prints pounds and feet. A boiler for it, shown in these units.",
        words=("falls", SMALL, *BOILER, "--units", "us"),
    ),
    Stop(
        title="Its job sheet comes from a spreadsheet.",
        words=("plan", SMALL, SMALL_JOBS),
    ),
    Stop(
        title="On paper: the pattern of four falls, both views, for the cab. Print it and stick it up.",
        words=("card", BIG, "main:4", "-o", CARD),
    ),
    Stop(
        title="The slip for the two blind counts: fold it, each counts alone.",
        words=("card", BIG, "main:4", "--kind", "count", "-o", SLIP),
    ),
    Stop(
        title="The whole crane in one file for the phone. It opens with no network.",
        words=("pack", BIG, "-o", PHONE),
    ),
)

ON_THE_PHONE: Final = (
    "On the phone: 'becket serve --data {folder}' prints a link that opens the pages of both cranes. The crew list "
    "holds three invented people with their four digits: {crew}. What is rigged is not known yet: the first page asks "
    "two of them to count, each alone."
)
OWN_CRANE: Final = (
    "Your own crane: copy {book} and replace its figures with those of your manual, from the top down. "
    "Leave out what you do not find. Run 'becket check' on it until it says good. Then type the reeving "
    "patterns with their pages, and let a second person run 'becket confirm' with the manual in hand."
)


def write_demo(folder: Path) -> None:
    """Write the demo files into a folder; files that are there already and the same stay [-].

    Args:
        folder: made where it is missing

    Raises: RefusedError where a file of that name differs; CannotWriteError where the folder takes no file.
    """
    texts: Mapping[Path, bytes] = {folder / name: (files("becket.demo") / name).read_bytes() for name in DEMO_FILES}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for path, text in texts.items():
            if path.exists() and path.read_bytes() != text:
                raise RefusedError(f"{path}: is there and differs from the demo's; name another folder with --into")
        for path, text in texts.items():
            path.write_bytes(text)
    except OSError as error:
        raise CannotWriteError(f"{error.filename or folder}: cannot be written; {error.strerror}") from None


def show_walk(folder: Path) -> int:
    """Show every stop of the walk; return 0 where each command left as it should, else 1 [-].

    Args:
        folder: where the demo files are
    """
    strange = 0
    for number, stop in enumerate(WALK, 1):
        show("\n" + wrapped(stop.title, f"{number}. ") + "\n")
        strange += show_stop(stop, folder) != stop.code
    show("\n" + wrapped(ON_THE_PHONE.format(folder=folder, crew=told_of_crew())))
    show("\n" + wrapped(OWN_CRANE.format(book=folder / BIG)))
    return 1 if strange else 0


def show_stop(stop: Stop, folder: Path) -> int:
    """Show one command and its answer; return its exit code [-].

    Args:
        stop: of the walk
        folder: where the demo files are
    """
    words = [str(folder / word) if word in (*DEMO_FILES, *WRITTEN) else word for word in stop.words]
    show(command_line(words, stop.typed) + "\n")
    code = _run(words, stop.typed)
    show(f"\n(exit code {code})")
    return code


def command_line(words: list[str], typed: str | None) -> str:
    """Return a command as one would type it, broken over lines at 80 columns [-].

    Args:
        words: behind ``becket``
        typed: lines given on standard input
    """
    lines = ["$ becket"]
    for word in map(shlex.quote, words):
        if len(lines[-1]) + len(word) + 3 > WIDTH:
            lines[-1] += " \\"
            lines.append("     ")
        lines[-1] += f" {word}"
    return "\n".join([*lines, *(f"> {line}" for line in (typed or "").splitlines())])


def _run(words: list[str], typed: str | None) -> int:
    """Prompts are not shown, the walk types by itself; errors are, on standard output."""
    said = io.StringIO()
    with redirect_stderr(said), _standing_in(typed or ""):
        code = run_group(words)
    if code > 1:
        show(said.getvalue().rstrip())
    return code


@contextmanager
def _standing_in(typed: str) -> Iterator[None]:
    before = sys.stdin
    try:
        sys.stdin = io.StringIO(typed)
        yield
    finally:
        sys.stdin = before


def leave(folder: Path) -> None:
    """Write the files and the crew list, walk, and leave with the exit code [-]."""
    write_demo(folder)
    keep_crew(folder)
    raise click.exceptions.Exit(show_walk(folder))
