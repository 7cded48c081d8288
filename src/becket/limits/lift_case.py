"""One lift with one block: everything that is the same for all numbers of falls, worked out once.

In:    a book, settings, a block, a lift.
Out:   one frozen record; what is missing is carried as missing, never as a number.
Never: a verdict, the number of falls.
"""

from __future__ import annotations

from dataclasses import dataclass

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import Block
from becket.limits.book_figures import BookFigures, book_figures, dead_end_add
from becket.limits.breaking import LeastWraps, Strength, least_wraps_of, rope_strength_of
from becket.limits.chart import NotPermitted
from becket.limits.chart_page import ChartReading, chart_reading
from becket.limits.counted import second_line_mass, stowed_mass
from becket.limits.figures import Figure, Impossible, Missing, missing, on_file, worked_out
from becket.limits.geometry import End, Geometry, geometry_of
from becket.limits.winding import Spool, spool_of
from becket.mechanics.overhaul import drum_side_tension
from becket.mechanics.reach import wraps_length
from becket.settings.values import Settings


@dataclass(frozen=True, kw_only=True, slots=True)
class LiftCase:
    """What a lift with one block has for all numbers of falls."""

    book: Book
    settings: Settings
    block: Block
    lift: Lift
    geometry: Geometry
    figures: BookFigures
    spool: Spool
    load: Figure  # with the allowance of its basis [kg]
    rigging: Figure  # [kg]
    hook_load: Figure  # load and rigging [kg]
    stowed: Figure  # parts stowed on the boom [kg]
    second_line: Figure  # what hangs on it [kg]
    strength: Strength
    least_wraps: LeastWraps
    kept: Figure  # rope in the least wraps [m]
    ratio: Figure  # tension ratio over a sheave for overhaul [-]
    drum_side: Figure  # tension of the lead line at the head that turns the empty drum [N]
    anchors_least: Figure  # least that an anchor of the head adds to the rope [m]
    anchors_most: Figure  # most [m]
    chart: ChartReading | NotPermitted | Missing | Impossible


def lift_case(book: Book, settings: Settings, block: Block, lift: Lift) -> LiftCase:
    """Return what a lift has for all numbers of falls [-].

    Args:
        book: the crane
        settings: in force
        block: that hangs
        lift: what is asked

    Source: docs/theory/limits.md, "What hangs".
    """
    geometry, figures = geometry_of(book, block, lift), book_figures(book, block)
    load, rigging = _load(lift, settings), on_file(lift.rigging, "lift.rigging")
    wraps = least_wraps_of(book, settings)
    ratio = worked_out(lambda eta: max(1 / eta, settings.overhaul_ratio_least), figures.sheave_efficiency)
    anchors = [dead_end_add(book, block, f"head {name}") for name in book.head.anchors]
    return LiftCase(
        book=book,
        settings=settings,
        block=block,
        lift=lift,
        geometry=geometry,
        figures=figures,
        spool=spool_of(book.winch, book.rope.diameter, settings.pitch_share),
        load=load,
        rigging=rigging,
        hook_load=worked_out(_sum, load, rigging),
        stowed=stowed_mass(book, lift),
        second_line=second_line_mass(book),
        strength=rope_strength_of(book, settings),
        least_wraps=wraps,
        kept=worked_out(lambda turns: wraps_length(turns, book.winch.drum.diameter, book.rope.diameter), wraps.value),
        ratio=ratio,
        drum_side=_drum_side(book, figures, geometry, ratio),
        anchors_least=worked_out(_least, *anchors) if anchors else missing("head.anchors"),
        anchors_most=worked_out(_most, *anchors) if anchors else missing("head.anchors"),
        chart=chart_reading(book, lift, geometry),
    )


def _load(lift: Lift, settings: Settings) -> Figure:
    if lift.load is None:
        return missing("lift.load")
    return lift.load * (1 + settings.estimate_allowance) if lift.load_basis == "estimate" else lift.load


def _drum_side(book: Book, figures: BookFigures, geometry: Geometry, ratio: Figure) -> Figure:
    def tension(drag: float, k: float, guides: int, mass: float, end: End, drum: float) -> float:
        return drum_side_tension(drag, k, guides, mass, end.head[1] - drum)

    return worked_out(
        tension,
        on_file(book.winch.drag, "winch.drag"),
        ratio,
        figures.guide_sheaves,
        figures.rope_mass,
        geometry.steep,
        on_file(book.winch.at_z, "winch.at.z"),
    )


def _sum(a: float, b: float) -> float:
    return a + b


def _least(*values: float) -> float:
    return min(values)


def _most(*values: float) -> float:
    return max(values)
