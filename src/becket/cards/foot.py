"""What stands on every card: whose manual, which state of the book, when printed, what governs.

In:    a crane book, the page, the date.
Out:   plain text for the templates.
Never: a card's own figures.
"""

from __future__ import annotations

from functools import lru_cache
from importlib.metadata import PackageNotFoundError, version

from becket.book.crane import Book
from becket.cards.qr import qr_size, qr_svg
from becket.drawing.hatch import NOT_CONFIRMED
from becket.method.step_words import CAUTIONS

GOVERNS = CAUTIONS[0].replace("Not a load indicator.", "This card is not a load indicator.")
VOID = "Another state of the book on the phone or the desk: this card is void."


def foot_of(book: Book, identity: str, *, printed: str, cautions: tuple[str, ...]) -> dict[str, object]:
    """Return what the foot of a card says [-].

    Args:
        book: the crane
        identity: what the QR code holds
        printed: date
        cautions: lines of this kind of card
    """
    return {
        "governs": GOVERNS,
        "cautions": list(cautions),
        "state": f"Printed {printed}, book {book.fingerprint}, becket {release()}. {VOID}",
        "qr": qr_svg(identity),
        "qr_size": qr_size(identity),
        "qr_says": f"QR code: {identity}",
    }


def manual_of(book: Book, page: str | None) -> dict[str, object]:
    """Return whose crane and manual a card is from [-].

    Args:
        book: the crane
        page: of the manual; None: not on file
    """
    issue = f", issue {book.manual_issue}" if book.manual_issue else ", issue not on file"
    return {
        "crane": book.crane,
        "serial": book.serial or "serial not on file",
        "manual": f"{book.manual_title}{issue}",
        "page": f"page {page}" if page else "page not on file",
        "not_confirmed": NOT_CONFIRMED,
    }


@lru_cache(maxsize=1)
def release() -> str:
    """Return which becket this is [-]."""
    try:
        return version("becket")
    except PackageNotFoundError:
        return "not installed"
