"""The files and the names that a command is about.

In:    paths and names as they were typed.
Out:   records; an error that names the nearest name on file.
Never: computing.
"""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from pathlib import Path

from becket.book.crane import Book
from becket.book.tackle import State
from becket.errors import NotOnFileError
from becket.intake.book import read_book
from becket.intake.settings import read_settings
from becket.limits.answer import FallsAnswer
from becket.method.site import Site
from becket.settings.values import Settings


def open_book(path: Path) -> tuple[Book, Settings]:
    """Return the crane book and the settings in force beside it [-].

    Raises: FaultyFileError where either cannot be used as it stands.
    """
    settings = read_settings(path.parent)
    return read_book(path, settings).book, settings


def named_in_book(kind: str, name: str, names: Iterable[str]) -> str:
    """Return the name if it is one of those on file [-].

    Args:
        kind: what is named, for the message: "block" [-]
        name: as typed [-]
        names: those on file [-]

    Raises: NotOnFileError that names the nearest, or all.
    """
    known = list(names)
    if name in known:
        return name
    near = get_close_matches(name, known, n=1, cutoff=0.5)
    every = ", ".join(known) or "none"
    right = f'nearest: "{near[0]}"' if near else f"the book has: {every}"
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
