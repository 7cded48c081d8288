"""``becket serve``: the phone pages of a folder, on this machine or in its network.

In:    a folder of crane books and job sheets; where to listen.
Out:   the link that opens the pages once; then the server, until it is stopped.
Never: listening to the network unasked; a traceback for anything that a person can mend.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

import click

from becket.cli.answer import printable, show
from becket.cli.lines import wrapped
from becket.cli.options import example
from becket.cli.overview import COMMANDS
from becket.errors import RefusedError

EXAMPLE = example("becket serve --data demo")
DATABASE: Final = "BECKET_DATABASE"  # of the environment: a command line is seen by everybody on the machine
FILE = click.Path(path_type=Path)


@click.command("serve", short_help=COMMANDS["serve"], epilog=EXAMPLE)
@click.option("--data", type=FILE, default=Path(), metavar="DIR", help="Folder of the crane books (the one here).")
@click.option("--port", type=click.IntRange(0, 65535), default=8470, metavar="N", help="Port (8470); 0: a free one.")
@click.option("--host", default="127.0.0.1", metavar="ADDRESS", help="Listen there (127.0.0.1, this machine alone).")
@click.option("--host-name", "names", multiple=True, metavar="NAME", help="Name by which phones know this machine.")
@click.option("--certificate", type=FILE, metavar="FILE", help="For https: certificate, PEM.")
@click.option("--key", type=FILE, metavar="FILE", help="For https: its key, PEM.")
@click.option(
    "--database",
    envvar=DATABASE,
    metavar="URL",
    help=f"Keep records there: postgresql://USER@HOST/NAME (a file in DIR). With a password: in {DATABASE}.",
)
@click.option("--shared", "is_shared", is_flag=True, help="For more than one crane and person: by name and password.")
@click.option("--invite-administrator", "is_invitation", is_flag=True, help="With --shared: a link for one more.")
@click.option("--qr", is_flag=True, help="Show the link as a code for a phone too.")
def serve_command(data: Path, database: str | None, qr: bool, **more: Any) -> None:
    """Serve the pages for the phone from the folder DIR: its crane books, its job sheets, its records.

    The link opens the pages once; the phone that opened it stays open. With --shared each person has an account: the
    first link invites an administrator, who invites the others. Stop it with Ctrl-C.
    """
    # the store and the server take longer to load than any other command
    from becket.web.serving import Wanted, open_door, serve

    if more["is_invitation"] and not more["is_shared"]:
        raise RefusedError("--invite-administrator goes with --shared: a server without accounts has no administrator")
    door = open_door(Wanted(folder=data, database=database or None, **more))
    for warning in door.warnings:
        click.echo(printable(wrapped(warning)), err=True)
    show(f"{door.what}: {door.link}")
    if qr:
        show(_code(door.link))
    serve(door, show)


def _code(link: str) -> str:
    from io import StringIO

    import segno

    text = StringIO()
    segno.make(link, error="m", micro=False).terminal(text, border=2, compact=True)
    return text.getvalue()
