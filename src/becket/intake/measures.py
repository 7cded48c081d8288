"""The kinds of field that many records share.

In:    nothing.
Out:   one field for each kind of figure, with the bounds that hold everywhere.
Never: which record has which.
"""

from __future__ import annotations

from math import pi

from becket.errors import UnreadableTextError
from becket.intake.fields import ANY, FROM_NOUGHT, OVER_NOUGHT, Bounds, choice, quantity, text, word
from becket.units import read_quantity, shortened

SECTORS = ("side", "rear", "front")
MOTIONS = ("hoist", "lower", "telescope out", "telescope in", "derrick up", "derrick down", "slew")
_RIGHT_ANGLE = pi / 2

LENGTH = quantity("length", OVER_NOUGHT, "over 0")
LENGTH_OR_NOUGHT = quantity("length", FROM_NOUGHT, "from 0 up")
PLACE = quantity("length", ANY)
MASS = quantity("mass", OVER_NOUGHT, "over 0")
MASS_OR_NOUGHT = quantity("mass", FROM_NOUGHT, "from 0 up")
FORCE = quantity("force", OVER_NOUGHT, "over 0")
FORCE_OR_NOUGHT = quantity("force", FROM_NOUGHT, "from 0 up")
SPEED = quantity("speed", OVER_NOUGHT, "over 0")
ANGLE = quantity("angle", Bounds(least=-_RIGHT_ANGLE, most=_RIGHT_ANGLE), "from -90 deg to 90 deg")
LIMIT_ANGLE = quantity("angle", Bounds(over=0.0, under=_RIGHT_ANGLE), "over 0 deg, under 90 deg")
ROPE_MASS = quantity("mass per length", OVER_NOUGHT, "over 0")
SHARE = quantity("share", Bounds(over=0.0, most=1.0), "over 0 %, up to 100 %")
TIME = quantity("time", OVER_NOUGHT, "over 0")
TIME_OR_NOUGHT = quantity("time", FROM_NOUGHT, "from 0 up")
RATE = quantity("rate", FROM_NOUGHT, "from 0 up")
EFFICIENCY = quantity("ratio", Bounds(over=0.0, most=1.0), "over 0, up to 1")
FACTOR = quantity("ratio", Bounds(least=1.0), "from 1 up")
NUMBER = quantity("ratio", OVER_NOUGHT, "over 0")
TEXT = text()
SECTOR = choice(*SECTORS)
MOTION = choice(*MOTIONS)


def sections_of(code: str) -> tuple[float, ...]:
    """Return how far each section is out by a telescoping code [%].

    Raises: UnreadableTextError

    >>> sections_of("100-92-0")
    (100.0, 92.0, 0.0)
    """
    try:
        sections = tuple(read_quantity(part, "ratio") for part in code.split("-"))
    except UnreadableTextError:
        sections = ()
    if not sections or not all(0.0 <= section <= 100.0 for section in sections):
        wanted = "a telescoping code as 100-50-0: how far each section is out, in percent"
        raise UnreadableTextError(shortened(code) or "nothing stands there", wanted)
    return sections


def _code(found: str) -> str:
    sections_of(found)
    return found


def code_and_length(found: str) -> tuple[str, float]:
    """Return telescoping code and boom length of a row of a chart [-, m].

    Raises: UnreadableTextError

    >>> code_and_length("100-0-0 18.4 m")
    ('100-0-0', 18.4)
    """
    code, space, length = found.partition(" ")
    wanted = "telescoping code and boom length, as 100-0-0 18.4 m"
    if not space or not any(c.isdigit() for c in length):  # "18.4 m" alone would read as a code of one section
        raise UnreadableTextError(shortened(found), wanted)
    sections_of(code)
    value = read_quantity(length, "length")
    if value <= 0.0:
        raise UnreadableTextError(f"{shortened(found)} is out of range", wanted)
    return code, value


CODE = word(_code, "a telescoping code as 100-50-0")
CODE_AND_LENGTH = word(code_and_length, "telescoping code and boom length, as 100-0-0 18.4 m")
