"""Lines of text that fit 80 columns without colour.

In:    words, rows of cells.
Out:   text.
Never: numbers, units.
"""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from pathlib import Path

WIDTH = 80


def wrapped(text: str, first: str = "", rest: str | None = None) -> str:
    """Return the text in lines of at most 80 columns [-].

    Args:
        text: one paragraph [-]
        first: what stands before the first line [-]
        rest: what stands before the others; as many blanks where not given [-]
    """
    indent = " " * len(first) if rest is None else rest
    lines = textwrap.wrap(
        " ".join(text.split()), WIDTH, initial_indent=first, subsequent_indent=indent, break_on_hyphens=False
    )
    return "\n".join(lines) or first.rstrip()


def table(head: Sequence[str], rows: Sequence[Sequence[str]], left: Sequence[int] = (0,)) -> str:
    """Return a table: words to the left, numbers to the right, two blanks between columns [-].

    Args:
        head: one word a column [-]
        rows: cells of each row, as many as the head has [-]
        left: which columns hold words [-]
    """
    every = [list(head), *(list(row) for row in rows)]
    widths = [max(len(row[i]) for row in every) for i in range(len(head))]
    lines = [
        "  ".join(c.ljust(w) if i in left else c.rjust(w) for i, (c, w) in enumerate(zip(row, widths, strict=True)))
        for row in every
    ]
    return "\n".join(line.rstrip() for line in lines)


def listed(words: Sequence[object], nothing: str = "nothing") -> str:
    """Return words with commas between them [-].

    >>> listed(["head 3", "block 3"])
    'head 3, block 3'
    """
    return ", ".join(str(word) for word in words) or nothing


def plain_name(name: str) -> str:
    """Return the name of a limit or rule in words [-].

    >>> plain_name("lead_line_pull")
    'lead line pull'
    """
    return name.replace("_", " ")


def clipped(text: str, width: int) -> str:
    """Return the text, cut where it is longer than a column [-].

    >>> clipped("guards and ladders", 10)
    'guards ...'
    """
    return text if len(text) <= width else text[: width - 3] + "..."


def written(path: Path, pages: int) -> str:
    """Return the sentence that says what was written where [-].

    Args:
        path: of the file
        pages: in it

    >>> written(Path("main-4.pdf"), 1)
    'Written: main-4.pdf, 1 page.'
    """
    return wrapped(f"Written: {path}, {pages} {'page' if pages == 1 else 'pages'}.")
