"""A reeving pattern of the book as its page shows it.

In:    a crane book, settings, a state.
Out:   pictures as SVG without colours of their own, the path in words, findings, who typed and confirmed it.
Never: a picture of a pattern that is not on file; a picture without its state of confirmation.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import Pattern, State
from becket.cards.reeving_words import keepers_that_hold, way_of_fall
from becket.cards.state_figures import state_figures
from becket.drawing.front import draw_pattern
from becket.drawing.picture import Picture
from becket.drawing.svg import as_svg
from becket.drawing.words import seen_from
from becket.limits.table import find_block, most_falls
from becket.reeving.pattern import PatternCheck, check_state, find_pattern
from becket.reeving.seal import is_confirmed
from becket.settings.values import Settings
from becket.web.present.trade import figure, limit_words, sentence, typeset

VIEWS = ("cab", "rigger")
_BETWEEN = re.compile(r">\s+<")
_OF_THE_PAGE = re.compile(r' (?:font-family="[^"]*"|(?:fill|stroke)="#[0-9a-f]{6}")')
_SIZED = re.compile(r'(<svg [^>]*?) width="[0-9.]+" height="[0-9.]+"')


@dataclass(frozen=True, kw_only=True)
class StateRow:
    """One state in the list. ``kind``: "confirmed", "not confirmed", "not on file"."""

    state: State
    kind: str
    page: str | None


@dataclass(frozen=True, kw_only=True)
class PatternShown:
    """One pattern that is on file."""

    state: State
    verdict: str
    page: str | None
    typed_by: str | None
    typed_on: str | None
    confirmed_by: str | None  # only where the seal is still that of the pattern
    confirmed_on: str | None
    other_was_confirmed: bool  # somebody confirmed something else than what stands here
    is_confirmed: bool
    pictures: tuple[tuple[str, str], ...]  # from where, SVG; the view first shown first
    path: tuple[tuple[str, str], ...]  # pass, way of the fall that leaves it
    path_line: str
    dead_end: str
    numbered: str | None
    keepers: tuple[tuple[str, str], ...]  # name, place, state of the rope, lock
    makers: tuple[tuple[str, str, str], ...]  # name, value, note
    hangs: tuple[tuple[str, str], ...]  # key, figure
    findings: tuple[tuple[str, str, str], ...]  # name, verdict, why
    photo: str | None  # name in the book


def states_listed(book: Book) -> tuple[StateRow, ...]:
    """Return every state that head and blocks can carry, block by block: on file and confirmed, or not [-].

    Args:
        book: the crane
    """
    rows = []
    for block in book.blocks:
        for falls in range(1, most_falls(book, find_block(book, block)) + 1):
            rows.append(_state_row(book, State(block=block, falls=falls)))
    more = [one.state for one in book.patterns if one.state not in {row.state for row in rows}]
    return (*rows, *(_state_row(book, state) for state in more))


def pattern_shown(book: Book, settings: Settings, pattern: Pattern, system: str, view: str) -> PatternShown:
    """Return a pattern of the book for its page [-].

    Args:
        book: the crane
        settings: in force
        pattern: of the book
        system: "metric" or "us"
        view: "cab" or "rigger": which is shown first
    """
    check = check_state(book, settings, pattern.state)
    sealed = is_confirmed(book, pattern)
    views = sorted(VIEWS, key=lambda one: one != view)
    return PatternShown(
        state=pattern.state,
        verdict=str(check.verdict),
        page=pattern.page,
        typed_by=pattern.typed.by if pattern.typed else None,
        typed_on=pattern.typed.date if pattern.typed else None,
        confirmed_by=check.confirmed.by if check.confirmed and sealed else None,
        confirmed_on=check.confirmed.date if check.confirmed and sealed else None,
        other_was_confirmed=check.confirmed is not None and not check.confirmed.seal_matches,
        is_confirmed=sealed,
        pictures=tuple(
            (seen_from(one), page_svg(draw_pattern(book, pattern, view=one, is_confirmed=sealed))) for one in views
        ),
        path=tuple((str(one), way_of_fall(book, number)) for number, one in enumerate(pattern.path, 1)),
        path_line=" → ".join([*map(str, pattern.path), f"dead end {pattern.dead_end}"]),
        dead_end=pattern.dead_end,
        numbered=book.head.numbered,
        keepers=_keepers(book, pattern),
        makers=tuple(
            (one["name"], typeset(one["value"]), one["note"])
            for one in state_figures(book, settings, pattern.falls, system)
        ),
        hangs=_hangs(check, system),
        findings=tuple((limit_words(one.name), str(one.verdict), sentence(one.why, system)) for one in check.findings),
        photo=pattern.picture,
    )


def page_svg(picture: Picture) -> str:
    """Return a picture as SVG that takes font and colours from the page it stands in [-].

    Args:
        picture: drawn
    """
    return _SIZED.sub(r"\1", _OF_THE_PAGE.sub("", _BETWEEN.sub("><", as_svg(picture).strip())), count=1)


def _state_row(book: Book, state: State) -> StateRow:
    pattern = find_pattern(book, state)
    if pattern is None:
        return StateRow(state=state, kind="not on file", page=None)
    kind = "confirmed" if is_confirmed(book, pattern) else "not confirmed"
    return StateRow(state=state, kind=kind, page=pattern.page)


def _keepers(book: Book, pattern: Pattern) -> tuple[tuple[str, str], ...]:
    return tuple(
        (one.name, f"{one.at}, drawn {one.draw}, lock {one.lock or '?'}") for one in keepers_that_hold(book, pattern)
    )


def _hangs(check: PatternCheck, system: str) -> tuple[tuple[str, str], ...]:
    return (
        ("tilt", figure(check.tilt, "angle", system, "up")),
        ("turned", figure(check.hangs_turned, "angle", system, "up")),
        ("closest", figure(check.closest_distance, "length", system, "up")),
        ("twist", figure(check.twist_length, "length", system, "down")),
    )
