"""Rope classes: the factors of mass and breaking force that a construction has by its class.

In:    the construction as a certificate prints it, "6x36WS-IWRC".
Out:   the factors of its class with their source; None where the class is not on file.
Never: compacted rope (K): its breaking force is never estimated from these; a class by guess.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from becket.settings.tables import read_table

_COLUMNS = ("rope_class", "core", "mass_factor", "area_factor", "force_factor", "status")
SOURCE = "EN 12385 factors as printed in Feyrer, Wire Ropes: Tension, Endurance, Reliability, Table 1.9"
# strands x wires, the letters of the strand lay, the core
_CONSTRUCTION = re.compile(r"([0-9]{1,2})(\(W\))?x([0-9]{1,2})(M|WS|SW|S|W)?(?:[ -](FC|IWRC|WSC))?")


@dataclass(frozen=True, kw_only=True)
class RopeClass:
    """The factors of one class and core."""

    rope_class: str
    core: str
    mass_factor: float  # mass per length = factor d^2, d in mm, mass in kg per 100 m [-]
    area_factor: float  # metal area = factor d^2 [-]
    force_factor: float  # breaking force = factor d^2 grade [-]
    source: str
    is_from_memory: bool


@cache
def rope_classes() -> tuple[RopeClass, ...]:
    """Return every class of the shipped table."""
    return tuple(
        RopeClass(
            rope_class=row["rope_class"],
            core=row["core"],
            mass_factor=float(row["mass_factor"]),
            area_factor=float(row["area_factor"]),
            force_factor=float(row["force_factor"]),
            source=SOURCE if row["status"] == "SEEN" else "from memory, not seen in print",
            is_from_memory=row["status"] != "SEEN",
        )
        for row in read_table("rope_classes.csv", _COLUMNS)
    )


def class_of(construction: str | None) -> RopeClass | None:
    """Return the class of a construction; None where it is not on file, not plain, or compacted [-].

    A class counts only where the construction's own numbers name it: 6x36WS is of class 6x36. A construction of
    other numbers (6x25F, 6x41WS) belongs to a class by a list of the standard that is not on file here.

    Args:
        construction: as the certificate prints it; None is not on file [-]

    Source: docs/theory/rope.md, breaking force from the construction.

    >>> class_of("6x36WS-IWRC").force_factor
    0.356
    >>> class_of("35(W)x7").is_from_memory
    True
    >>> class_of("35xK7") is None and class_of("6x25F-IWRC") is None and class_of("6x36WS") is None
    True
    """
    match = _CONSTRUCTION.fullmatch((construction or "").strip())
    if match is None:
        return None
    strands, ring, wires, lay, core = match.groups()
    name = f"{strands}{ring or ''}x{wires}{'M' if lay == 'M' else ''}"
    fitting = [one for one in rope_classes() if one.rope_class == name and core in (None, one.core)]
    return fitting[0] if len(fitting) == 1 else None
