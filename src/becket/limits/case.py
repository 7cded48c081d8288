"""One number of falls of one lift: everything the limits share, worked out once.

In:    what the lift has for all numbers of falls, and one number of falls.
Out:   one frozen record; what is missing is carried as missing, never as a number.
Never: a verdict.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.tackle import Pattern, State
from becket.limits.book_figures import dead_end_add
from becket.limits.figures import Figure, Impossible, Missing, missing, worked_out
from becket.limits.lift_case import LiftCase
from becket.limits.winding import Layers, layers_between, permitted_pull, slowest_speed
from becket.mechanics.overhaul import GRAVITY
from becket.mechanics.reach import sheave_arcs
from becket.mechanics.tackle import dead_end_pull, lead_line_pull
from becket.reeving.counts import dead_end_side
from becket.reeving.pattern import find_pattern
from becket.reeving.places import FallPlaces, fall_places, sides_missing


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """What one number of falls has. Masses in kg, forces in N, lengths in m."""

    shared: LiftCase
    falls: int
    needed_falls: int  # fewest of which the lead line pull does not fail, these at most
    pattern: Pattern | None
    places: FallPlaces | Missing
    rope_mass: Figure  # of the falls at the lowest hook, boom steepest
    gross: Figure  # hook load, block, rope in the falls
    pull: Figure  # at the drum, raising
    dead_end_pull: Figure  # lowering
    rope_needed: Figure  # greatest rope out of the lift and the least wraps
    rope_spared: Figure  # what another dead end on file could take off it; 0 where the pattern is on file
    layers: Layers | Missing | Impossible
    permitted_pull: Figure  # by layer
    line_speed: Figure  # the slower layer [m/s]


def case_of(shared: LiftCase, falls: int, needed_falls: int) -> Case:
    """Return what one number of falls has, each thing worked out once [-].

    Args:
        shared: the lift
        falls: ropes that carry the block [-]
        needed_falls: fewest of which the lead line pull does not fail, ``falls`` at most [-]

    Source: docs/theory/limits.md, "What hangs", "Rope" and "Layers".
    """
    book, figures, spool = shared.book, shared.figures, shared.spool
    pattern = find_pattern(book, State(block=shared.block.name, falls=falls))
    rope_mass = worked_out(
        lambda fall, mass: falls * max(fall, 0.0) * mass, shared.geometry.greatest_fall, figures.rope_mass
    )
    gross = worked_out(_total, shared.hook_load, figures.block_mass, rope_mass)
    eta = figures.sheave_efficiency
    rope = _rope_out(shared, falls, pattern)
    layers = worked_out(
        lambda length, least, most: layers_between(spool, length, least, most),
        figures.rope_length,
        rope.least,
        rope.most,
    )
    return Case(
        shared=shared,
        falls=falls,
        needed_falls=needed_falls,
        pattern=pattern,
        places=_places(shared, falls, pattern),
        rope_mass=rope_mass,
        gross=gross,
        pull=worked_out(
            lambda mass, share, guides: lead_line_pull(mass * GRAVITY, falls, share, guides),
            gross,
            eta,
            figures.guide_sheaves,
        ),
        dead_end_pull=worked_out(lambda mass, share: dead_end_pull(mass * GRAVITY, falls, share), gross, eta),
        rope_needed=worked_out(_sum, rope.most, shared.kept),
        rope_spared=rope.spared,
        layers=layers,
        permitted_pull=worked_out(lambda there: permitted_pull(book.winch, spool, there), layers),
        line_speed=worked_out(lambda there: slowest_speed(book.winch, spool, there), layers),
    )


def _places(shared: LiftCase, falls: int, pattern: Pattern | None) -> FallPlaces | Missing:
    if pattern is None:
        return missing("patterns", f"{shared.block.name}:{falls}")
    places = fall_places(shared.book, pattern)
    return Missing(sides_missing(shared.book, pattern)) if places is None else places


@dataclass(frozen=True, slots=True)
class _RopeOut:
    least: Figure  # hook at its highest [m]
    most: Figure  # hook at its lowest [m]
    spared: Figure  # between the dead ends on file, where the pattern is not [m]


def _rope_out(shared: LiftCase, falls: int, pattern: Pattern | None) -> _RopeOut:
    at, head_sheave = shared.geometry, shared.book.head.sheave_diameter
    end_least, end_most = _dead_end_adds(shared, falls, pattern)
    fixed = worked_out(
        lambda tail, diameter: tail + sheave_arcs(falls, diameter, head_sheave),
        shared.figures.tail,
        shared.figures.block_sheave if falls > 1 else 0.0,
    )
    high = worked_out(
        lambda a, fall_a, b, fall_b: min(a + falls * fall_a, b + falls * fall_b),
        at.lead_steep,
        at.steep_high,
        at.lead_flat,
        at.flat_high,
    )
    low = worked_out(
        lambda a, fall_a, b, fall_b: max(a + falls * fall_a, b + falls * fall_b),
        at.lead_steep,
        at.greatest_fall,
        at.lead_flat,
        at.flat_low,
    )
    return _RopeOut(
        worked_out(_total, high, fixed, end_least),
        worked_out(_total, low, fixed, end_most),
        worked_out(_difference, end_most, end_least),
    )


def _dead_end_adds(shared: LiftCase, falls: int, pattern: Pattern | None) -> tuple[Figure, Figure]:
    """What the place of the dead end adds to the rope: of the pattern, or the bounds of the places on file."""
    if pattern is None and dead_end_side(falls) == "head":
        return shared.anchors_least, shared.anchors_most
    adds = dead_end_add(shared.book, shared.block, "block" if pattern is None else pattern.dead_end)
    return adds, adds


def _sum(a: float, b: float) -> float:
    return a + b


def _total(a: float, b: float, c: float) -> float:
    return a + b + c


def _difference(a: float, b: float) -> float:
    return a - b
