"""The words of the trade, one for one thing, and what else is heard for it.

In:    the table ``words.csv`` that ships with the package; docs/glossary.md is made from it.
Out:   records; text in the word that becket uses.
Never: a word of its own.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

_NOT_A_WORD = re.compile(r"\bnever\b|\balone\b|[\"`]")


@dataclass(frozen=True, kw_only=True)
class TradeWord:
    """One word, what it means, and what else is heard for the same thing, as the table has it."""

    word: str
    means: str
    also_heard: str

    @property
    def names(self) -> tuple[str, ...]:
        """Every word that finds this one, its own first [-]."""
        heard = _NOT_A_WORD.sub("", f"{self.word},{self.also_heard}".replace(";", ","))
        return tuple(dict.fromkeys(name.strip().lower() for name in heard.split(",") if name.strip()))


@cache
def trade_words() -> tuple[TradeWord, ...]:
    """Return every word of the table, in its order [-]."""
    text = files("becket.pack").joinpath("words.csv").read_text(encoding="utf-8")
    return tuple(TradeWord(**row) for row in csv.DictReader(text.splitlines()))
