"""What a site gives a re-reeve: counterweight and outriggers that stand, room, ground.

In:    SI figures; a figure that is not given is None.
Out:   one frozen record, and what has to be asked at the first hold point.
Never: files, units, a guess in place of a figure.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, kw_only=True)
class Site:
    """The crane as it is set up on one site, and the ground in front of it."""

    counterweight: float | None = None  # fitted [kg]
    outriggers: str | None = None  # as they stand
    sector: str | None = None  # over which the boom may be laid down; None: any
    free_radius: float | None = None  # clear room from the slewing axis [m]
    ground: float | None = None  # at the head, above that at the crane is + [m]
    slope: float | None = None  # of the ground at the head [rad]


def ground_at_head(site: Site) -> float:
    """Return the ground at the head above that at the crane, level where it is not given [m].

    Args:
        site: the set-up; a ground that is not given is asked at the first hold point

    Source: docs/theory/method.md, "Position".

    >>> ground_at_head(Site(ground=-0.2))
    -0.2
    """
    return site.ground if site.ground is not None else 0.0


def to_ask(site: Site) -> tuple[str, ...]:
    """Return the site figures that were not given and are asked at the first hold point [-].

    Args:
        site: the set-up

    Source: docs/theory/method.md, "Position".

    >>> to_ask(Site(free_radius=40.0, slope=0.0))
    ('ground',)
    """
    figures = {"free radius": site.free_radius, "ground": site.ground, "slope": site.slope}
    return tuple(name for name, value in figures.items() if value is None)
