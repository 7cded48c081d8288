"""A file as text with places: what stands where, nothing yet understood.

In:    nothing.
Out:   words, lists and mappings, each with its line, column and span in the file.
Never: numbers, yes or no, dates: every word stays the text that was written.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias


@dataclass(slots=True, kw_only=True)
class Span:
    """Where something stands. Line and column count from 1; start and end are places in the file's text."""

    line: int
    column: int
    start: int = 0
    end: int = 0


@dataclass(slots=True, kw_only=True)
class Word(Span):
    """Text as it was written; ``quoted`` tells an empty text from nothing at all."""

    text: str
    quoted: bool = False


@dataclass(slots=True, kw_only=True)
class Sequence(Span):
    """A list."""

    items: list[Node]


@dataclass(slots=True, kw_only=True)
class Pairs(Span):
    """Keys with their values, in the file's order; ``flow`` is the style with braces."""

    pairs: list[tuple[Word, Node]]
    flow: bool = False

    def get(self, key: str) -> Node | None:
        """Return the value of a key, None where the key is not there [-]."""
        return next((value for word, value in self.pairs if word.text == key), None)


Node: TypeAlias = Word | Sequence | Pairs
