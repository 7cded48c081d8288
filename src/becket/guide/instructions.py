"""What the phone says at each kind of deed: one catalogue, in words short enough for a screen.

In:    the kind of a deed, the figures of this crane and change as text.
Out:   the instruction, what the button says, what the other person does, view, picture, sign.
Never: an instruction of more than nine words where a shorter one fits; a figure of its own.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from becket.errors import NotOnFileError
from becket.settings.tables import rows_of

MOST_WORDS = 9
SIGNS = ("no-entry", "no-hands", "overhead", "crush", "must-lock")
_COLUMNS = ("deed", "do", "action", "other", "view", "picture", "sign", "moves")
_PLACEHOLDER = re.compile(r"\{(\w+)\}")


@dataclass(frozen=True, kw_only=True)
class Instruction:
    """One deed as the phone says it."""

    do: tuple[str, ...]  # texts, the fullest first
    action: str
    other: str
    view: str | None
    picture: str | None  # "side", "thread", "draw", "after"
    sign: str | None  # one of SIGNS
    moves: bool


def instruction_of(kind: str) -> Instruction:
    """Return the row of the catalogue for a kind of deed [-].

    Args:
        kind: of deed, as "thread"; with its variant, as "down_to_low.stays"

    Raises:
        NotOnFileError: the catalogue has no such row.
    """
    found = catalogue().get(kind)
    if found is None:
        raise NotOnFileError(f"{kind}: no row in instructions.csv; one row a kind of deed is wanted")
    return found


@cache
def catalogue() -> Mapping[str, Instruction]:
    """Return every row of the catalogue by its kind of deed [-]."""
    text = files("becket.guide").joinpath("instructions.csv").read_text(encoding="utf-8")
    return {
        row["deed"]: Instruction(
            do=tuple(row["do"].split("|")),
            action=row["action"],
            other=row["other"],
            view=row["view"] or None,
            picture=row["picture"] or None,
            sign=row["sign"] or None,
            moves=row["moves"] == "yes",
        )
        for row in rows_of("instructions.csv", text, _COLUMNS)
    }


def said_in_nine(texts: tuple[str, ...], figures: Mapping[str, str]) -> str:
    """Return the first text whose figures are known and that has at most nine words; else the last one [-].

    Args:
        texts: the fullest first
        figures: placeholder to text; one that is not known is not among them

    >>> said_in_nine(("Draw {keeper} and its {lock}.", "Draw {keeper}."), {"keeper": "head bar"})
    'Draw head bar.'
    """
    for text in texts:
        if set(_PLACEHOLDER.findall(text)) <= set(figures):
            said = text.format_map(figures)
            if word_count(said) <= MOST_WORDS:
                return said
    return texts[-1].format_map({name: figures.get(name, "?") for name in _PLACEHOLDER.findall(texts[-1])})


def word_count(text: str) -> int:
    """Return how many words a text has, figures and units counted [-].

    Args:
        text: of an instruction

    >>> word_count("Set the hook 4.0 m under the head.")
    8
    """
    return len(text.split())
