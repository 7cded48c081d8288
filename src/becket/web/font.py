"""The one font of the pages: Roboto in two weights, cut down to the signs that the pages use.

In:    the font files of the package font-roboto.
Out:   woff2 bytes by the name that base.css calls them by; made once on a machine.
Never: a font of the machine; a sign that a page uses and the font lacks.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Final

from becket.web.kept_work import kept_work

WEIGHTS: Final[Mapping[str, tuple[str, int]]] = {
    "roboto-400.woff2": ("Roboto-Regular.ttf", 190),  # file, thickness of the arrow
    "roboto-700.woff2": ("Roboto-Bold.ttf", 300),
}


@cache
def font_files() -> Mapping[str, bytes]:
    """Return both weights as woff2 by their names in base.css [-].

    Source: the fonts are Roboto, Apache License 2.0; the arrow and the two triangles are ours.
    """
    return {name: _cut_down(source, arrow) for name, (source, arrow) in WEIGHTS.items()}


def _cut_down(source: str, arrow: int) -> bytes:
    font = (files("font_roboto") / "files" / source).read_bytes()
    making = (files("becket.web") / "font_making.py").read_bytes()
    return kept_work("font", (font, making, str(arrow).encode()), lambda: _made(font, arrow))


def _made(font: bytes, arrow: int) -> bytes:
    from becket.web.font_making import cut_down  # loads slowly, and is needed once on a machine

    return cut_down(font, arrow)
