"""How wide a line of text is at most, and where it is broken.

In:    text in Latin, Greek or Cyrillic letters, a size.
Out:   widths in pixels, never less than a common wide sans-serif font needs; lines.
Never: fonts, files, cutting a word off.
"""

from __future__ import annotations

import unicodedata

_SHARES = (  # letters, share of the size that one of them needs, how much more in bold
    ("ijl .,:;'\u2019|\u00b7\u0131\u03b9\u0456\u0457\u0458", 0.36, 1.25),
    ("rtfIJ()[]/-!\u0406\u0407\u0399\u03af", 0.44, 1.25),
    ("scz", 0.57, 1.16),
    ("#&+<=>^~\u00d7\u00f7\u2212", 0.84, 1.06),
    (
        "mwMWQ@%\u2014\u2192\u041c\u0424\u042b\u0436\u0448\u0449\u044e\u043c\u0444\u044b\u03a9\u039c\u03c9\u03a6\u2260"
        "\u00c6\u00e6\u0153\u0126\u0149\u0174\u0175\u042a\u0459\u045a\u0414\u0426\u0389\u038c\u038e\u038f\u03ce\u0434",
        1.03,
        1.12,
    ),
    ("\u0428\u0429\u0416\u042e\u0409\u040a\u0152", 1.1, 1.21),
)
_SHARE_OF = {letter: (share, bold) for letters, share, bold in _SHARES for letter in letters}


def text_width(text: str, size: float, is_bold: bool = False) -> float:
    """Return how wide a line of text is at most [px].

    Args:
        text: one line
        size: of the font [px]
        is_bold: set in bold

    >>> text_width("4", 10) < text_width("4", 10, True) < text_width("44", 10)
    True
    """
    return size * sum(_em(letter, is_bold) for letter in text)


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
    for word in text.split(" "):
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


def _em(letter: str, is_bold: bool) -> float:
    if unicodedata.combining(letter):
        return 0.0
    if letter in _SHARE_OF:
        share, more = _SHARE_OF[letter]
        return share * (more if is_bold else 1.0)
    bold = 1.12 if is_bold else 1.0
    if unicodedata.east_asian_width(letter) in "WF":
        return 1.02 * bold
    if unicodedata.category(letter) == "Lu":
        return 0.79 * bold
    return (0.64 if letter.isascii() else 0.72) * bold
