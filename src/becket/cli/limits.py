"""``becket limits``: what the reeving that is on can do.

In:    a crane book, a state, boom length and radius.
Out:   greatest load, lowest hook, what governs each; exit code by the verdict.
Never: a figure for one that is not given.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from becket.book.tackle import State
from becket.cli.answer import exit_code, give
from becket.cli.json_answers import limits_json
from becket.cli.lift import asked_lift
from becket.cli.options import OVER_NOUGHT, StateText, book, example, face, quantity_option, radius
from becket.cli.overview import COMMANDS
from becket.cli.reading import open_book, sound_code, state_on_file
from becket.cli.text_limits import limits_text
from becket.limits.rigged import rigged_limits

EXAMPLE = example(
    "becket limits crane.yaml main:2 --boom '28.8 m' --radius '12 m'",
    "    --chart 'full outriggers, 12 t' --top '12 m'",
)


@click.command("limits", short_help=COMMANDS["limits"], epilog=EXAMPLE)
@book
@click.argument("state", type=StateText())
@quantity_option("--boom", "length", "Boom length.", OVER_NOUGHT, required=True)
@radius(required=True)
@click.option("--chart", metavar="NAME", help="Load chart of the book.")
@click.option("--sector", metavar="S", help="Where the boom points: side, rear, front.")
@quantity_option("--top", "length", "Highest hook, above the ground at the crane.")
@quantity_option("--bottom", "length", "Lowest hook (0 m).", default="0 m")
@face
def limits_command(book_path: Path, state: State, units: str, as_json: bool, **asked: Any) -> None:
    """Answer what STATE (as main:2) of the crane BOOK can carry and how deep its hook can go."""
    crane, settings = open_book(book_path)
    answer = rigged_limits(crane, settings, state_on_file(crane, state), asked_lift(crane, **asked))
    code = sound_code(crane, settings, exit_code(answer.verdict))
    give(lambda: limits_text(crane, answer, units), lambda: limits_json(answer), as_json, code)
