"""The program ``becket``: one click group, each command in a module of its own.

In:    the words on the command line.
Out:   text or JSON on standard output, one line an error on standard error, an exit code.
Never: computing; a traceback for anything that a person can mend.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import Final

from becket.cli.output import lost_output
from becket.cli.overview import overview

BARE_HELP: Final[tuple[list[str], ...]] = ([], ["--help"], ["-h"], ["help"])


def run(arguments: Sequence[str]) -> int:
    """Return the exit code of one command line: 0 answered, 1 fails or unknown, 2 cannot be read [-].

    Args:
        arguments: the words behind ``becket`` [-]
    """
    if list(arguments) in BARE_HELP:
        try:
            print(overview(), flush=True)
        except OSError as error:
            return lost_output(error)
        return 0
    # click takes four times as long to load as the interpreter: the bare help goes without it
    from becket.cli.group import run_group

    return run_group(arguments)


def main() -> None:
    """Run the words behind the program's name and leave with the exit code [-]."""
    sys.exit(run(sys.argv[1:]))


if __name__ == "__main__":
    main()
