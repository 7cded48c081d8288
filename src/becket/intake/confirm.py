"""The second person's own reading of a pattern, written into the book when both agree.

In:    a book's path, a state, a name, path and dead end as read from the page.
Out:   a confirmation with its seal; the book changed in that one place, every other byte as it was.
Never: confirming by the typist, writing anything where the readings differ, half a file.
"""

from __future__ import annotations

import json
import os
import re
import shutil
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path
from tempfile import NamedTemporaryFile

from becket.book.crane import Book
from becket.book.tackle import Confirmed, Pattern, State
from becket.errors import CannotWriteError, NotOnFileError, RefusedError
from becket.intake.book import read_book
from becket.intake.files import BOM, read_text
from becket.intake.nodes import Node, Pairs, Sequence, Word
from becket.intake.page import Page, first_names
from becket.intake.settings import read_settings
from becket.intake.yaml_nodes import read_yaml
from becket.reeving.seal import is_confirmed, is_typist, seal_of
from becket.reeving.words import path_words, read_dead_end, read_path
from becket.settings.values import Settings
from becket.units import read_date

_BY_HAND = "write the pattern on one line in braces, then confirm again"
_PLAIN_NAME = re.compile(r"[A-Za-z][A-Za-z0-9_.-]*(?: [A-Za-z0-9_.-]+)*")
_REST_OF_LINE = re.compile(r"[ \t]*(?: #[^\r\n]*)?(?=\r|\n|\Z)")
_WORDS_OF_YAML = ("yes", "no", "true", "false", "null", "on", "off", "y", "n")


@dataclass(frozen=True, kw_only=True)
class Confirmation:
    """What became of a second reading. ``difference`` shows both readings, one above the other."""

    state: State
    sealed: bool
    seal: str | None
    difference: str | None


def confirm_pattern(
    book_path: Path, state: State, by: str, path_text: str, dead_end_text: str, date: str
) -> Confirmation:
    """Return whether the second reading agrees with what was typed; where it does, the book holds the seal [-].

    Args:
        book_path: of the crane book [-]
        state: block and falls of the pattern
        by: who read the page now [-]
        path_text: the path as read from the page [-]
        dead_end_text: the dead end as read from the page [-]
        date: of the reading, as 2025-03-11 [-]

    Raises:
        FaultyFileError: the book cannot be used as it stands.
        NotOnFileError: no such pattern.
        RefusedError: the typist confirms himself, no typist or no name is given, the layout is too odd to change.
        UnreadableTextError: path, dead end or date cannot be read.
        CannotWriteError: the file could not be written; it is as it was.
    """
    settings = read_settings(book_path.parent)
    book = read_book(book_path, settings).book
    index, pattern = _pattern(book, state)
    name = _name(pattern, by)
    path, dead_end = read_path(path_text), read_dead_end(dead_end_text)
    if (path, dead_end) != (pattern.path, pattern.dead_end):
        typed = f"typed first: {path_words(pattern.path)}, dead end {pattern.dead_end}"
        read = f"read now:    {path_words(path)}, dead end {dead_end}"
        return Confirmation(state=state, sealed=False, seal=None, difference=f"{typed}\n{read}")
    seal = seal_of(book, pattern)
    confirmed = Confirmed(by=name, date=read_date(date), seal=seal)
    _write(book_path, settings, book, index, confirmed)
    return Confirmation(state=state, sealed=True, seal=seal, difference=None)


def refuse_reader(book: Book, state: State, by: str) -> None:
    """Refuse somebody who may not confirm a pattern, before anything is asked.

    Args:
        book: the crane book
        state: whose pattern is read
        by: the person who reads the page now

    Raises:
        NotOnFileError: no such pattern.
        RefusedError: the typist confirms himself, no typist or no name is given.
    """
    _name(_pattern(book, state)[1], by)


def _pattern(book: Book, state: State) -> tuple[int, Pattern]:
    for index, pattern in enumerate(book.patterns):
        if pattern.state == state:
            return index, pattern
    known = first_names(pattern.state for pattern in book.patterns)
    raise NotOnFileError(f"pattern {state} is not on file; patterns on file: {known}. Type it from the manual first")


def _name(pattern: Pattern, by: str) -> str:
    name = " ".join(by.split())
    if not name or not name.isprintable() or len(name) > 100:
        raise RefusedError("no name that can be printed; the name of the person who reads the page now")
    if pattern.typed is None:
        raise RefusedError(f"pattern {pattern.state} does not say who typed it; typed: {{by: name, date: day}} first")
    if is_typist(pattern, name):
        raise RefusedError(f"{name} typed pattern {pattern.state}; another person reads the page and confirms")
    return name


# ---- the one change in the file ----


def _write(path: Path, settings: Settings, book: Book, index: int, confirmed: Confirmed) -> None:
    page = Page(str(path))
    file = read_text(path, page, settings.file_size_most)
    node = read_yaml(file.text, page, settings) if file else None
    page.stop_if_faulty()
    if file is None or node is None or file.fingerprint != book.fingerprint:
        raise RefusedError(f"{path}: changed while it was read; nothing is written, confirm again")
    text = with_confirmation(file.text, _pattern_node(node, index), confirmed)
    data = (BOM if file.has_bom else b"") + text.encode("utf-8")
    _replace(path.resolve(), data, lambda beside: _is_as_meant(beside, settings, book, index, confirmed))


def _pattern_node(node: Node, index: int) -> Pairs:
    patterns = node.get("patterns") if isinstance(node, Pairs) else None
    items = patterns.items if isinstance(patterns, Sequence) else []
    pattern = items[index]
    assert isinstance(pattern, Pairs)  # it was read as a pattern
    return pattern


def with_confirmation(text: str, pattern: Pairs, confirmed: Confirmed) -> str:
    """Return the file's text with the confirmation in this pattern, all other characters as they were [-].

    Args:
        text: of the file [-]
        pattern: the mapping of the pattern in it
        confirmed: what is written
    """
    old = pattern.get("confirmed")
    values = {"by": _yaml_name(confirmed.by), "date": confirmed.date, "seal": confirmed.seal or ""}
    if isinstance(old, Pairs):
        return _with_values(text, old, values)
    written = "{" + ", ".join(f"{key}: {value}" for key, value in values.items()) + "}"
    if pattern.flow:
        end = pattern.pairs[-1][1].end
        return f"{text[:end]}, confirmed: {written}{text[end:]}"
    return _with_line(text, pattern, f"confirmed: {written}")


def _with_line(text: str, pattern: Pairs, line: str) -> str:
    """Return the text with one more line in a block mapping: after its last, or before its first where that is open."""
    newline = "\r\n" if "\r\n" in text else "\n"
    first = pattern.pairs[0][0]
    indent = " " * (first.column - 1)
    rest = _REST_OF_LINE.match(text, _last_end(pattern))
    if rest is None:
        return f"{text[: first.start]}{line}{newline}{indent}{text[first.start :]}"
    return f"{text[: rest.end()]}{newline}{indent}{line}{text[rest.end() :]}"


def _last_end(node: Node) -> int:
    """Return where the text of a node ends; a block's own end mark stands at whatever comes after it."""
    while True:
        inner = node.pairs[-1][1] if isinstance(node, Pairs) and not node.flow and node.pairs else None
        if inner is None:
            return node.end
        node = inner


def _with_values(text: str, old: Pairs, values: dict[str, str]) -> str:
    """Return the text with the values of an older confirmation replaced, and those that it lacks put before them."""
    changes: list[tuple[int, int, str]] = []
    for key, value in values.items():
        node = old.get(key)
        if isinstance(node, Word):
            changes.append((node.start, node.end, value))
    lacking = [f"{key}: {value}" for key, value in values.items() if old.get(key) is None]
    if lacking:
        first = old.pairs[0][0]
        newline = "\r\n" if "\r\n" in text else "\n"
        between = ", " if old.flow else newline + " " * (first.column - 1)
        changes.append((first.start, first.start, "".join(one + between for one in lacking)))
    for start, end, value in sorted(changes, reverse=True):
        text = text[:start] + value + text[end:]
    return text


def _yaml_name(name: str) -> str:
    is_plain = _PLAIN_NAME.fullmatch(name) and name.lower() not in _WORDS_OF_YAML
    return name if is_plain else json.dumps(name, ensure_ascii=False)


def _is_as_meant(beside: Path, settings: Settings, book: Book, index: int, confirmed: Confirmed) -> bool:
    """Return whether the new file reads as the old book with this one confirmation and nothing else."""
    after = read_book(beside, settings).book
    wanted = list(book.patterns)
    wanted[index] = replace(wanted[index], confirmed=confirmed)
    meant = replace(book, patterns=tuple(wanted), fingerprint=after.fingerprint)
    return after == meant and is_confirmed(after, after.patterns[index])


def _replace(path: Path, data: bytes, is_as_meant: Callable[[Path], bool]) -> None:
    """Write the bytes beside the file, look at them, then put them in its place in one move."""
    beside: Path | None = None
    try:
        with NamedTemporaryFile(dir=path.parent, prefix=".", suffix=".becket", delete=False) as file:
            beside = Path(file.name)
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        if not is_as_meant(beside):
            raise RefusedError(f"{path}: this file's layout cannot be changed safely; {_BY_HAND}")
        shutil.copymode(path, beside)
        os.replace(beside, path)
    except OSError as error:
        raise CannotWriteError(f"{path}: cannot be written ({error.strerror}); nothing is changed") from error
    finally:
        if beside is not None:
            beside.unlink(missing_ok=True)
