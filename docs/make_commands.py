"""The page ``commands.md``: every command, its options, its answer.

In:    the commands themselves and the schemas that ship with the package.
Out:   one page.
Never: words that are not in the code.
"""

from __future__ import annotations

import json
from importlib.resources import files

import click

from becket.cli.group import becket
from becket.cli.overview import COMMANDS, overview


def pages() -> dict[str, str]:
    """Return the page with its text [-]."""
    parts = [
        "# Commands",
        "Made from the code by `make docs`.",
        f"```text\n{overview()}\n```",
        *(_command(name) for name in COMMANDS),
    ]
    return {"commands.md": "\n\n".join(parts) + "\n"}


def _command(name: str) -> str:
    parent = click.Context(becket, info_name="becket", help_option_names=["-h", "--help"])
    command = becket.get_command(parent, name)
    assert command is not None
    context = click.Context(command, info_name=name, parent=parent, terminal_width=80, max_content_width=80)
    parts = [f"## becket {name}", f"```text\n{command.get_help(context)}\n```"]
    if isinstance(command, click.Group):
        parts += [_part(f"becket {name}", part, context) for part in command.commands.values()]
    schema = files("becket.schema") / f"{name}.json"
    if schema.is_file():
        parts.append(_answer(json.loads(schema.read_text(encoding="utf-8")), name))
    return "\n\n".join(parts)


def _part(group: str, command: click.Command, parent: click.Context) -> str:
    context = click.Context(command, info_name=command.name, parent=parent, terminal_width=80, max_content_width=80)
    return f"### {group} {command.name}\n\n```text\n{command.get_help(context)}\n```"


def _answer(schema: dict[str, object], name: str) -> str:
    keys = schema["properties"]
    assert isinstance(keys, dict)
    rows = [f"| `{key}` | {_kind(entry)} | {entry.get('description', '')} |" for key, entry in keys.items()]
    head = f"With `--json`: {schema['description']} The whole schema: `becket/schema/{name}.json`."
    return "\n".join([head, "", "| key | kind | |", "| --- | --- | --- |", *rows])


def _kind(entry: dict[str, object]) -> str:
    if "enum" in entry:
        values = entry["enum"]
        assert isinstance(values, list)
        return ", ".join(f"`{value}`" for value in values)
    if "anyOf" in entry:
        options = entry["anyOf"]
        assert isinstance(options, list)
        return " or ".join(_kind(option) for option in options)
    kind = entry["type"]
    return " or ".join(kind) if isinstance(kind, list) else str(kind)
