"""Reading a text as a file of its kind, and the faults that come of it.

In:    texts.
Out:   records; messages with the folder cut off.
Never: expectations.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from becket.book.crane import Book
from becket.errors import FaultyFileError
from becket.intake.book import ReadBook, read_book
from becket.intake.fields import Field
from becket.intake.jobs import ReadJobs, read_jobs
from becket.intake.page import Page
from becket.intake.settings import read_settings
from becket.intake.yaml_nodes import read_yaml
from tests.intake.texts import BOOK

SETTINGS = read_settings(None)
Case = tuple[tuple[tuple[str, str], ...], list[str]]


def book_of(folder: Path, text: str | bytes) -> ReadBook:
    """Return the book that a text is."""
    return read_book(written(folder / "crane.yaml", text), SETTINGS)


def jobs_of(folder: Path, text: str | bytes, *, name: str = "jobs.yaml", book: Book | None = None) -> ReadJobs:
    """Return the job sheet that a text is, for the invented crane when no other is named."""
    return read_jobs(written(folder / name, text), SETTINGS, book or book_of(folder, BOOK).book)


def book_messages(folder: Path, text: str | bytes) -> list[str]:
    """Return the faults of a book."""
    with pytest.raises(FaultyFileError) as caught:
        book_of(folder, text)
    return cut(caught.value, folder / "crane.yaml")


def jobs_messages(folder: Path, text: str | bytes, name: str = "jobs.yaml") -> list[str]:
    """Return the faults of a job sheet."""
    with pytest.raises(FaultyFileError) as caught:
        jobs_of(folder, text, name=name)
    return cut(caught.value, folder / name)


def settings_messages(folder: Path, text: str) -> list[str]:
    """Return the faults of a settings file."""
    path = written(folder / "becket.settings.yaml", text)
    with pytest.raises(FaultyFileError) as caught:
        read_settings(folder)
    return cut(caught.value, path)


def cut(error: FaultyFileError, path: Path) -> list[str]:
    """Return the faults as text without the path in front; they are sorted."""
    assert list(error.faults) == sorted(error.faults)
    assert str(error) == "\n".join(str(fault) for fault in error.faults)
    assert all(str(fault).startswith(f"{path}:") for fault in error.faults)
    return [str(fault).removeprefix(f"{path}:") for fault in error.faults]


def written(path: Path, text: str | bytes) -> Path:
    """Return the path, the text written there."""
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def value_of(field: Field, text: str, *, decimal_comma: bool = False) -> tuple[Any, list[str]]:
    """Return what one field reads from a YAML text, and its faults without file and place in front."""
    page = Page("a.yaml", decimal_comma=decimal_comma)
    node = read_yaml(text, page, SETTINGS)
    assert node is not None
    value = field.value(page, node, "f")
    return value, [f"{fault.field}: {fault.found}; {fault.wanted}" for fault in page.faults]
