"""The pattern card: how the rope runs for one number of falls, on one A4 page.

In:    a crane book, settings, one of its patterns.
Out:   a sheet; the card as PDF.
Never: a figure that the book or the checks do not have; a card that looks confirmed and is not.
"""

from __future__ import annotations

from becket.book.crane import Book
from becket.book.tackle import Keeper, Pattern
from becket.cards.foot import foot_of, manual_of
from becket.cards.pictures import LEAST_SCALE, pattern_views
from becket.cards.qr import card_identity
from becket.cards.reeving_words import keepers_that_hold, way_of_fall
from becket.cards.sheet import Sheet
from becket.cards.state_figures import state_figures
from becket.cards.typesetting import typeset
from becket.figures import said, shown
from becket.limits.wording import falls_in_words
from becket.reeving.counts import dead_end_side
from becket.reeving.pattern import PatternCheck, check_pattern
from becket.reeving.seal import is_confirmed, seal_of
from becket.settings.values import Settings
from becket.verdict import Verdict

ONE_COLUMN = 6  # passes that stand one a row beside the keepers


def pattern_card(book: Book, settings: Settings, pattern: Pattern, *, printed: str, system: str = "metric") -> bytes:
    """Return the pattern card as PDF [-].

    Args:
        book: the crane
        settings: in force
        pattern: of the book
        printed: date, as 2026-11-30
        system: "metric" or "us"
    """
    sheet = pattern_sheet(book, settings, pattern, printed=printed, system=system)
    return typeset((sheet,), title=sheet.title, printed=printed)


def pattern_sheet(book: Book, settings: Settings, pattern: Pattern, *, printed: str, system: str = "metric") -> Sheet:
    """Return the pattern card before it is set in type [-].

    Args:
        book: the crane
        settings: in force
        pattern: of the book
        printed: date, as 2026-11-30
        system: "metric" or "us"
    """
    check = check_pattern(book, settings, pattern, None, None)
    confirmed = is_confirmed(book, pattern)
    views = pattern_views(book, pattern, confirmed=confirmed)
    identity = card_identity("pattern", str(pattern.falls), seal_of(book, pattern), book.fingerprint)
    cautions = ("Two views, one rope: find where you stand. The manual's page first.",)
    data = {
        "manual": manual_of(book, pattern.page),
        "unconfirmed": not confirmed,
        "falls": pattern.falls,
        "falls_word": "fall" if pattern.falls == 1 else "falls",
        "block": f"block {pattern.block}",
        "indicator": _indicator(book, pattern, confirmed),
        "people": _people(pattern, confirmed),
        "views": views.pictures,
        "view_columns": views.columns,
        "view_scale": views.scale,
        "least_scale": LEAST_SCALE,
        "passes": _passes(book, pattern),
        "path_columns": 1 if pattern.falls <= ONE_COLUMN else 2,
        "path_size": 6.0 if pattern.falls <= 4 else 5.2 if pattern.falls <= ONE_COLUMN else 4.6,
        "path_gap": 1.6 if pattern.falls <= 4 else 1.1 if pattern.falls <= ONE_COLUMN else 0.9,
        "dead_end": f"dead end: {pattern.dead_end}",
        **_keepers(book, pattern),
        "figures": state_figures(book, settings, pattern.falls, system),
        **_findings(check, system),
        "foot": foot_of(book, identity, printed=printed, cautions=cautions),
    }
    title = f"{book.crane}: pattern card, block {pattern.block}, {falls_in_words(pattern.falls)}"
    return Sheet(template="pattern", title=title, data=data)


def _indicator(book: Book, pattern: Pattern, confirmed: bool) -> str:
    if not confirmed:
        return "Rig nothing and set nothing from this card."
    page = f" (manual {book.indicator.page})" if book.indicator and book.indicator.page else ""
    return f"set the indicator to {pattern.falls}{page}"


def _people(pattern: Pattern, confirmed: bool) -> list[str]:
    lines = [f"typed {pattern.typed.by}, {pattern.typed.date}" if pattern.typed else "typist not on file"]
    if pattern.confirmed is None:
        return [*lines, "not confirmed by a second person"]
    words = "confirmed with the page" if confirmed else "NOT AS CONFIRMED: changed since"
    return [*lines, f"{words} {pattern.confirmed.by}, {pattern.confirmed.date}"]


def _passes(book: Book, pattern: Pattern) -> list[dict[str, str]]:
    return [
        {"pass": str(one), "fall": f"fall {fall}", "side": way_of_fall(book, fall)}
        for fall, one in enumerate(pattern.path, 1)
    ]


def _keepers(book: Book, pattern: Pattern) -> dict[str, object]:
    keepers = keepers_that_hold(book, pattern)
    rows = [{"name": one.name, "lock": one.lock or "?", "rope": one.draw} for one in keepers]
    lines = ["Each keeper has its own lock. Count all out, count all in."] if keepers else [_no_keepers(book)]
    return {"keepers": rows, "keeper_lines": [*lines, _switch_weight(book, pattern, keepers)]}


def _no_keepers(book: Book) -> str:
    where = "on these sheaves" if book.keepers else "on file"
    return f"Unknown: no keeper {where}. Look what holds the rope at head, block and dead end."


def _switch_weight(book: Book, pattern: Pattern, keepers: tuple[Keeper, ...]) -> str:
    line = book.switch.weight_on_even if dead_end_side(pattern.falls) == "head" else book.switch.weight_on_odd
    return f"Switch weight: round the {line}." if line else "Unknown: which fall carries the switch weight."


def _findings(check: PatternCheck, system: str) -> dict[str, object]:
    open_ones = [one for one in check.findings if one.verdict is not Verdict.PASS]
    passed = len(check.findings) - len(open_ones)
    hangs = (
        f"Tilt up to {shown(check.tilt, 'angle', system, 'up')}. "
        f"Hangs turned by {shown(check.hangs_turned, 'angle', system, 'up')}. "
        f"Fleet angle allows head to block from {shown(check.closest_distance, 'length', system, 'up')} on. "
        f"Twist length {shown(check.twist_length, 'length', system, 'down')}. Shown, not judged: a lift does."
    )
    return {
        "findings": [
            {"verdict": str(one.verdict), "name": one.name.replace("_", " "), "why": said(one.why, system)}
            for one in open_ones
        ],
        "passed": f"{passed} of {len(check.findings)} checks pass.",
        "hangs": hangs,
    }
