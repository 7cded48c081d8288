"""The QR code of a card: which card it is, of which pattern, from which state of the book.

In:    a card's kind, seals and fingerprints.
Out:   the text that the code holds; the code as SVG.
Never: an address, a name of a person.
"""

from __future__ import annotations

from functools import lru_cache

import segno

QUIET = 4  # modules left white around the code
MODULE = 0.8  # mm; 0.75 is the least that a phone reads off a worn card
_LEAST_SIZE = 29.0  # mm, quiet zone counted


def card_identity(kind: str, *parts: str) -> str:
    """Return the text that the code of a card holds, in letters that a QR code packs tightly [-].

    Args:
        kind: of the card
        parts: what tells this card from others: falls, seal of the pattern, fingerprint of the book

    >>> card_identity("pattern", "4", "8bbdbe84c13ed738", "00ff")
    'BECKET/1/PATTERN/4/8BBDBE84C13ED738/00FF'
    """
    return "/".join(["BECKET", "1", kind.upper(), *(part.upper() for part in parts)])


@lru_cache(maxsize=256)
def qr_svg(text: str) -> str:
    """Return a code at error level M as SVG, a module one pixel [-].

    Args:
        text: what it holds
    """
    code = segno.make(text, error="m", micro=False, boost_error=False)
    return str(code.svg_inline(border=QUIET, dark="#000", light="#fff", omitsize=False))


def qr_size(text: str) -> float:
    """Return how wide a code is printed, quiet zone counted [mm].

    Args:
        text: what it holds
    """
    code = segno.make(text, error="m", micro=False, boost_error=False)
    modules, _ = code.symbol_size(scale=1, border=QUIET)
    return max(_LEAST_SIZE, MODULE * float(modules))
