"""``becket confirm``: the second person's own reading of the page.

In:    a crane book, a state, a name; path and dead end typed from the page.
Out:   the seal written into the book when both readings agree; exit code 1 where they differ.
Never: showing what was typed first before the second reading is whole.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path

import click

from becket.book.tackle import State
from becket.cli.answer import give
from becket.cli.json_answers import confirm_json
from becket.cli.options import StateText, book, example
from becket.cli.overview import COMMANDS
from becket.cli.prompt import asked_line
from becket.cli.reading import open_book, state_on_file
from becket.cli.text_check import confirm_text
from becket.intake.confirm import confirm_pattern, refuse_reader

EXAMPLE = example("becket confirm crane.yaml main:4 --by RT")


@click.command("confirm", short_help=COMMANDS["confirm"], epilog=EXAMPLE)
@book
@click.argument("state", type=StateText())
@click.option("--by", required=True, metavar="NAME", help="Who reads the page now; not the one who typed it.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object.")
def confirm_command(book_path: Path, state: State, by: str, as_json: bool) -> None:
    """Read the pattern of STATE from the page of the manual, blind, and seal it in the BOOK when both agree.

    Asks two lines: the path from the drum outward ("head 3, block 3"), and the dead end ("head b" or "block").
    """
    crane, _ = open_book(book_path)
    state_on_file(crane, state)
    refuse_reader(crane, state, by)
    path = asked_line("Path, read from the page, drum outward: ")
    dead_end = asked_line("Dead end (block, or head and the anchor's name): ")
    answer = confirm_pattern(book_path, state, by, path, dead_end, date.today().isoformat())
    code = 0 if answer.sealed else 1
    give(lambda: confirm_text(answer), lambda: confirm_json(answer), as_json, code)
