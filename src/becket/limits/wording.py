"""Figures in sentences, metric, rounded toward safety.

In:    SI floats.
Out:   short texts for a crew; what is there rounds down, what is asked for rounds up.
Never: reading units, verdicts.
"""

from __future__ import annotations

from math import ceil, degrees, floor


def mass_there(mass: float) -> str:
    """Return a mass that is permitted or there, rounded down [-].

    Args:
        mass: in SI [kg]

    >>> mass_there(5196.5)
    '5.19 t'
    """
    return f"{_down(mass / 1000, 100):.2f} t"


def mass_asked(mass: float) -> str:
    """Return a mass that is asked for, rounded up [-].

    Args:
        mass: in SI [kg]

    >>> mass_asked(5191.0)
    '5.20 t'
    """
    return f"{_up(mass / 1000, 100):.2f} t"


def force_there(force: float) -> str:
    """Return a force that is permitted or there, rounded down [-].

    Args:
        force: in SI [N]

    >>> force_there(42999.0)
    '42.9 kN'
    """
    return f"{_down(force / 1000, 10):.1f} kN"


def force_asked(force: float) -> str:
    """Return a force that is asked for, rounded up [-].

    Args:
        force: in SI [N]

    >>> force_asked(42901.0)
    '43.0 kN'
    """
    return f"{_up(force / 1000, 10):.1f} kN"


def length_there(length: float) -> str:
    """Return a length that is there, rounded down [-].

    Args:
        length: in SI [m]

    >>> length_there(1.499)
    '1.49 m'
    """
    return f"{_down(length, 100):.2f} m"


def length_asked(length: float) -> str:
    """Return a length that is asked for, rounded up [-].

    Args:
        length: in SI [m]

    >>> length_asked(1.491)
    '1.50 m'
    """
    return f"{_up(length, 100):.2f} m"


def angle_there(angle: float) -> str:
    """Return an angle that is permitted, rounded down [-].

    Args:
        angle: in SI [rad]

    >>> angle_there(0.0698)
    '3.9 deg'
    """
    return f"{_down(degrees(angle), 10):.1f} deg"


def angle_asked(angle: float) -> str:
    """Return an angle that is made, rounded up [-].

    Args:
        angle: in SI [rad]

    >>> angle_asked(0.0690)
    '4.0 deg'
    """
    return f"{_up(degrees(angle), 10):.1f} deg"


def factor_there(factor: float) -> str:
    """Return a factor that is there, rounded down [-].

    >>> factor_there(5.29)
    '5.2'
    """
    return f"{_down(factor, 10):.1f}"


def factor_asked(factor: float) -> str:
    """Return a factor that is asked for, rounded up [-].

    >>> factor_asked(4.01)
    '4.1'
    """
    return f"{_up(factor, 10):.1f}"


def percent_up(share: float) -> str:
    """Return a share in percent, rounded up [-].

    >>> percent_up(0.901)
    '91 %'
    """
    return f"{_up(100 * share, 1):.0f} %"


def falls_in_words(falls: int) -> str:
    """Return a number of falls [-].

    >>> falls_in_words(1), falls_in_words(4)
    ('1 fall', '4 falls')
    """
    return "1 fall" if falls == 1 else f"{falls} falls"


def _down(value: float, steps: int) -> float:
    return floor(value * steps + 1e-6) / steps


def _up(value: float, steps: int) -> float:
    return ceil(value * steps - 1e-6) / steps
