"""The files and the names that a command is about.

In:    paths and names as they were typed.
Out:   records; an error that names the nearest name on file.
Never: computing.
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from pathlib import Path

import click

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cli.answer import printable
from becket.cli.lines import plain_name, wrapped
from becket.errors import NotOnFileError
from becket.intake.book import read_book
from becket.intake.settings import read_settings
from becket.limits.answer import FallsAnswer
from becket.limits.contradictions import find_contradictions
from becket.method.site import Site
from becket.settings.values import Settings


def open_book(path: Path) -> tuple[Book, Settings]:
    """Return the crane book and the settings in force beside it [-].

    Figures of the book that contradict each other are told on standard error: an answer may rest on the wrong one.

    Raises: FaultyFileError where either cannot be used as it stands.
    """
    settings = read_settings(path.parent)
    book = read_book(path, settings).book
    for line in _warnings(book, settings):
        click.echo(printable(line), err=True)
    return book, settings


def sound_code(book: Book, settings: Settings, code: int) -> int:
    """Return the exit code of an answer; 1 instead of 0 where the book that it rests on contradicts itself [-].

    Args:
        book: the crane
        settings: in force
        code: of the answer by itself: 0, 1 or 2 [-]
    """
    return max(code, 1 if _warnings(book, settings) else 0)


def _warnings(book: Book, settings: Settings) -> list[str]:
    """What a person is to see before the answer; a seal that no longer matches is in the answer itself."""
    found = [one for one in find_contradictions(book, settings) if one.name != "seal_no_longer_matches"]
    lines = [wrapped(f"{plain_name(one.name)}: {one.why} ({', '.join(one.fields)})", "  ", "    ") for one in found]
    if lines:
        head = "THE BOOK CONTRADICTS ITSELF. Look in the manual, mend it, ask again; becket check shows where."
        lines.insert(0, wrapped(head))
    return lines


def named_in_book(kind: str, name: str, names: Iterable[str]) -> str:
    """Return the name if it is one of those on file [-].

    Args:
        kind: what is named, for the message: "block" [-]
        name: as typed [-]
        names: those on file [-]

    Raises: NotOnFileError that names the nearest, or all where several are near or none is.
    """
    known = list(names)
    if name in known:
        return name
    near = get_close_matches(name, known, n=1, cutoff=0.95) or get_close_matches(name, known, n=2, cutoff=0.5)
    every = ", ".join(f'"{one}"' for one in known) or "none"
    right = f'nearest: "{near[0]}"' if len(near) == 1 else f"the book has: {every}"
    raise NotOnFileError(f'{kind}: "{name}" is not in the book; {right}')


def state_on_file(book: Book, state: State) -> State:
    """Return the state if its block is in the book; its pattern may still be missing [-]."""
    named_in_book("block", state.block, book.blocks)
    return state


def row_asked(answer: FallsAnswer, falls: int | None) -> None:
    """Return nothing; a number of falls that the table does not have is refused [-].

    Raises: NotOnFileError that says which rows there are.
    """
    numbers = [row.falls for row in answer.rows]
    if falls is not None and falls not in numbers:
        every = f"{numbers[0]} to {numbers[-1]}" if numbers else "none"
        raise NotOnFileError(f"--falls: {falls} is more than block and head can carry; the table has: {every}")


def site_on_file(book: Book, *, outriggers: str | None, sector: str | None, **measured: float | None) -> Site:
    """Return what is known of the site; names are those of the permitted positions of the book [-].

    Args:
        book: the crane, for its names
        outriggers: as the book names them; None: not given
        sector: where the boom may point; None: not given
        measured: counterweight [kg], free_radius [m], ground [m], slope [rad]; None: not given

    Raises: NotOnFileError for a name that the book does not have.
    """
    if outriggers is not None:
        named_in_book("outriggers", outriggers, dict.fromkeys(row.outriggers for row in book.rereeve))
    if sector is not None:
        named_in_book("sector", sector, dict.fromkeys([*book.boom.lowest, *(row.sector for row in book.rereeve)]))
    return Site(outriggers=outriggers, sector=sector, **measured)
