"""``becket pack``: a whole crane in one file that needs no network.

In:    a crane book, the name of the file to write.
Out:   the file, whole or not at all; what stands in it.
Never: a file of a kind that the suffix does not say.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from itertools import permutations
from pathlib import Path
from types import MappingProxyType

import click

from becket.book.crane import Book
from becket.cards.change_sheet import change_in_words
from becket.cards.crane_cards import book_of_cards
from becket.cards.writing import write_file
from becket.cli.answer import give
from becket.cli.options import book, example, face
from becket.cli.overview import COMMANDS
from becket.cli.reading import open_book
from becket.cli.telling import Telling
from becket.errors import RefusedError
from becket.method.change import Change, work_out_change
from becket.pack.change_data import sites_of, states_of
from becket.pack.html import pack_html
from becket.pack.photos import read_photos
from becket.settings.values import Settings
from becket.verdict import Verdict

_PAGE = re.compile(rb"/Type\s*/Page(?!s)")
_SECTION = re.compile(r'<section id="(?!view-(?:from|change)")')
Written = tuple[bytes, int]  # the file, how many pages it has


@dataclass(frozen=True, kw_only=True)
class Asked:
    """What a file is asked of."""

    crane: Book
    settings: Settings
    folder: Path  # in which the book and the photos lie
    printed: str  # date
    units: str


Writer = Callable[[Asked, Telling], Written]


@click.command("pack", short_help=COMMANDS["pack"], epilog=example("becket pack crane.yaml -o crane.html"))
@book
@click.option("-o", "path", type=click.Path(path_type=Path), required=True, metavar="FILE", help="File to write.")
@face
def pack_command(book_path: Path, path: Path, units: str, as_json: bool) -> None:
    """Write a whole crane into one file: FILE.html with every pattern, change and a falls finder, for a phone without
    network; FILE.pdf with every card.
    """
    writer = WRITERS.get(path.suffix.lower())
    if writer is None:
        raise RefusedError(
            f"-o {path}: the name ends in no kind of file that is known; end it in {' or '.join(WRITERS)}"
        )
    crane, settings = open_book(book_path)
    printed = date.today().isoformat()
    asked = Asked(crane=crane, settings=settings, folder=book_path.parent, printed=printed, units=units)
    with Telling() as tell:
        data, pages = writer(asked, tell)
    write_file(path, data)
    give(
        lambda: f"{path}: {crane.crane}, book {crane.fingerprint}; {pages} pages, {-(-len(data) // 1000)} kB.",
        lambda: {"file": str(path), "pages": pages},
        as_json,
        0,
    )


def _html(asked: Asked, tell: Telling) -> Written:
    crane = asked.crane
    photos = read_photos(crane, asked.folder)
    text = pack_html(crane, asked.settings, printed=asked.printed, system=asked.units, tell=tell, photos=photos)
    changes = len(list(permutations(states_of(crane), 2))) * len(sites_of(crane))
    return text.encode("utf-8"), len(_SECTION.findall(text)) + changes


def _pdf(asked: Asked, tell: Telling) -> Written:
    changes, left_out = _usable_changes(asked.crane, asked.settings, tell)
    data = book_of_cards(
        asked.crane,
        asked.settings,
        printed=asked.printed,
        system=asked.units,
        changes=changes,
        left_out=left_out,
        progress=lambda done, of: tell("falls cards", done, of),
    )
    return data, len(_PAGE.findall(data))


def _usable_changes(crane: Book, settings: Settings, tell: Telling) -> tuple[list[Change], list[str]]:
    """The changes that pass, each at the first set-up of the book at which it does; the names of those that do not."""
    usable: list[Change] = []
    left_out: list[str] = []
    pairs = list(permutations(states_of(crane), 2))
    for number, (before, after) in enumerate(pairs, 1):
        tell("changes", number, len(pairs))
        every = (work_out_change(crane, settings, before, after, site) for site in sites_of(crane))
        passing = next((change for change in every if change.verdict is Verdict.PASS), None)
        if passing is None:
            left_out.append(change_in_words(before, after))
        else:
            usable.append(passing)
    return usable, left_out


WRITERS: Mapping[str, Writer] = MappingProxyType({".html": _html, ".pdf": _pdf})
