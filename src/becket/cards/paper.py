"""Cards on their way into a file: the suffix decides, PDF or SVG.

In:    a path, sheets, the date.
Out:   the file; how many pages it has.
Never: a half-written file; another suffix taken for one of these two.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from pathlib import Path

from becket.cards.sheet import Sheet
from becket.cards.suffix import suffix_of
from becket.cards.typesetting import typeset, typeset_svg
from becket.cards.writing import write_file
from becket.errors import CannotWriteError

_PAGE = re.compile(rb"/Type\s*/Page\b(?!s)")


def write_cards(path: Path, sheets: Sequence[Sheet], *, printed: str) -> int:
    """Return how many pages were written [-].

    Args:
        path: of the file, ``.pdf`` or ``.svg``
        sheets: in order; the first one gives the title
        printed: date, as 2026-11-30

    Raises:
        CannotWriteError: another suffix, no such folder, several pages for one SVG, a disk that takes no more.
    """
    title = sheets[0].title
    if suffix_of(path) == ".pdf":
        made = typeset(sheets, title=title, printed=printed)
        write_file(path, made)
        return pages_of(made)
    pages = typeset_svg(sheets, title=title, printed=printed)
    if len(pages) > 1:
        raise CannotWriteError(f"{path}: {len(pages)} pages do not go into one SVG; .pdf is wanted")
    write_file(path, pages[0])
    return 1


def pages_of(pdf: bytes) -> int:
    """Return how many pages a PDF of ours has [-].

    Args:
        pdf: as typeset
    """
    return len(_PAGE.findall(pdf))
