"""The names that an archive may hold, and how large what they name may be.

In:    names.
Out:   whether they are good.
Never: a path that leaves the folder, a name that a system takes for a device.
"""

from __future__ import annotations

import re
from typing import Final

from becket.records.kept import DOCUMENT_KINDS

FORMAT: Final = "becket records 1"
FIXED: Final = ("manifest.json", "events.jsonl", "events.csv")
LARGEST: Final = {  # [bytes] by the first part of the name; what is larger is refused
    "manifest.json": 100_000_000,
    "events.jsonl": 100_000_000_000,
    "events.csv": 100_000_000_000,
    "documents": 50_000_000,
    "photos": 50_000_000,
}
LONGEST_LINE: Final = 400_000  # of events.jsonl [bytes]; an event has at most 20,000 characters
MOST_TIMES: Final = 200  # as large, unpacked, as the archive: a true one is about 8 times
_PART: Final = r"(?!(?i:con|prn|aux|nul|com\d|lpt\d)(?:\.|$|/))[A-Za-z0-9][A-Za-z0-9_-]*(?:\.[A-Za-z0-9_-]+)*"
_PHOTO: Final = re.compile(rf"photos/(?:{_PART}/){{0,3}}{_PART}")
_DOCUMENT: Final = re.compile(rf"documents/({'|'.join(DOCUMENT_KINDS)})/([0-9a-f]{{16}})\.txt")


def document_name(kind: str, fingerprint: str) -> str:
    """Return the name of a document in the archive [-].

    Args:
        kind: of the document
        fingerprint: of the document

    >>> document_name("book", "e3b0c44298fc1c14")
    'documents/book/e3b0c44298fc1c14.txt'
    """
    return f"documents/{kind}/{fingerprint}.txt"


def is_photo_name(name: str) -> bool:
    """Return whether a name is that of a photo that stays in its folder [-].

    Args:
        name: with slashes

    >>> [is_photo_name(name) for name in ("photos/ab/c.jpg", "photos/../c.jpg", "photos/.c", "photos/NUL.jpg")]
    [True, False, False, False]
    """
    return len(name) <= 200 and _PHOTO.fullmatch(name) is not None


def is_good_name(name: str) -> bool:
    """Return whether an archive may hold a file of this name [-].

    Args:
        name: with slashes

    >>> [is_good_name(name) for name in ("events.jsonl", "documents/book/e3b0c44298fc1c14.txt", "/etc/passwd")]
    [True, True, False]
    """
    return name in FIXED or _DOCUMENT.fullmatch(name) is not None or is_photo_name(name)
