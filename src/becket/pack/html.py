"""The whole file of one crane: pages, answers, look and program in one text, nothing fetched.

In:    a crane book, settings, a date, units.
Out:   HTML with a strict content policy: only the style and the program in it may run.
Never: a network address, a formula in the program, an answer that the core did not give.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Callable, Mapping
from hashlib import sha256
from html import escape
from importlib.resources import files
from string import Template
from types import MappingProxyType

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.cards.foot import release
from becket.limits.wording import falls_in_words
from becket.method.step_words import CAUTIONS
from becket.pack.change_data import change_data, states_of
from becket.pack.finder_data import PAGE_UNITS, finder_data
from becket.pack.pattern_section import pattern_section, verdict_plate
from becket.pack.search_pages import search_pages
from becket.pack.trade_words import trade_words
from becket.reeving.pattern import check_state, find_pattern
from becket.settings.values import Settings

Tell = Callable[[str, int, int], None]  # what, how many are done, of how many
NO_PHOTOS: Mapping[str, str] = MappingProxyType({})


def pack_html(
    book: Book,
    settings: Settings,
    *,
    printed: str,
    system: str = "metric",
    tell: Tell | None = None,
    photos: Mapping[str, str] = NO_PHOTOS,
) -> str:
    """Return the file of a crane as HTML [-].

    Args:
        book: the crane
        settings: in force
        printed: date
        system: "metric" or "us"
        tell: is told what is being worked out, how many are done, of how many
        photos: of the manual's pages as data URI, by their names in the book

    Source: docs/pack.md.
    """
    told = tell or _silent
    patterns = [find_pattern(book, state) for state in states_of(book)]
    on_file = [pattern for pattern in patterns if pattern is not None]
    data = {
        "states": [str(pattern.state) for pattern in on_file],
        "change": change_data(book, settings, system, lambda done, of: told("changes", done, of)),
        "finder": finder_data(book, settings, system, lambda done, of: told("falls", done, of)),
        "words": [{"word": one.word, "means": one.means, "names": one.names} for one in trade_words()],
        "pages": search_pages(book),
    }
    sections = [
        pattern_section(book, settings, one, number, system, photos.get(one.picture or ""))
        for number, one in enumerate(on_file)
    ]
    parts = _parts(book, settings, on_file, printed, system)
    return _filled(parts | {"patterns": "\n".join(sections), "data": _json(data)})


def _silent(what: str, done: int, of: int) -> None:
    """No one listens."""


def _parts(book: Book, settings: Settings, patterns: list[Pattern], printed: str, system: str) -> dict[str, str]:
    return {
        "crane": escape(book.crane),
        "serial": escape(f"serial {book.serial}" if book.serial else "serial not on file"),
        "manual": escape(f"{book.manual_title}, issue {book.manual_issue or 'not on file'}."),
        "fingerprint": escape(book.fingerprint),
        "printed": escape(printed),
        "release": escape(release()),
        "mass_unit": PAGE_UNITS[system]["mass"],
        "length_unit": PAGE_UNITS[system]["length"],
        "cautions": "".join(f"<li>{escape(line)}</li>" for line in CAUTIONS[1:]),
        "pattern_rows": "".join(_row(book, settings, "pattern", one) for one in patterns) or NONE_ON_FILE,
        "from_rows": "".join(_row(book, settings, "from", one) for one in patterns) or NONE_ON_FILE,
    }


# before the first view is laid out: without it every view would be, with no program every view is to be seen
FIRST = 'document.documentElement.className = "one";'
NONE_ON_FILE = "<li>No pattern on file. becket does not make one up: type it from the manual.</li>"


def _row(book: Book, settings: Settings, kind: str, pattern: Pattern) -> str:
    state = escape(str(pattern.state), quote=True)
    plate = verdict_plate(check_state(book, settings, pattern.state).verdict) if kind == "pattern" else ""
    words = f"<b>{falls_in_words(pattern.falls)}</b> {escape(pattern.block)} {plate}"
    return f'<li><a class="row" data-kind="{kind}" data-state="{state}" href="#">{words}</a></li>'


def _json(data: object) -> str:
    """JSON that cannot end the element it stands in."""
    return json.dumps(data, separators=(",", ":"), ensure_ascii=False, allow_nan=False).replace("<", "\\u003c")


def _filled(parts: Mapping[str, str]) -> str:
    style, script = (_shipped(name) for name in ("page.css", "page.js"))
    look = {"style": style, "first": FIRST, "script": script}
    look |= {f"{name}_hash": _hash(part) for name, part in look.items()}
    return Template(_shipped("page.html")).substitute(look, **parts)


def _shipped(name: str) -> str:
    return files("becket.pack").joinpath(name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return "sha256-" + b64encode(sha256(text.encode("utf-8")).digest()).decode("ascii")
