"""How wide a line of text is at most, and where it is broken.

In:    text in Latin, Greek or Cyrillic letters, a size.
Out:   widths in pixels, never less than a common wide sans-serif font needs; lines.
Never: fonts, files, cutting a word off.
"""

from __future__ import annotations

import unicodedata

_NARROW = set("iljtfrI.,:;'\u2019|!()[]/ ·-ιїіјı")
_WIDE = set("mwMWQ@%—→ЖШЩЮМФЫжшщюмфыюΩΜωΦ≠")


def text_width(text: str, size: float, is_bold: bool = False) -> float:
    """Return how wide a line of text is at most [px].

    Args:
        text: one line
        size: of the font [px]
        is_bold: set in bold

    >>> text_width("4", 10) < text_width("4", 10, True) < text_width("44", 10)
    True
    """
    return size * sum(map(_em, text)) * (1.12 if is_bold else 1.0)


def broken(text: str, size: float, width: float, is_bold: bool = False) -> tuple[str, ...]:
    """Return the lines of a text that fit a width; a word longer than a line is broken, never cut off [-].

    Args:
        text: words
        size: of the font [px]
        width: of a line [px]
        is_bold: set in bold

    >>> broken("head four", 10, 40)
    ('head', 'four')
    """
    lines: list[str] = []
    line = ""
    for word in text.split():
        longer = f"{line} {word}" if line else word
        if text_width(longer, size, is_bold) <= width:
            line = longer
            continue
        if line:
            lines.append(line)
        line = word
        while text_width(line, size, is_bold) > width and len(line) > 1:
            cut = _most_that_fits(line, size, width, is_bold)
            lines.append(line[:cut])
            line = line[cut:]
    return (*lines, line) if line else tuple(lines)


def _most_that_fits(word: str, size: float, width: float, is_bold: bool) -> int:
    return next((n for n in range(len(word), 1, -1) if text_width(word[:n], size, is_bold) <= width), 1)


def _em(letter: str) -> float:
    if unicodedata.combining(letter):
        return 0.0
    if letter in _NARROW:
        return 0.42
    if letter in _WIDE:
        return 1.0
    if unicodedata.east_asian_width(letter) in "WF":
        return 1.0
    if unicodedata.category(letter) == "Lu":
        return 0.76
    return 0.64 if letter.isdigit() or letter.isascii() else 0.7
