"""One number of falls of one lift: everything the limits share, worked out once.

In:    a book, settings, a block, the number of falls, a lift with its geometry.
Out:   one frozen record; what is missing is carried as missing, never as a number.
Never: a verdict.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import Block, Pattern, State
from becket.limits.breaking import Strength, least_wraps_of, rope_strength_of
from becket.limits.figures import Impossible, Missing, missing, on_file, worked_out
from becket.limits.geometry import Geometry, geometry_of
from becket.limits.winding import Layers, Spool, layers_between, permitted_pull, slowest_speed, spool_of
from becket.mechanics.overhaul import GRAVITY
from becket.mechanics.reach import sheave_arcs, wraps_length
from becket.mechanics.tackle import dead_end_pull, lead_line_pull
from becket.reeving.counts import dead_end_side
from becket.reeving.pattern import find_pattern
from becket.reeving.places import FallPlaces, fall_places
from becket.settings.values import Settings

Figure = float | Missing | Impossible


@dataclass(frozen=True, kw_only=True, slots=True)
class LiftCase:
    """What a lift with one block has for all numbers of falls."""

    book: Book
    settings: Settings
    block: Block
    lift: Lift
    geometry: Geometry
    spool: Spool
    load: Figure  # with the allowance of its basis [kg]
    hook_load: Figure  # load and rigging [kg]
    strength: Strength
    kept: Figure  # rope in the least wraps [m]
    least_wraps: Figure  # turns that stay on the drum [-]
    least_wraps_doubt: str | None  # why that figure proves nothing


@dataclass(frozen=True, kw_only=True, slots=True)
class Case:
    """What one number of falls has. Masses in kg, forces in N, lengths in m."""

    shared: LiftCase
    falls: int
    needed_falls: int  # fewest of which the lead line pull does not fail, these at most
    pattern: Pattern | None
    places: FallPlaces | None
    rope_mass: Figure  # of the falls at the lowest hook, boom steepest
    gross: Figure  # hook load, block, rope in the falls
    weight: Figure  # the same as a force
    pull: Figure  # at the drum, raising
    dead_end_pull: Figure  # lowering
    out_most: Figure  # greatest rope out of the lift
    rope_needed: Figure  # greatest rope out and the least wraps
    rope_spared: Figure  # what another dead end on file could take off it; 0 where the pattern is on file
    layers: Layers | Missing | Impossible
    permitted_pull: Figure  # by layer
    line_speed: Figure  # the slower layer


def lift_case(book: Book, settings: Settings, block: Block, lift: Lift) -> LiftCase:
    """Return what a lift has for all numbers of falls [-].

    Args:
        book: the crane
        settings: in force
        block: that hangs
        lift: what is asked

    Source: docs/theory/limits.md, "What hangs".
    """
    allowance = 1 + settings.estimate_allowance if lift.load_basis == "estimate" else 1.0
    load = worked_out(lambda mass: mass * allowance, on_file(lift.load, "lift.load"))
    least_wraps, least_wraps_doubt = least_wraps_of(book, settings)
    return LiftCase(
        book=book,
        settings=settings,
        block=block,
        lift=lift,
        geometry=geometry_of(book, block, lift),
        spool=spool_of(book.winch, book.rope.diameter, settings.pitch_share),
        load=load,
        hook_load=worked_out(_sum, load, on_file(lift.rigging, "lift.rigging")),
        strength=rope_strength_of(book, settings),
        kept=worked_out(lambda wraps: wraps_length(wraps, book.winch.drum.diameter, book.rope.diameter), least_wraps),
        least_wraps=least_wraps,
        least_wraps_doubt=least_wraps_doubt,
    )


def case_of(shared: LiftCase, falls: int, needed_falls: int) -> Case:
    """Return what one number of falls has, each thing worked out once [-].

    Args:
        shared: the lift
        falls: ropes that carry the block [-]
        needed_falls: fewest of which the lead line pull does not fail, ``falls`` at most [-]

    Source: docs/theory/limits.md, "What hangs", "Rope" and "Layers".
    """
    book, geometry = shared.book, shared.geometry
    pattern = find_pattern(book, State(block=shared.block.name, falls=falls))
    per_metre = on_file(book.rope.mass, "rope.mass")
    rope_mass = worked_out(lambda fall, mass: falls * max(fall, 0.0) * mass, geometry.greatest_fall, per_metre)
    block_mass = on_file(shared.block.mass, "blocks.*.mass", shared.block.name)
    gross = worked_out(_total, shared.hook_load, block_mass, rope_mass)
    weight = worked_out(lambda mass: mass * GRAVITY, gross)
    eta = on_file(book.sheave_efficiency, "sheave_efficiency")
    guides = on_file(book.winch.guide_sheaves, "winch.guide_sheaves")
    rope = _rope_out(shared, falls, pattern)
    layers = worked_out(
        lambda length, least, most: layers_between(shared.spool, length, least, most),
        on_file(book.rope.length, "rope.length"),
        rope.least,
        rope.most,
    )
    return Case(
        shared=shared,
        falls=falls,
        needed_falls=needed_falls,
        pattern=pattern,
        places=fall_places(book, pattern) if pattern else None,
        rope_mass=rope_mass,
        gross=gross,
        weight=weight,
        pull=worked_out(lambda force, share, turning: lead_line_pull(force, falls, share, turning), weight, eta, guides),
        dead_end_pull=worked_out(lambda force, share: dead_end_pull(force, falls, share), weight, eta),
        out_most=rope.most,
        rope_needed=worked_out(_sum, rope.most, shared.kept),
        rope_spared=rope.spared,
        layers=layers,
        permitted_pull=worked_out(lambda there: permitted_pull(book.winch, shared.spool, there), layers),
        line_speed=worked_out(lambda there: slowest_speed(book.winch, shared.spool, there), layers),
    )


@dataclass(frozen=True, slots=True)
class _RopeOut:
    least: Figure  # hook at its highest [m]
    most: Figure  # hook at its lowest [m]
    spared: Figure  # between the dead ends on file, where the pattern is not [m]


def _rope_out(shared: LiftCase, falls: int, pattern: Pattern | None) -> _RopeOut:
    book, at = shared.book, shared.geometry
    block_sheave = (
        on_file(shared.block.sheave_diameter, "blocks.*.sheave_diameter", shared.block.name) if falls > 1 else 0.0
    )
    arcs = worked_out(lambda diameter: sheave_arcs(falls, diameter, book.head.sheave_diameter), block_sheave)
    end_least, end_most = _dead_end_adds(shared, falls, pattern)
    fixed = worked_out(_sum, arcs, on_file(book.dead_end.tail, "dead_end.tail"))
    high = worked_out(
        lambda a, fall_a, b, fall_b: min(a + falls * fall_a, b + falls * fall_b),
        at.lead_steep, at.steep_high, at.lead_flat, at.flat_high,
    )
    low = worked_out(
        lambda a, fall_a, b, fall_b: max(a + falls * fall_a, b + falls * fall_b),
        at.lead_steep, at.greatest_fall, at.lead_flat, at.flat_low,
    )
    return _RopeOut(
        worked_out(_total, high, fixed, end_least),
        worked_out(_total, low, fixed, end_most),
        worked_out(lambda most, least: most - least, end_most, end_least),
    )


def _dead_end_adds(shared: LiftCase, falls: int, pattern: Pattern | None) -> tuple[Figure, Figure]:
    """What the place of the dead end adds to the rope: of the pattern, or the bounds of the places on file."""
    if pattern is not None:
        adds = _dead_end_add(shared, pattern.dead_end)
        return adds, adds
    if dead_end_side(falls) == "block":
        adds = _dead_end_add(shared, "block")
        return adds, adds
    anchors = [_dead_end_add(shared, f"head {name}") for name in shared.book.head.anchors]
    if not anchors:
        return missing("head.anchors"), missing("head.anchors")
    return worked_out(_least, *anchors), worked_out(_most, *anchors)


def _dead_end_add(shared: LiftCase, dead_end: str) -> Figure:
    if dead_end == "block":
        becket, name = shared.block.becket, shared.block.name
        if becket is None:
            return missing("blocks.*.becket", name)
        return on_file(becket.below, "blocks.*.becket.above", name)
    name = dead_end.removeprefix("head ")
    anchor = shared.book.head.anchors.get(name)
    below = on_file(anchor.below if anchor else None, "head.anchors.*.below", name)
    return worked_out(lambda depth: -depth, below)


def _sum(a: float, b: float) -> float:
    return a + b


def _total(a: float, b: float, c: float) -> float:
    return a + b + c


def _least(*values: float) -> float:
    return min(values)


def _most(*values: float) -> float:
    return max(values)
