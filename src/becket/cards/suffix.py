"""What kind of file a card goes into, known before anything is worked out.

In:    a path.
Out:   its suffix.
Never: another suffix taken for one of those that can be written; a library.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from becket.errors import CannotWriteError

SUFFIXES = (".pdf", ".svg")


def suffix_of(path: Path, suffixes: Sequence[str] = SUFFIXES) -> str:
    """Return the suffix of a file to write, before anything is worked out for it [-].

    Args:
        path: of the file
        suffixes: those that can be written

    Raises:
        CannotWriteError: another suffix, or no such folder.
    """
    suffix = path.suffix.lower()
    if suffix not in suffixes:
        stands = f'ends in "{path.suffix}"' if path.suffix else "has no suffix"
        raise CannotWriteError(f"{path}: {stands}; {' or '.join(suffixes)} is wanted")
    if not path.parent.is_dir():
        raise CannotWriteError(f"{path}: there is no folder {path.parent}; make it first, or name another")
    return suffix
