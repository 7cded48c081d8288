"""Numbers of a pattern in the words of a finding.

In:    SI numbers.
Out:   text, rounded toward safety: what is asked for upward, what is there downward.
Never: a verdict; units of the user's choice.
"""

from __future__ import annotations

from math import ceil, degrees, floor

_SLACK = 1e-9  # a number that is whole but for the last binary digits stays whole


def millimetres_asked(length: float) -> str:
    """Return a length in whole millimetres, upward [-].

    >>> millimetres_asked(0.0255)
    '26 mm'
    """
    return f"{ceil(1000 * length - _SLACK)} mm"


def millimetres_there(length: float) -> str:
    """Return a length in whole millimetres, downward [-].

    >>> millimetres_there(0.0255)
    '25 mm'
    """
    return f"{floor(1000 * length + _SLACK)} mm"


def metres_asked(length: float) -> str:
    """Return a length in hundredths of a metre, upward [-].

    >>> metres_asked(3.431)
    '3.44 m'
    """
    return f"{ceil(100 * length - _SLACK) / 100:.2f} m"


def metres_there(length: float) -> str:
    """Return a length in hundredths of a metre, downward [-].

    >>> metres_there(3.439)
    '3.43 m'
    """
    return f"{floor(100 * length + _SLACK) / 100:.2f} m"


def degrees_asked(angle: float) -> str:
    """Return an angle in tenths of a degree, away from nought [-].

    >>> degrees_asked(0.0350)
    '2.1 deg'
    >>> degrees_asked(-0.0350)
    '-2.1 deg'
    """
    tenths = ceil(10 * degrees(abs(angle)) - _SLACK) / 10
    return f"{-tenths if angle < 0 and tenths else tenths:.1f} deg"


def not_on_file(figures: tuple[str, ...]) -> str:
    """Return the sentence that names missing figures [-].

    >>> not_on_file(("torque factor (rope.torque_factor)",))
    'Not on file: torque factor (rope.torque_factor).'
    """
    return "Not on file: " + "; ".join(figures) + "."
