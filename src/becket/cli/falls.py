"""``becket falls``: how many falls a lift needs.

In:    a crane book, a block, a lift in the words of the options.
Out:   the falls table; exit code 0 where a number of falls is recommended.
Never: a figure for one that is not given.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from becket.book.jobs import Lift
from becket.cli.answer import give
from becket.cli.json_answers import falls_json
from becket.cli.lift import asked_lift
from becket.cli.options import BASES, FROM_NOUGHT, OVER_NOUGHT, book, example, face, quantity_option, radius
from becket.cli.overview import COMMANDS
from becket.cli.reading import named_in_book, open_book, row_asked, sound_code
from becket.cli.text_falls import falls_text
from becket.limits.table import falls_table

EXAMPLE = example(
    "becket falls crane.yaml --block main --load '13.2 t' --load-basis weighed",
    "    --rigging '420 kg' --boom '20.4 m' --radius '6 m to 9 m'",
    "    --chart 'full outriggers, 12 t' --top '6 m' --bottom '-4 m'",
)


@click.command("falls", short_help=COMMANDS["falls"], epilog=EXAMPLE)
@book
@click.option("--block", required=True, metavar="B", help="Block on the rope, as the book names it.")
@quantity_option("--load", "mass", "Mass of the load.", FROM_NOUGHT, required=True)
@quantity_option("--rigging", "mass", "Mass of slings, shackles, spreader.", FROM_NOUGHT)
@quantity_option("--boom", "length", "Boom length.", OVER_NOUGHT, required=True)
@radius()
@click.option("--chart", metavar="NAME", help="Load chart of the book.")
@click.option("--sector", metavar="S", help="Where the boom points: side, rear, front.")
@click.option("--load-basis", type=click.Choice(BASES), help="How the mass of the load is known.")
@quantity_option("--top", "length", "Highest hook, above the ground at the crane.")
@quantity_option("--bottom", "length", "Lowest hook; minus is under the ground.")
@click.option("--falls", "opened", type=click.IntRange(1), metavar="N", help="Open N falls, limit by limit.")
@face
def falls_command(book_path: Path, block: str, opened: int | None, units: str, as_json: bool, **asked: Any) -> None:
    """Answer how many falls on block B of the crane BOOK a lift needs, with every limit.

    Rig so many falls only where every limit passes; else the title says NOT PROVEN and what is missing.
    """
    crane, settings = open_book(book_path)
    lift: Lift = asked_lift(crane, **asked)
    answer = falls_table(crane, settings, named_in_book("block", block, crane.blocks), lift)
    row_asked(answer, opened)
    code = 0 if answer.recommended is not None else 1
    code = sound_code(crane, settings, code)
    give(lambda: falls_text(crane, block, lift, answer, opened, units), lambda: falls_json(answer), as_json, code)
