"""Which kind of file came in: a book, a job sheet, a table.

In:    its bytes beside its place, its name as it was sent.
Out:   "book", "jobs" or "table": by what stands in it, by its name where that cannot tell.
Never: its faults; a kind against what stands in it.
"""

from __future__ import annotations

import re
from contextlib import suppress
from pathlib import Path
from typing import Final

from becket.errors import FaultyFileError, RefusedError
from becket.intake.book import FIELDS
from becket.intake.cells import is_table
from becket.intake.files import read_text
from becket.intake.jobs import SHEET_FIELDS
from becket.intake.nodes import Pairs
from becket.intake.page import Page
from becket.intake.yaml_nodes import read_yaml
from becket.settings.values import Settings

OF_BOOK: Final = FIELDS.keys() - SHEET_FIELDS.keys()
OF_SHEET: Final = SHEET_FIELDS.keys() - FIELDS.keys()
_KEY: Final = re.compile(r"^([A-Za-z_]+)[ \t]*:", re.MULTILINE)  # at the top of a file that is no YAML
_SHEET_NAME: Final = re.compile(r"\.jobs\b")


def kind_of(path: Path, name: str, settings: Settings) -> str:
    """Return what a file is: "book", "jobs" or "table" [-].

    Args:
        path: of what came in
        name: as it was sent
        settings: the limits of what is read

    Raises:
        RefusedError: it is no text, or neither of them.
    """
    page = Page(path.name)
    file = read_text(path, page, settings.file_size_most)
    if file is None:
        raise RefusedError(f"this file {page.faults[0].found}; wanted is {page.faults[0].wanted}")
    if is_table(file.text):
        return "table"
    keys = _keys(file.text, page, settings)
    if "jobs" in keys:
        return "jobs"
    of_book, of_sheet = len(keys & OF_BOOK), len(keys & OF_SHEET)
    if of_book != of_sheet:
        return "book" if of_book > of_sheet else "jobs"
    told = kind_by_name(name)
    if told == "table" or page.faults or "crane" in keys:
        return told or "book"  # what cannot be read as YAML is looked at all the same: its faults have lines
    raise RefusedError("this file is neither a crane book (crane, manual, boom ...) nor a job sheet (crane, jobs)")


def kind_by_name(name: str) -> str | None:
    """Return what a file's name says that it is, None where it says nothing [-].

    Args:
        name: as it was sent

    >>> kind_by_name("Hazel-70.JOBS.yaml"), kind_by_name("week.csv"), kind_by_name("week.yaml")
    ('jobs', 'table', None)
    """
    low = name.lower()
    if low.endswith(".csv"):
        return "table"
    return "jobs" if _SHEET_NAME.search(low) else None


def _keys(text: str, page: Page, settings: Settings) -> set[str]:
    """The keys at the top, also of a file that cannot be read to its end."""
    node = None
    with suppress(FaultyFileError):
        node = read_yaml(text, page, settings)
    if isinstance(node, Pairs):
        return {key.text for key, _ in node.pairs}
    return set(_KEY.findall(text)) if page.faults else set()
