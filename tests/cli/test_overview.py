"""The overview lists the commands that there are, in 80 columns."""

from __future__ import annotations

import click

from becket.cli.group import becket
from becket.cli.overview import COMMANDS, GOVERNS, overview


def test_every_command_of_the_list_loads_and_says_the_same_in_short() -> None:
    context = click.Context(becket, help_option_names=["-h", "--help"])
    for name, short in COMMANDS.items():
        command = becket.get_command(context, name)
        assert command is not None
        assert command.short_help == short
        assert command.name == name
        assert f"  {name:<9}{short}" in overview().splitlines()


def test_the_overview_fits_80_columns_and_ends_with_what_governs() -> None:
    assert max(map(len, overview().splitlines())) <= 80
    assert " ".join(overview().split()).endswith(GOVERNS)


def test_every_command_has_an_example_that_names_itself_and_help_in_80_columns() -> None:
    context = click.Context(becket, info_name="becket", help_option_names=["-h", "--help"])
    for name in COMMANDS:
        command = becket.get_command(context, name)
        assert command is not None
        text = command.get_help(click.Context(command, info_name=name, parent=context, terminal_width=80))
        assert f"Example:\n    becket {name} " in text
        assert max(map(len, text.splitlines())) <= 80
