"""Cutting a font down to the signs of the pages, and drawing those that it lacks.

In:    the bytes of a TrueType font.
Out:   woff2 bytes.
Never: a sign beyond those that the pages use.
"""

from __future__ import annotations

from io import BytesIO
from typing import Any, Final

from fontTools import subset
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

OURS: Final = "→◂▸"  # not in Roboto: drawn here
SIGNS: Final = "".join(map(chr, [*range(0x20, 0x7F), *range(0xA0, 0x100)])) + "–—\u2018’“”…−≠≤≥≈√⅛⅜⅝⅞"
_FEATURES: Final = ("kern", "tnum", "lnum", "mark", "ccmp")


def cut_down(source: bytes, arrow: int) -> bytes:
    """Return a font with the signs of the pages alone, arrow and triangles drawn in [-].

    Args:
        source: TrueType
        arrow: thickness of the arrow's shaft [units of the font]
    """
    font = TTFont(BytesIO(source), recalcTimestamp=False)
    _add(font, "→", _arrow(arrow), 2100)
    _add(font, "◂", [[(1000, 100), (1000, 1100), (100, 600)]], 1150)
    _add(font, "▸", [[(150, 100), (1050, 600), (150, 1100)]], 1150)
    return _woff2(_with_signs(font))


def _arrow(thick: int) -> list[list[tuple[int, int]]]:
    """Return the outline of an arrow to the right, shaft and head in one."""
    middle, back, tip, wing = 650, 150, 1950, 520
    low, high = middle - thick // 2, middle + thick // 2
    neck = tip - wing
    return [
        [
            (back, low),
            (back, high),
            (neck - 80, high),
            (neck - 80, middle + wing),
            (tip, middle),
            (neck - 80, middle - wing),
            (neck - 80, low),
        ]
    ]


def _add(font: TTFont, sign: str, outlines: list[list[tuple[int, int]]], wide: int) -> None:
    pen, name = TTGlyphPen(None), f"uni{ord(sign):04X}"
    for outline in outlines:
        pen.moveTo(outline[0])
        for point in outline[1:]:
            pen.lineTo(point)
        pen.closePath()
    font.setGlyphOrder([*font.getGlyphOrder(), name])
    tables: Any = font
    tables["glyf"][name] = pen.glyph()
    tables["hmtx"][name] = (wide, min(x for outline in outlines for x, _ in outline))
    for table in tables["cmap"].tables:
        if table.isUnicode():
            table.cmap[ord(sign)] = name


def _with_signs(font: TTFont) -> TTFont:
    options = subset.Options()
    options.layout_features = list(_FEATURES)
    options.hinting, options.glyph_names, options.notdef_outline = False, False, True
    options.drop_tables += ["DSIG", "LTSH", "VDMX", "hdmx", "gasp"]
    cutter = subset.Subsetter(options=options)
    cutter.populate(text=SIGNS + OURS)
    cutter.subset(font)
    return font


def _woff2(font: TTFont) -> bytes:
    font.flavor = "woff2"
    packed = BytesIO()
    font.save(packed)
    return packed.getvalue()
