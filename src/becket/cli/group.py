"""The click group and what becomes of an error. Command NAME is ``NAME_command`` in ``becket.cli.NAME``.

In:    the words on the command line.
Out:   the exit code; errors of ours, of files and of options as one line each on standard error.
Never: an error of the program itself: that is a bug and keeps its traceback.
"""

from __future__ import annotations

import importlib
import sys
from collections.abc import Sequence
from difflib import get_close_matches

import click

from becket.cli.answer import printable
from becket.cli.output import lost_output
from becket.cli.overview import COMMANDS, overview
from becket.errors import BecketError


class LazyGroup(click.Group):
    """A group that loads a command's module only when that command is asked for."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """Return the names of the commands, in the order of the job [-]."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Return one command, loaded now; none where there is no such name [-]."""
        if cmd_name not in COMMANDS:
            return None
        command = getattr(importlib.import_module(f"becket.cli.{cmd_name}"), f"{cmd_name}_command")
        assert isinstance(command, click.Command)
        return command

    def get_help(self, ctx: click.Context) -> str:
        """Return the overview, the same text as without click [-]."""
        return overview()

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        """Return the command that the first word names; an unknown word names the nearest [-]."""
        if args and args[0] not in COMMANDS:
            near = get_close_matches(args[0], COMMANDS, n=1, cutoff=0.5)
            right = f'nearest: "{near[0]}"' if near else "one of " + ", ".join(COMMANDS)
            raise click.UsageError(f'no command "{args[0]}"; {right}', ctx)
        return super().resolve_command(ctx, args)


def _tell_version(context: click.Context, option: click.Parameter, is_asked: bool) -> None:
    if not is_asked:
        return
    # its own import takes as long as click's
    from importlib.metadata import PackageNotFoundError, version

    try:
        click.echo(f"becket {version('becket')}")
    except PackageNotFoundError:
        click.echo("becket, not installed")
    context.exit()


@click.group(cls=LazyGroup, name="becket", context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--version", is_flag=True, is_eager=True, expose_value=False, callback=_tell_version)
def becket() -> None:
    """Plan, guide and record the re-reeving of a telescopic mobile crane."""


def run_group(arguments: Sequence[str]) -> int:
    """Return the exit code of one command line [-].

    Args:
        arguments: the words behind ``becket`` [-]
    """
    try:
        return int(becket.main(args=list(arguments), prog_name="becket", standalone_mode=False) or 0)
    except click.exceptions.Exit as leave:
        return leave.exit_code
    except (click.Abort, KeyboardInterrupt):
        return _complain("stopped; nothing was written")
    except click.ClickException as error:
        return _complain(_usage_line(error))
    except BecketError as error:
        return _complain(str(error))
    except OSError as error:
        if error.filename is None:
            return lost_output(error)
        return _complain(f"{error.filename}: cannot be read or written; {error.strerror}")


def _complain(text: str) -> int:
    for line in text.splitlines() or ["no reason given"]:
        print(printable(line), file=sys.stderr)
    return 2


def _usage_line(error: click.ClickException) -> str:
    """One line: which command, what stands there, where the help is."""
    context = getattr(error, "ctx", None)
    where = context.command_path if context is not None else "becket"
    message = " ".join(error.format_message().split()).rstrip(".")
    return f"{where}: {message}; see {where} --help"
