"""``becket card``: one printed card.

In:    a crane book, a state, the kind of card, a file.
Out:   the file, and how many pages it has; exit code by the verdict of the pattern.
Never: a card of a pattern that is not on file; a figure on a window card that nobody signed.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cards.count_slip import count_sheet
from becket.cards.falls_card import falls_sheet
from becket.cards.paper import write_cards
from becket.cards.pattern_card import pattern_sheet
from becket.cards.sheet import Sheet
from becket.cards.suffix import suffix_of
from becket.cards.window_card import window_sheet
from becket.cli.answer import exit_code, give
from becket.cli.lines import wrapped, written
from becket.cli.options import StateText, book, example, face
from becket.cli.overview import COMMANDS
from becket.cli.reading import open_book, state_on_file
from becket.cli.telling import Telling
from becket.cli.text_pattern import NOT_CONFIRMED
from becket.errors import NotOnFileError
from becket.reeving.pattern import check_state, find_pattern, page_to_look_for
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.verdict import Verdict

KINDS = ("pattern", "window", "count", "falls")


@click.command("card", short_help=COMMANDS["card"], epilog=example("becket card crane.yaml main:4 -o main-4.pdf"))
@book
@click.argument("state", type=StateText())
@click.option("--kind", type=click.Choice(KINDS), default="pattern", help="Which card (pattern).")
@click.option("-o", "paper", type=click.Path(path_type=Path), metavar="FILE", required=True, help="FILE.pdf or .svg.")
@face
def card_command(book_path: Path, state: State, kind: str, paper: Path, units: str, as_json: bool) -> None:
    """Print one card of STATE (as main:4) into a file.

    pattern: how the rope runs. window: what is rigged now, blank until two have signed. count: the slip for two blind
    counts. falls: load by falls over every boom length and radius of the charts. Exit code 1: the pattern fails a
    check, is not confirmed, or something about it is unknown; the card says so.
    """
    suffix_of(paper)
    crane, settings = open_book(book_path)
    on_file = state_on_file(crane, state)
    today = date.today().isoformat()
    sheet = _sheet(crane, settings, on_file, kind, today, units)
    pages = write_cards(paper, (sheet,), printed=today)
    verdict = check_state(crane, settings, on_file).verdict if kind in ("pattern", "falls") else Verdict.PASS
    give(
        lambda: _text(crane, on_file, kind, sheet, paper, pages),
        lambda: {"file": str(paper), "pages": pages},
        as_json,
        exit_code(verdict),
    )


def _sheet(crane: Book, settings: Settings, state: State, kind: str, today: str, units: str) -> Sheet:
    if kind == "count":
        return count_sheet()
    if kind == "window":
        return window_sheet(crane, settings, state.block, printed=today, system=units)
    if kind == "falls":
        with Telling() as tell:
            return falls_sheet(
                crane,
                settings,
                state.block,
                printed=today,
                system=units,
                progress=lambda done, of: tell("falls card", done, of),
            )
    pattern = find_pattern(crane, state)
    if pattern is None:
        raise NotOnFileError(page_to_look_for(crane, state))
    return pattern_sheet(crane, settings, pattern, printed=today, system=units)


def _text(crane: Book, state: State, kind: str, sheet: Sheet, paper: Path, pages: int) -> str:
    lines = [wrapped(f"{sheet.title}."), written(paper, pages)]
    pattern = find_pattern(crane, state)
    if kind == "pattern" and pattern is not None and not is_confirmed(crane, pattern):
        lines.append(f"{NOT_CONFIRMED}.")
    return "\n".join(lines)
