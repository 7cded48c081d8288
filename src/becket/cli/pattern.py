"""``becket pattern``: one pattern of the book and its checks.

In:    a crane book, a state.
Out:   the pattern as typed, what was found; exit code by the verdict.
Never: a pattern that is not in the book.
"""

from __future__ import annotations

from pathlib import Path

import click

from becket.book.tackle import State
from becket.cli.answer import exit_code, give
from becket.cli.json_answers import pattern_json
from becket.cli.options import StateText, book, example, face
from becket.cli.overview import COMMANDS
from becket.cli.reading import open_book, state_on_file
from becket.cli.text_pattern import pattern_text
from becket.reeving.pattern import check_state


@click.command("pattern", short_help=COMMANDS["pattern"], epilog=example("becket pattern crane.yaml main:4"))
@book
@click.argument("state", type=StateText())
@face
def pattern_command(book_path: Path, state: State, units: str, as_json: bool) -> None:
    """Show the reeving pattern of STATE (as main:4) as the crane BOOK has it, and check it."""
    crane, settings = open_book(book_path)
    check = check_state(crane, settings, state_on_file(crane, state))
    code = exit_code(check.verdict)
    give(lambda: pattern_text(crane, check, units), lambda: pattern_json(check), as_json, code)
