"""Strength and mass of a rope.

In:    diameter, nominal grade, factors of a rope class; forces.
Out:   forces, masses, factors. Every float is SI.
Never: files, rule sets, a crane book.
"""

from __future__ import annotations

from becket.errors import OutOfRangeError


def breaking_force_of_class(diameter: float, grade: float, force_factor: float) -> float:
    """Return the minimum breaking force of a rope class; an estimate, never the certificate [N].

    Args:
        diameter: nominal [m]
        grade: nominal wire grade, R0 [Pa]
        force_factor: K of the class and core, for F in kN, d in mm, R0 in N/mm2, over 1000 [-]

    Raises:
        OutOfRangeError: a diameter or grade that is not more than 0.

    Source: F = K d^2 R0 / 1000 (EN 12385 factors in Feyrer, Wire Ropes, Table 1.9); docs/theory/rope.md, eq. 1.

    >>> round(breaking_force_of_class(0.020, 1770e6, 0.332) / 1000)
    235
    """
    _positive("diameter", diameter)
    _positive("grade", grade)
    return force_factor * diameter**2 * grade


def mass_of_class(diameter: float, mass_factor: float) -> float:
    """Return the mass of a metre of a rope class; an estimate [kg/m].

    Args:
        diameter: nominal [m]
        mass_factor: W of the class and core, for kg per 100 m and d in mm [-]

    Raises:
        OutOfRangeError: a diameter that is not more than 0.

    Source: m = W d^2 / 100 (EN 12385 factors in Feyrer, Wire Ropes, Table 1.9); docs/theory/rope.md, eq. 2.

    >>> round(100 * mass_of_class(0.020, 0.345))
    138
    """
    _positive("diameter", diameter)
    return mass_factor * (1000 * diameter) ** 2 / 100


def design_factor(breaking_force: float, pull: float) -> float:
    """Return the design factor: breaking force over the greatest pull [-].

    Args:
        breaking_force: nominal, nothing taken off for fitting or bending [N]
        pull: greatest tension of the running rope [N]

    Raises:
        OutOfRangeError: a pull that is not more than 0.

    Source: API RP 9B 14th ed. 2:3.3.5; docs/theory/rope.md, eq. 3.

    >>> round(design_factor(192_000, 49_200), 1)
    3.9
    """
    _positive("pull", pull)
    return breaking_force / pull


def fitting_factor(breaking_force: float, efficiency: float, pull: float) -> float:
    """Return the factor of the rope's end in its fitting [-].

    Args:
        breaking_force: nominal [N]
        efficiency: share of it that the fitting holds [-]
        pull: greatest tension at the dead end [N]

    Raises:
        OutOfRangeError: a pull that is not more than 0.

    Source: docs/theory/rope.md, eq. 4.

    >>> fitting_factor(100.0, 0.8, 16.0)
    5.0
    """
    _positive("pull", pull)
    return breaking_force * efficiency / pull


def least_tail(diameter: float, rotation_resistant: bool) -> float:
    """Return the least tail behind a wedge socket, where the socket's maker gives none [m].

    Args:
        diameter: nominal [m]
        rotation_resistant: whether the rope is [-]

    Source: fitting vendor's sheet: 6 d for 6 to 8 strands, 20 d rotation resistant, 6 in at least;
        docs/theory/rope.md, eq. 5.

    >>> round(least_tail(0.019, True), 3)
    0.38
    """
    return max((20 if rotation_resistant else 6) * diameter, 0.1524)


def _positive(field: str, value: float) -> None:
    if not value > 0:
        raise OutOfRangeError(field, value, "more than 0 is wanted")
