"""Verdicts in black and white: by amount of ink, outline and word.

In:    a verdict and a place.
Out:   shapes: pass the lightest, FAIL the heaviest, unknown the only one with hatch.
Never: colour, a verdict without its word or sign.
"""

from __future__ import annotations

from becket.drawing.hatch import hatch
from becket.drawing.picture import INK, PAPER, Box, Circle, Polyline, Rect, Shape, Text
from becket.verdict import Verdict

_FOOT = 7.0  # height of the hatch [px]
_WORDS = {Verdict.PASS: "pass", Verdict.FAIL: "FAIL", Verdict.UNKNOWN: "unknown"}


def plate(box: Box, verdict: Verdict) -> tuple[Shape, ...]:
    """Return the outline that a verdict gives a place [-].

    Args:
        box: of the place [px]
        verdict: pass, fail or unknown
    """
    left, top, right, bottom = box
    facts = (("kind", "verdict"), ("is", str(verdict)))
    width, height = right - left, bottom - top
    if verdict is Verdict.PASS:
        return (Rect(x=left, y=top, width=width, height=height, round=height / 2, ink=PAPER, stroke=1.5, facts=facts),)
    if verdict is Verdict.FAIL:
        return (Rect(x=left, y=top, width=width, height=height, ink=INK, outline=INK, stroke=1.5, facts=facts),)
    return (
        *hatch((left, bottom - _FOOT, right, bottom), period=9),
        Rect(x=left, y=top, width=width, height=height, stroke=2, dash=(5, 3), facts=facts),
    )


def tag(box: Box, verdict: Verdict) -> tuple[Shape, ...]:
    """Return a verdict as a plate with its sign and its word [-].

    Args:
        box: of the plate, at least 130 px wide [px]
        verdict: pass, fail or unknown
    """
    left, top, _, bottom = box
    middle = (top + bottom) / 2 - (_FOOT / 2 if verdict is Verdict.UNKNOWN else 0)
    ink = PAPER if verdict is Verdict.FAIL else INK
    sign_at = left + (15 if verdict is Verdict.UNKNOWN else 24)
    word = Text(at=(sign_at + 13, middle + 6), text=_WORDS[verdict], size=18, is_bold=True, ink=ink)
    return (*plate(box, verdict), *sign((sign_at, middle), verdict), word)


def sign(at: tuple[float, float], verdict: Verdict) -> tuple[Shape, ...]:
    """Return the sign of a verdict: ring, cross or question mark [-].

    Args:
        at: middle [px]
        verdict: pass, fail or unknown
    """
    x, y = at
    if verdict is Verdict.PASS:
        return (Circle(centre=at, radius=6, outline=INK, stroke=3),)
    if verdict is Verdict.FAIL:
        strokes = ((x - 5, y - 5), (x + 5, y + 5)), ((x - 5, y + 5), (x + 5, y - 5))
        return tuple(Polyline(points=stroke, ink=PAPER, width=3) for stroke in strokes)
    return (Text(at=(x, y + 6), text="?", size=18, is_bold=True, anchor="middle"),)


def not_known(at: tuple[float, float]) -> tuple[Shape, ...]:
    """Return a question mark on hatch, 40 by 24 px: a figure that is not known [-].

    Args:
        at: left upper corner [px]
    """
    x, y = at
    return (
        *hatch((x, y, x + 40, y + 24), period=8),
        Rect(x=x, y=y, width=40, height=24, stroke=2, dash=(5, 3), facts=(("kind", "unknown"),)),
        Rect(x=x + 10, y=y + 2, width=20, height=20, ink=PAPER, outline=None),
        Text(at=(x + 20, y + 18.5), text="?", size=18, is_bold=True, anchor="middle"),
    )
