"""The page of one pattern: both views, the path in words, every check.

In:    a crane book, settings, one of its patterns.
Out:   HTML, every text escaped; the photo of the manual's page where it is given.
Never: a pattern without its state of confirmation.
"""

from __future__ import annotations

import re
from html import escape

from becket.book.crane import Book
from becket.book.tackle import Pattern
from becket.cards.reeving_words import keepers_that_hold, way_of_fall
from becket.cards.state_figures import state_figures
from becket.drawing.front import draw_pattern
from becket.drawing.hatch import NOT_CONFIRMED
from becket.drawing.svg import as_svg
from becket.figures import said, shown
from becket.limits.wording import falls_in_words
from becket.reeving.pattern import PatternCheck, check_pattern
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.verdict import Verdict

_BETWEEN = re.compile(r">\s+<")
_OF_THE_PAGE = re.compile(r' (?:font-family="[^"]*"|(?:fill|stroke)="#[0-9a-f]{6}")')


def pattern_section(
    book: Book, settings: Settings, pattern: Pattern, number: int, system: str, photo: str | None = None
) -> str:
    """Return the page of one pattern as HTML [-].

    Args:
        book: the crane
        settings: in force
        pattern: of the book
        number: of its state in the file
        system: "metric" or "us"
        photo: of the manual's page, as a data URI
    """
    check = check_pattern(book, settings, pattern, None, None)
    is_sealed = is_confirmed(book, pattern)
    parts = [
        f'<section id="pattern-{number}">',
        f'<h1 tabindex="-1">{_text(pattern.block)}, {falls_in_words(pattern.falls)}</h1>',
        f"<p>Manual page {_text(pattern.page or 'not on file')}. {_text(_signed(pattern, check))}</p>",
        "" if is_sealed else f'<p class="hatch">{NOT_CONFIRMED}</p>',
        f"<p>{verdict_plate(check.verdict)} <b>{_text(str(pattern.state))}</b></p>",
        _photo(pattern, photo),
        _pictures(book, pattern, is_sealed),
        f"<h2>Rope from the drum outward</h2>{_path(book, pattern)}",
        f"<h2>Keepers over the rope</h2>{_keepers(book, pattern)}",
        f"<h2>The maker's figures</h2>{_makers(book, settings, pattern, system)}",
        f"<h2>How it hangs</h2>{_figures(check, system)}",
        f"<h2>Checks</h2>{_findings(check, system)}",
        "</section>",
    ]
    return "\n".join(part for part in parts if part)


def verdict_plate(verdict: Verdict) -> str:
    """Return a verdict as a plate with its word [-].

    Args:
        verdict: of a check

    >>> verdict_plate(Verdict.FAIL)
    '<span class="verdict fail">FAIL</span>'
    """
    word = "FAIL" if verdict is Verdict.FAIL else str(verdict)
    return f'<span class="verdict {verdict}">{word}</span>'


def _text(text: str) -> str:
    return escape(text, quote=True)


def _signed(pattern: Pattern, check: PatternCheck) -> str:
    typed = f"Typed by {pattern.typed.by}, {pattern.typed.date}." if pattern.typed else "Who typed it is not on file."
    if check.confirmed is None:
        return f"{typed} Confirmed by nobody."
    signed = f"{check.confirmed.by}, {check.confirmed.date}"
    if not check.confirmed.seal_matches:
        return f"{typed} What {signed} confirmed is not what stands here."
    return f"{typed} Confirmed by {signed}."


def _photo(pattern: Pattern, photo: str | None) -> str:
    if photo is not None:
        says = f"Photo of the manual, page {pattern.page or 'not on file'}"
        return f'<img class="photo" src="{_text(photo)}" alt="{_text(says)}"/>'
    return f"<p>Photo of the page: {_text(pattern.picture)}, not in this file.</p>" if pattern.picture else ""


def _pictures(book: Book, pattern: Pattern, is_sealed: bool) -> str:
    views = (draw_pattern(book, pattern, view=view, is_confirmed=is_sealed) for view in ("cab", "rigger"))
    pictures = "".join(f'<div class="picture">{_compact(as_svg(view))}</div>' for view in views)
    return f'<div class="pictures">{pictures}</div>'


def _compact(svg: str) -> str:
    """The SVG without blanks between its elements, its font and its colours: it has those of the page."""
    return _OF_THE_PAGE.sub("", _BETWEEN.sub("><", svg.strip()))


def _path(book: Book, pattern: Pattern) -> str:
    numbered = f"<p>Sheaves numbered {_text(book.head.numbered)}.</p>" if book.head.numbered else ""
    passes = [
        f"<li><b>{_text(str(one))}</b>, then fall {number} {_text(way_of_fall(book, number))}</li>"
        for number, one in enumerate(pattern.path, 1)
    ]
    return f'{numbered}<ol class="path">{"".join(passes)}<li>dead end: <b>{_text(pattern.dead_end)}</b></li></ol>'


def _keepers(book: Book, pattern: Pattern) -> str:
    items = [
        f"<li><b>{_text(one.name)}</b>, at {_text(one.at)}, drawn {_text(one.draw)}, lock {_text(one.lock or '?')}</li>"
        for one in keepers_that_hold(book, pattern)
    ]
    return f'<ul class="path">{"".join(items)}</ul>' if items else "<p>None on file.</p>"


def _makers(book: Book, settings: Settings, pattern: Pattern, system: str) -> str:
    items = [
        f"<li>{_text(one['name'])}: <b>{_text(one['value'])}</b>, {_text(one['note'])}</li>"
        for one in state_figures(book, settings, pattern.falls, system)
    ]
    return f'<ul class="path">{"".join(items)}</ul>'


def _figures(check: PatternCheck, system: str) -> str:
    rows = (
        ("tilt, the greatest", shown(check.tilt, "angle", system, "up")),
        ("block hangs turned by", shown(check.hangs_turned, "angle", system, "up")),
        ("fleet angle allows head to block", shown(check.closest_distance, "length", system, "up")),
        ("twist length", shown(check.twist_length, "length", system, "down")),
    )
    pairs = "".join(f'<div class="pair"><dt>{name}</dt><dd>{_text(value)}</dd></div>' for name, value in rows)
    return f'<dl class="pairs">{pairs}</dl>'


def _findings(check: PatternCheck, system: str) -> str:
    items = [
        f"<li>{verdict_plate(one.verdict)}<b>{_text(one.name.replace('_', ' '))}</b>"
        f"<p>{_text(said(one.why, system))}</p></li>"
        for one in check.findings
    ]
    return f'<ul class="checks">{"".join(items)}</ul>'
