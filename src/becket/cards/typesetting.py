"""Cards set in type: PDF with tags for those who listen, or SVG.

In:    sheets, the date that is printed.
Out:   bytes, the same bytes for the same sheets and date.
Never: a font of the machine, a file beside the package's own, the clock.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from functools import lru_cache
from importlib.resources import files
from typing import Final

import typst

from becket.cards.sheet import Sheet
from becket.errors import UnreadableTextError

TEMPLATES = ("common", "pattern", "window", "change", "count", "falls", "record", "contents", "whole")
FONT = "Roboto"
MAY_BREAK = "\u200b"  # a place at which a line may end, no wider than nothing
_KEPT = ("svg", "alt", "qr", "qr_says")
_LONG_WORD = re.compile(r"\S{15,}")
_CLUSTER = re.compile(r"\S[\u0300-\u036f]*")  # a letter with the marks that stand on it
STANDARD: Final = "ua-1"  # PDF/UA-1: text in reading order, tags, words for every picture


def typeset(
    sheets: Sequence[Sheet], *, title: str, printed: str, with_contents: bool = False, left_out: Sequence[str] = ()
) -> bytes:
    """Return sheets as one PDF [-].

    Args:
        sheets: in order
        title: of the document
        printed: date, as 2026-11-30
        with_contents: a page in front that lists them
        left_out: what that page says has no sheet

    Raises:
        UnreadableTextError: a date that is none.
    """
    made = _compiler().compile(
        _source(),
        format="pdf",
        sys_inputs=_inputs(sheets, title, printed, with_contents, left_out),
        pdf_standards=STANDARD,
        timestamp=int(_moment(printed).timestamp()),
    )
    assert isinstance(made, bytes)
    return made


def typeset_svg(sheets: Sequence[Sheet], *, title: str, printed: str) -> tuple[bytes, ...]:
    """Return sheets as SVG, one a page [-].

    Args:
        sheets: in order
        title: of the document
        printed: date, as 2026-11-30

    Raises:
        UnreadableTextError: a date that is none.
    """
    _moment(printed)
    made = _compiler().compile(_source(), format="svg", sys_inputs=_inputs(sheets, title, printed, False))
    return tuple(made) if isinstance(made, list) else (made or b"",)


@lru_cache(maxsize=1)
def _compiler() -> typst.Compiler:
    folder = str(files("font_roboto") / "files")
    fonts = typst.Fonts(include_system_fonts=False, font_paths=[folder])
    return typst.Compiler(font_paths=fonts, ignore_system_fonts=True)


@lru_cache(maxsize=1)
def _source() -> bytes:
    folder = files("becket.cards") / "templates"
    return b"\n".join((folder / f"{name}.typ").read_bytes() for name in TEMPLATES)


def _inputs(
    sheets: Sequence[Sheet], title: str, printed: str, with_contents: bool, left_out: Sequence[str] = ()
) -> dict[str, str]:
    whole = {
        "title": title,
        "shown_title": softened(title),
        "printed": printed,
        "contents": with_contents,
        "left_out": softened(list(left_out)),
        "sheets": [{"template": one.template, "title": one.title, "data": softened(one.data)} for one in sheets],
    }
    return {"cards": json.dumps(whole, ensure_ascii=False)}


def softened(data: object, key: str = "") -> object:
    """Return the data of a sheet; a word that is longer than a column may break between any two letters [-].

    Args:
        data: text, numbers, lists, mappings
        key: under which it stands; pictures and the words for those who listen stay as they are

    >>> softened({"name": "rope", "alt": 20 * "a"}) == {"name": "rope", "alt": 20 * "a"}
    True
    >>> softened([16 * "a"]) == [MAY_BREAK.join(16 * "a")]
    True
    """
    if isinstance(data, Mapping):
        return {name: softened(one, name) for name, one in data.items()}
    if isinstance(data, list):
        return [softened(one, key) for one in data]
    if isinstance(data, str) and key not in _KEPT:
        return _LONG_WORD.sub(lambda found: MAY_BREAK.join(_CLUSTER.findall(found[0])), data)
    return data


def _moment(printed: str) -> datetime:
    try:
        return datetime.strptime(printed, "%Y-%m-%d").replace(tzinfo=UTC)
    except ValueError:
        raise UnreadableTextError(f"date {printed}", "a day as 2026-11-30 is wanted") from None
