"""``becket demo``: the main job on two invented cranes, start to end.

In:    a folder to write the demo files into.
Out:   each command as one would type it, with its answer.
Never: an answer made up for the show.
"""

from __future__ import annotations

from pathlib import Path

import click

from becket.cli.options import example
from becket.cli.overview import COMMANDS
from becket.cli.walk import leave


@click.command("demo", short_help=COMMANDS["demo"], epilog=example("becket demo --into demo"))
@click.option("--into", type=click.Path(path_type=Path), default=Path("demo"), metavar="DIR", help="Folder (demo).")
def demo_command(into: Path) -> None:
    """Write two invented cranes with a job sheet each into a folder and walk the main job on them."""
    leave(into)
