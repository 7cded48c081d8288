"""One number of falls of one lift: everything the limits share, worked out once.

In:    what the lift has for all numbers of falls, and one number of falls.
Out:   one frozen record; what is missing is carried as missing, never as a number.
Never: a verdict.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.tackle import State
from becket.limits.book_figures import dead_end_add
from becket.limits.figures import Figure, Impossible, Missing, missing, worked_out
from becket.limits.lift_case import LiftCase
from becket.limits.reeved import Reeved, reeved_of
from becket.limits.winding import Layers, layers_between, permitted_pull, slowest_speed, turns_left
from becket.mechanics.overhaul import GRAVITY
from becket.mechanics.reach import sheave_arcs
from becket.mechanics.tackle import dead_end_pull, lead_line_pull
from becket.reeving.counts import dead_end_side


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """What one number of falls has. Masses in kg, forces in N, lengths in m."""

    shared: LiftCase
    falls: int
    needed_falls: int  # fewest of which the lead line pull does not fail, these at most
    reeved: Reeved | None  # None: the pattern is not on file
    lacking: Missing | None  # the pattern, where it is not on file
    twist_length: Figure  # fall length at which the rope turns the block over
    pull_offset: Figure  # of the falls from the block's middle plane
    fleet_offset: Figure  # greatest sideways run of a fall to its sheave
    first_side: Figure  # first head sheave from the boom's middle
    rope_mass: Figure  # of the falls at the lowest hook, boom steepest
    gross: Figure  # hook load, block, rope in the falls
    pull: Figure  # at the drum, raising
    dead_end_pull: Figure  # lowering
    rope_needed: Figure  # greatest rope out of the lift and the least wraps
    rope_spared: Figure  # what another dead end on file could take off it; 0 where the pattern is on file
    layers: Layers | Missing | Impossible
    turns_left: Figure  # on the drum at the lowest hook; negative: the rope is too short [-]
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
    state = State(block=shared.block.name, falls=falls)
    reeved = reeved_of(book, shared.settings, state)
    lacking = missing("patterns", str(state)) if reeved is None else None
    twist_length, pull_offset, fleet_offset, first_side = _of_pattern(reeved, lacking)
    rope_mass = worked_out(
        lambda fall, mass: falls * max(fall, 0.0) * mass, shared.geometry.greatest_fall, figures.rope_mass
    )
    gross = worked_out(_total, shared.hook_load, figures.block_mass, rope_mass)
    rope = _rope_out(shared, falls, reeved)
    layers = _layers(shared, rope)
    return Case(
        shared=shared,
        falls=falls,
        needed_falls=needed_falls,
        reeved=reeved,
        lacking=lacking,
        twist_length=twist_length,
        pull_offset=pull_offset,
        fleet_offset=fleet_offset,
        first_side=first_side,
        rope_mass=rope_mass,
        gross=gross,
        pull=_pull(shared, falls, gross),
        dead_end_pull=_dead_end_pull(shared, falls, gross),
        rope_needed=worked_out(_sum, rope.most, shared.kept),
        rope_spared=rope.spared,
        layers=layers,
        turns_left=worked_out(lambda length, most: turns_left(spool, length, most), figures.rope_length, rope.most),
        permitted_pull=worked_out(lambda there: permitted_pull(book.winch, spool, there), layers),
        line_speed=worked_out(lambda there: slowest_speed(book.winch, spool, there), layers),
    )


def _pull(shared: LiftCase, falls: int, gross: Figure) -> Figure:
    """What the lead line pulls at the drum, raising [N]."""
    figures = shared.figures
    return worked_out(
        lambda mass, share, guides: lead_line_pull(mass * GRAVITY, falls, share, guides),
        gross,
        figures.sheave_efficiency,
        figures.guide_sheaves,
    )


def _dead_end_pull(shared: LiftCase, falls: int, gross: Figure) -> Figure:
    """What the dead end holds, lowering [N]."""
    eta = shared.figures.sheave_efficiency
    return worked_out(lambda mass, share: dead_end_pull(mass * GRAVITY, falls, share), gross, eta)


def _layers(shared: LiftCase, rope: _RopeOut) -> Layers | Missing | Impossible:
    """The drum layers of the last turn, with the hook high and low."""
    return worked_out(
        lambda length, least, most: layers_between(shared.spool, length, least, most),
        shared.figures.rope_length,
        rope.least,
        rope.most,
    )


def _of_pattern(reeved: Reeved | None, lacking: Missing | None) -> tuple[Figure, Figure, Figure, Figure]:
    if reeved is not None:
        return reeved.twist_length, reeved.pull_offset, reeved.fleet_offset, reeved.first_side
    nothing = lacking or Missing(())
    return nothing, nothing, nothing, nothing


@dataclass(frozen=True, slots=True)
class _RopeOut:
    least: Figure  # hook at its highest [m]
    most: Figure  # hook at its lowest [m]
    spared: Figure  # between the dead ends on file, where the pattern is not [m]


def _rope_out(shared: LiftCase, falls: int, reeved: Reeved | None) -> _RopeOut:
    at, head_sheave = shared.geometry, shared.book.head.sheave_diameter
    end_least, end_most = _dead_end_adds(shared, falls, reeved)
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


def _dead_end_adds(shared: LiftCase, falls: int, reeved: Reeved | None) -> tuple[Figure, Figure]:
    """What the place of the dead end adds to the rope: of the pattern, or the bounds of the places on file."""
    if reeved is None and dead_end_side(falls) == "head":
        return shared.anchors_least, shared.anchors_most
    adds = dead_end_add(shared.book, shared.block, "block" if reeved is None else reeved.pattern.dead_end)
    return adds, adds


def _sum(a: float, b: float) -> float:
    return a + b


def _total(a: float, b: float, c: float) -> float:
    return a + b + c


def _difference(a: float, b: float) -> float:
    return a - b
