"""The bytes of a file that nobody has vouched for.

In:    a path, limits.
Out:   its text, and a fingerprint of its bytes.
Never: more than the size limit in memory, what the text means.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from becket.intake.nodes import Span
from becket.intake.page import Page

BOM = b"\xef\xbb\xbf"
# line breaks besides \n and \r\n, control characters, a byte order mark inside the text
_ODD = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff]")


@dataclass(frozen=True, kw_only=True)
class FileText:
    """A file as read. ``text`` is without byte order mark; line ends are as in the file."""

    text: str
    has_bom: bool
    fingerprint: str  # first 16 hex digits of SHA-256 over the bytes


def read_text(path: Path, page: Page, size_most: float) -> FileText | None:
    """Return the file's text, None where a fault says why not [-].

    Args:
        path: of the file [-]
        page: takes the faults [-]
        size_most: largest size that is read [byte]
    """
    data = _bytes(path, page, size_most)
    if data is None:
        return None
    has_bom = data.startswith(BOM)
    try:
        text = data[len(BOM) * has_bom :].decode("utf-8")
    except UnicodeDecodeError as error:
        before = data[: len(BOM) * has_bom + error.start]
        line = before.count(b"\n") + 1
        column = len(before[before.rfind(b"\n") + 1 :].decode("utf-8", "replace")) + 1
        found = f"byte 0x{error.object[error.start]:02x} is not UTF-8"
        page.fault(Span(line=line, column=column), "file", found, "a text file saved as UTF-8")
        return None
    if odd := _ODD.search(text):
        found = f"character U+{ord(odd[0]):04X} stands there"
        page.fault(place_in(text, odd.start()), "file", found, "plain text without control characters")
        return None
    return FileText(text=text, has_bom=has_bom, fingerprint=sha256(data).hexdigest()[:16])


def place_in(text: str, index: int) -> Span:
    """Return line and column of a place in the text [-].

    >>> place_in("a\\nbc", 3).line, place_in("a\\nbc", 3).column
    (2, 2)
    """
    start = text.rfind("\n", 0, index) + 1
    return Span(line=text.count("\n", 0, index) + 1, column=index - start + 1, start=index, end=index)


def _bytes(path: Path, page: Page, size_most: float) -> bytes | None:
    most = int(size_most)
    try:
        if path.exists() and not path.is_file():
            page.fault(None, "file", "is not a plain file", "the path of a text file")
            return None
        with path.open("rb") as file:
            data = file.read(most + 1)
    except FileNotFoundError:
        page.fault(None, "file", "there is no such file", "the path of a text file")
        return None
    except (OSError, ValueError) as error:
        found = f"cannot be opened ({getattr(error, 'strerror', None) or 'odd path'})"
        page.fault(None, "file", found, "a file that may be read")
        return None
    if len(data) > most:
        page.fault(None, "file", f"is larger than {most} bytes", "a smaller file (setting file_size_most)")
        return None
    if not data.removeprefix(BOM).strip():
        page.fault(None, "file", "is empty", "a file as docs/files.md shows")
        return None
    return data
