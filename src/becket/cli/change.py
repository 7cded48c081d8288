"""``becket change``: from one reeving to another.

In:    a crane book, two states, what is known of the site.
Out:   position, rope to leave, threading, keepers, steps, rules; exit code by the verdict.
Never: a site figure for one that is not given.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from typing import Any

import click

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cards.suffix import suffix_of
from becket.cli.answer import exit_code, give
from becket.cli.json_answers import change_json
from becket.cli.lines import written
from becket.cli.options import FROM_NOUGHT, StateText, book, example, face, quantity_option
from becket.cli.overview import COMMANDS
from becket.cli.reading import open_book, site_on_file, sound_code, state_on_file
from becket.cli.text_change import change_text
from becket.method.change import Change, work_out_change

EXAMPLE = example(
    "becket change crane.yaml main:2 main:4 --counterweight '12 t'",
    "    --outriggers full --free-radius '40 m' --ground '0 m' --slope '0 deg'",
)


@click.command("change", short_help=COMMANDS["change"], epilog=EXAMPLE)
@book
@click.argument("before", metavar="FROM", type=StateText())
@click.argument("after", metavar="TO", type=StateText())
@quantity_option("--counterweight", "mass", "Counterweight that is fitted.", FROM_NOUGHT)
@click.option("--outriggers", metavar="NAME", help="Outriggers, as the book names them.")
@click.option("--sector", metavar="S", help="Where the boom may point: side, rear, front.")
@quantity_option("--free-radius", "length", "Clear room from the slewing axis.", FROM_NOUGHT)
@quantity_option("--ground", "length", "Ground at the head above (+) or below (-) the crane's.")
@quantity_option("--slope", "angle", "Slope of the ground under the block.", FROM_NOUGHT)
@click.option("-o", "paper", type=click.Path(path_type=Path), metavar="FILE", help="The change sheet on paper.")
@face
def change_command(
    book_path: Path, before: State, after: State, paper: Path | None, units: str, as_json: bool, **asked: Any
) -> None:
    """Answer how to get from the reeving FROM to the reeving TO, step by step, with the proof of every rule."""
    if paper is not None:
        suffix_of(paper)
    crane, settings = open_book(book_path)
    site = site_on_file(crane, **asked)
    change = work_out_change(crane, settings, state_on_file(crane, before), state_on_file(crane, after), site)
    said = _on_paper(crane, change, paper, units) if paper is not None else ""
    give(
        lambda: change_text(crane, change, units) + said,
        lambda: change_json(change),
        as_json,
        sound_code(crane, settings, exit_code(change.verdict)),
    )


def _on_paper(crane: Book, change: Change, paper: Path, units: str) -> str:
    """Write the change sheet; return what is said of it [-]."""
    # what sets type takes as long to load as the whole answer without paper
    from becket.cards.change_sheet import change_sheets
    from becket.cards.paper import write_cards

    today = date.today().isoformat()
    sheets = change_sheets(crane, change, printed=today, system=units)
    return "\n\n" + written(paper, write_cards(paper, sheets, printed=today))
