"""The words that a run says of what was entered: the same on the phone and on the server.

In:    the texts of run_words.json; values as they were entered.
Out:   text.
Never: a judgement; a text put together from parts of sentences elsewhere.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from importlib.resources import files
from typing import Final

TEXTS: Final[Mapping[str, str]] = json.loads(
    files("becket.guide").joinpath("run_words.json").read_text(encoding="utf-8")
)
_PLACE: Final = re.compile(r"\{([a-z_]+)\}")


def run_word(code: str, facts: Mapping[str, object]) -> str:
    """Return the text of a code with its facts filled in [-].

    Args:
        code: as in run_words.json
        facts: one for each place of the text
    """
    return filled(TEXTS[code], facts)


def filled(text: str, facts: Mapping[str, object]) -> str:
    """Return a text with its places filled in; a place without a fact stays as it is [-].

    Args:
        text: with places, "{value}"
        facts: by the name of the place
    """
    return _PLACE.sub(lambda found: said(facts[found[1]]) if found[1] in facts else found[0], text)


def said(value: object) -> str:
    """Return a value as it is said to a person; "?" for what is no text, number or list [-].

    Args:
        value: as it was entered
    """
    if isinstance(value, str):
        return value
    if isinstance(value, list | tuple):
        return ", ".join(said(one) for one in value) if value else "none"
    if isinstance(value, int | float) and not isinstance(value, bool):
        return _number(value)
    return "?"


def _number(value: float) -> str:
    size = abs(value)
    if not (size == 0 or 1e-4 <= size < 1e15):
        return "?"
    return ("−" if value < 0 else "") + (str(int(size)) if size == int(size) else repr(size))
