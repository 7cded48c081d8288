"""The chain: every event's hash stands on the hash of the event before.

In:    texts.
Out:   hashes.
Never: a database.
"""

from __future__ import annotations

import hashlib
import re
from typing import Final

BEGINNING: Final = "0" * 64  # stands before the first event
_MOMENT: Final = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d{1,6})?(Z|[+-]\d\d:\d\d)")


def is_moment(text: str) -> bool:
    """Return whether a text is a moment with its offset, in one line: a link can be read in one way only [-].

    Args:
        text: as the server writes it

    >>> is_moment("2026-11-30T15:31:00+01:00"), is_moment("2026-11-30T15:31:00")
    (True, False)
    """
    return _MOMENT.fullmatch(text) is not None


def link_hash(before: str, number: int, received: str, body: str) -> str:
    r"""Return the hash of one event of the chain: SHA-256 over four lines, as 64 hex digits [-].

    Args:
        before: hash of the event before; ``BEGINNING`` for the first
        number: its place, from 1
        received: when the server took it, by the server's clock
        body: the event's canonical text, one line

    Source: docs/records.md, "The chain".

    >>> link_hash(BEGINNING, 1, "2026-11-30T14:31:00Z", "{}")[:16]
    'e9bdfaf5964567ca'
    """
    return hashlib.sha256(f"{before}\n{number}\n{received}\n{body}".encode()).hexdigest()


def fingerprint_of(text: str) -> str:
    """Return the name of a document: the first 16 hex digits of SHA-256 over its text as UTF-8 [-].

    Args:
        text: of the document

    >>> fingerprint_of("")
    'e3b0c44298fc1c14'
    """
    return hashlib.sha256(text.encode()).hexdigest()[:16]
