"""Where head, hook and rope are at both ends of the radius range and with the hook high and low.

In:    a book, a block and a lift.
Out:   one frozen record for all numbers of falls; what is missing is carried as missing.
Never: a verdict, the number of falls.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees

from becket.book.crane import Book
from becket.book.jobs import Lift
from becket.book.tackle import Block
from becket.errors import NotReachedError
from becket.limits.figures import Impossible, Missing, missing, on_file, trouble_of, worked_out
from becket.mechanics.boom import angle_of_radius, drum_to_head, head_place
from becket.mechanics.reach import first_arc

LENGTH_SLACK = 0.0005  # two boom lengths nearer than this are one: half a millimetre of print [m]


@dataclass(frozen=True, slots=True)
class End:
    """The boom, straight, at one end of the radius range."""

    angle: float  # [rad]
    head: tuple[float, float]  # shaft, x and z [m]


@dataclass(frozen=True, kw_only=True, slots=True)
class Geometry:
    """Places of one lift with one block. ``steep`` is the least radius, ``flat`` the greatest."""

    steep: End | Missing | Impossible
    flat: End | Missing | Impossible
    shaft_low: float | Missing | Impossible  # block shaft, hook at its lowest [m]
    shaft_high: float | Missing | Impossible  # hook at its highest [m]
    sag: float | Missing | Impossible  # of the level boom at this length [m]
    lead_steep: float | Missing | Impossible  # rope from the drum to the end of the first head sheave [m]
    lead_flat: float | Missing | Impossible
    straight_lead: float | Missing | Impossible  # shortest rope from drum to head shaft [m]
    greatest_fall: float | Missing | Impossible  # steepest boom, lowest hook, boom straight [m]
    flat_high: float | Missing | Impossible  # flattest boom, highest hook, boom straight: least rope out [m]
    flat_low: float | Missing | Impossible  # flattest boom, lowest hook, boom straight [m]
    steep_high: float | Missing | Impossible  # steepest boom, highest hook, boom straight [m]
    least_fall: float | Missing | Impossible  # flattest boom, highest hook, head lower by the sag [m]


def geometry_of(book: Book, block: Block, lift: Lift) -> Geometry:
    """Return the places of a lift, each worked out once [-].

    Args:
        book: the crane
        block: that hangs
        lift: its radius range, boom, top and bottom

    Source: docs/theory/limits.md, "Places".
    """
    near, far = _ends(book, lift)
    low, high = _heights(lift)
    hook = on_file(block.hook, "blocks.*.hook", block.name)
    shaft_low, shaft_high = worked_out(_sum, low, hook), worked_out(_sum, high, hook)
    sag = worked_out(lambda boom: _sag(book, boom), on_file(lift.boom, "lift.boom"))
    straight = tuple(worked_out(lambda end: _straight_lead(book, end, lift), end) for end in (near, far))
    arcs = tuple(worked_out(lambda end: first_arc(end.angle, book.head.sheave_diameter), end) for end in (near, far))
    flat_high = worked_out(_fall, far, shaft_high)
    return Geometry(
        steep=near,
        flat=far,
        shaft_low=shaft_low,
        shaft_high=shaft_high,
        sag=sag,
        lead_steep=worked_out(_sum, straight[0], arcs[0]),
        lead_flat=worked_out(_sum, straight[1], arcs[1]),
        straight_lead=worked_out(min, *straight),
        greatest_fall=worked_out(_fall, near, shaft_low),
        flat_high=flat_high,
        flat_low=worked_out(_fall, far, shaft_low),
        steep_high=worked_out(_fall, near, shaft_high),
        least_fall=worked_out(lambda fall, drop: fall - drop, flat_high, sag),
    )


def sector_lowest(book: Book, sector: str | None) -> float | Missing:
    """Return the lowest boom angle of a sector; none given, or all round: the highest of them [rad].

    Args:
        book: the crane
        sector: of the lift
    """
    lowest = book.boom.lowest
    if sector is not None and sector in lowest:
        return lowest[sector]
    if sector in (None, "all round") and lowest:
        return max(lowest.values())
    return missing("boom.lowest")


def _ends(book: Book, lift: Lift) -> tuple[End | Missing | Impossible, End | Missing | Impossible]:
    boom, radius = on_file(lift.boom, "lift.boom"), on_file(lift.radius, "lift.radius")
    lowest = sector_lowest(book, lift.sector)
    if isinstance(boom, Missing) or isinstance(radius, Missing) or isinstance(lowest, Missing):
        trouble = trouble_of((boom, radius, lowest))
        return trouble, trouble
    near, far = _end(book, boom, min(radius), lowest), _end(book, boom, max(radius), lowest)
    for end in (near, far):
        if isinstance(end, Impossible):
            return end, end  # the lift as a whole cannot be done
    return near, far


def _end(book: Book, boom: float, radius: float, lowest: float) -> End | Impossible:
    foot = (book.boom.foot_x, book.boom.foot_z)
    try:
        angle = angle_of_radius(radius, boom, foot, book.boom.head_drop)
    except NotReachedError:
        return Impossible(f"No boom angle of the {boom:.1f} m boom puts the head at a radius of {radius:.2f} m.")
    if not lowest - 1e-9 <= angle <= book.boom.highest + 1e-9:
        return Impossible(
            f"At a radius of {radius:.2f} m the {boom:.1f} m boom would stand at {degrees(angle):.2f} deg; "
            f"permitted are {degrees(lowest):.1f} to {degrees(book.boom.highest):.1f} deg."
        )
    return End(angle, head_place(boom, angle, foot, book.boom.head_drop))


def _heights(lift: Lift) -> tuple[float | Missing, float | Missing]:
    if lift.bottom is not None and lift.top is not None:
        return min(lift.bottom, lift.top), max(lift.bottom, lift.top)
    return on_file(lift.bottom, "lift.bottom"), on_file(lift.top, "lift.top")


def _sag(book: Book, boom: float) -> float | Missing:
    same = [sag for length, sag in (book.boom.sag or {}).items() if abs(length - boom) <= LENGTH_SLACK]
    return max(same) if same else missing("boom.sag")


def _straight_lead(book: Book, end: End, lift: Lift) -> float | Missing:
    winch = book.winch
    if winch.at_x is not None and winch.at_z is not None:
        return drum_to_head((winch.at_x, winch.at_z), end.head)
    if winch.lead_run is not None and lift.boom is not None:
        return winch.lead_run + lift.boom
    return missing("winch.at")


def _fall(end: End, shaft: float) -> float:
    return end.head[1] - shaft


def _sum(a: float, b: float) -> float:
    return a + b
