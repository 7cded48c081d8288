"""The window card: what is rigged now, to be read from outside the cab.

In:    a crane book, a block, what two persons signed; nothing signed: lines to write on.
Out:   a sheet; the card as PDF.
Never: a figure that nobody signed; a name in print where a person is to write it.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cards.foot import foot_of, manual_of
from becket.cards.qr import card_identity
from becket.cards.sheet import Sheet
from becket.cards.typesetting import typeset
from becket.figures import shown
from becket.limits.breaking import least_wraps_of
from becket.limits.table import find_block
from becket.reeving.pattern import find_pattern
from becket.reeving.seal import seal_of
from becket.settings.values import Settings

WORDS = (
    *("ONE", "TWO", "THREE", "FOUR", "FIVE", "SIX", "SEVEN", "EIGHT", "NINE", "TEN", "ELEVEN", "TWELVE"),
    *("THIRTEEN", "FOURTEEN", "FIFTEEN", "SIXTEEN", "SEVENTEEN", "EIGHTEEN", "NINETEEN", "TWENTY"),
)
AGREE = "Count, setting and block must agree with this card. If not: do not lift."
TAKE_DOWN = "Take this card down when the first keeper comes out."


@dataclass(frozen=True, kw_only=True)
class Signed:
    """What two persons signed after a change. None: a line to write on."""

    falls: int | None = None
    setting: int | None = None  # of the indicator, as both read it
    wraps_left: float | None = None  # at the lowest hook [-]
    limit_tried: float | None = None  # head to block where the hoist limit switch stopped it [m]
    rope_length: float | None = None  # now [m]
    rigged_at: str | None = None  # date, time and place


NOTHING_SIGNED = Signed()


def window_card(
    book: Book,
    settings: Settings,
    block: str,
    *,
    printed: str,
    system: str = "metric",
    signed: Signed = NOTHING_SIGNED,
) -> bytes:
    """Return the window card as PDF [-].

    Args:
        book: the crane
        settings: in force
        block: name of the block that hangs
        printed: date, as 2026-11-30
        system: "metric" or "us"
        signed: by two persons

    Raises:
        NotOnFileError: the book has no such block.
    """
    sheet = window_sheet(book, settings, block, printed=printed, system=system, signed=signed)
    return typeset((sheet,), title=sheet.title, printed=printed)


def window_sheet(
    book: Book,
    settings: Settings,
    block: str,
    *,
    printed: str,
    system: str = "metric",
    signed: Signed = NOTHING_SIGNED,
) -> Sheet:
    """Return the window card before it is set in type [-].

    Args:
        book: the crane
        settings: in force
        block: name of the block that hangs
        printed: date, as 2026-11-30
        system: "metric" or "us"
        signed: by two persons

    Raises:
        NotOnFileError: the book has no such block.
    """
    hangs = find_block(book, block)
    pattern = None if signed.falls is None else find_pattern(book, State(block=block, falls=signed.falls))
    seals = (str(signed.falls), seal_of(book, pattern)) if pattern else ()
    identity = card_identity("window", *seals, book.fingerprint)
    mass = shown(hangs.mass, "mass", system, "up") if hangs.mass is not None else "mass not on file"
    least = least_wraps_of(book, settings).value
    data = {
        "manual": manual_of(book, pattern.page if pattern else None) | ({} if pattern else {"page": "page ........"}),
        "falls": _text(signed.falls),
        "block": f"{block}, {mass}",
        "setting": _text(signed.setting),
        "setting_word": in_words(signed.setting) if signed.setting is not None else "",
        "wraps_left": None if signed.wraps_left is None else str(int(signed.wraps_left)),
        "least_wraps": f"least {least:g}" if isinstance(least, float) else "least not on file",
        "limit_tried": None if signed.limit_tried is None else shown(signed.limit_tried, "length", system, "down"),
        "rope_length": None if signed.rope_length is None else shown(signed.rope_length, "length", system, "down"),
        "rigged_at": signed.rigged_at,
        "taken_down": TAKE_DOWN,
        "foot": foot_of(book, identity, printed=printed, cautions=(AGREE,)),
    }
    return Sheet(template="window", title=f"{book.crane}: window card, block {block}", data=data)


def in_words(number: int) -> str:
    """Return a number as a word, so that it is read twice; beyond twenty its digits one by one [-].

    >>> in_words(4), in_words(21)
    ('FOUR', 'TWO ONE')
    """
    if 1 <= number <= len(WORDS):
        return WORDS[number - 1]
    return " ".join("ZERO" if digit == "0" else WORDS[int(digit) - 1] for digit in str(number))


def _text(number: int | None) -> str | None:
    return None if number is None else str(number)
