"""How far under the head the hook is left before the boom goes down.

In:    the boom over the ground, what hangs now and next, the hoist limit switch, settings.
Out:   least, most and target height shaft to shaft at a stated boom angle, with the bound that decides.
Never: a target where least is over most; a figure that is not on file.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil, degrees

from becket.book.crane import Book
from becket.method.hanging import Hanging
from becket.method.position import BoomPosition
from becket.method.root import zero_between
from becket.method.site import Site, ground_at_head
from becket.method.stance import Stance, at_length, greatest_growth, head_height, head_radius, lead_growth, stance_of
from becket.settings.values import Settings
from becket.verdict import Verdict

_SEARCH_STEPS = 24  # between threading height and slack height, where the plumb bound is looked for


@dataclass(frozen=True, kw_only=True)
class Way:
    """Everything that the way down and up needs, read once."""

    stance: Stance
    low: float  # angle of the low position [rad]
    highest: float  # of the position [rad]
    start: float  # angle at which the hook is set and the winch locked [rad]
    now: Hanging
    after: Hanging
    trips: float  # hoist limit switch, shaft to shaft [m]
    margin: float  # [m]
    settings: Settings


@dataclass(frozen=True, kw_only=True)
class Bound:
    """One bound of the height, shaft to shaft at the stated angle."""

    name: str
    height: float  # [m]
    why: str
    helps: str  # what would move it


@dataclass(frozen=True, kw_only=True)
class RopeToLeave:
    """The hook under the head, shaft to shaft, boom at its re-reeving length and at ``at_angle``."""

    verdict: Verdict
    least: float  # [m]
    most: float  # [m]
    target: float | None  # None: least is over most [m]
    by_rope: float  # what the least alone asks for, rounded up; no target by itself [m]
    at_angle: float  # [rad]
    least_because: str
    most_because: str
    why: str  # which bound decides, or why there is no target and what would help
    least_bounds: tuple[Bound, ...]
    most_bounds: tuple[Bound, ...]


def missing_for_leave(book: Book) -> tuple[str, ...]:
    """Return the fields that rope to leave needs and that are not on file [-].

    Args:
        book: the crane book

    Source: docs/theory/method.md, "What is needed".
    """
    winch, switch = book.winch, book.switch
    missing = [] if winch.at_x is not None and winch.at_z is not None else ["winch.at or winch.lead_run"]
    if winch.lead_run is not None:
        missing = []
    return tuple(
        missing + [f"switch.{n}" for n, v in (("trips", switch.trips), ("margin", switch.margin)) if v is None]
    )


def way_of(book: Book, settings: Settings, position: BoomPosition, hanging: tuple[Hanging, Hanging], site: Site) -> Way:
    """Return the way down and up at a position [SI].

    Args:
        book: the crane book; nothing of ``missing_for_leave``
        settings: angle at which the hook is set
        position: where the head is laid
        hanging: now and next
        site: ground at the head

    Source: docs/theory/method.md, "Rope to leave".
    """
    sag = at_length(book.boom.sag or {}, position.length)
    return Way(
        stance=stance_of(book, position.length, sag or 0.0, ground_at_head(site)),
        low=position.angle,
        highest=position.highest,
        start=min(settings.leave_angle, position.highest),
        now=hanging[0],
        after=hanging[1],
        trips=book.switch.trips or 0.0,
        margin=book.switch.margin or 0.0,
        settings=settings,
    )


def rope_to_leave(way: Way) -> RopeToLeave:
    """Return least, most and target of the hook's height under the head [m].

    Args:
        way: boom, blocks, switch

    Source: docs/theory/method.md, eq. 6 to 13.
    """
    lows, mosts = _least_bounds(way), _most_bounds(way)
    least, most = max(lows, key=lambda b: b.height), min(mosts, key=lambda b: b.height)
    by_rope = _rounded_up(way.settings.leave_factor * least.height, way.settings.leave_step)
    possible = least.height <= most.height
    helps = "; ".join(dict.fromkeys([*least.helps.split("; "), *most.helps.split("; ")]))
    why = (
        f"{least.name} decides: {least.why}"
        if possible
        else f"least {least.height:.2f} m ({least.name}: {least.why}) is over most {max(most.height, 0.0):.2f} m "
        f"({most.name}: {most.why}); what would help: {helps}"
    )
    return RopeToLeave(
        verdict=Verdict.PASS if possible else Verdict.FAIL,
        least=least.height,
        most=most.height,
        target=min(by_rope, most.height) if possible else None,
        by_rope=by_rope,
        at_angle=way.start,
        least_because=f"{least.name}: {least.why}",
        most_because=f"{most.name}: {most.why}",
        why=why,
        least_bounds=lows,
        most_bounds=mosts,
    )


def low_span(way: Way) -> float:
    """Return the distance head shaft to the new block's shaft at the low position, s [m].

    Args:
        way: boom and blocks

    Source: docs/theory/method.md, eq. 6.
    """
    return head_height(way.stance, way.low) - way.after.stands


def new_span(way: Way, height: float, angle: float, side: int = 1) -> float:
    """Return head shaft to block shaft on the new falls, ropes tight [m].

    Args:
        way: boom and blocks
        height: of the hook under the head when the winch was locked [m]
        angle: of the boom [rad]
        side: sign of an unknown lead change [-]

    Source: docs/theory/method.md, eq. 12.
    """
    rope = way.now.falls * height + way.now.arcs - lead_growth(way.stance, way.start, angle, side)
    return (rope - way.after.arcs) / way.after.falls


def block_place(way: Way, height: float, side: int = 1) -> float | None:
    """Return where the block stands, from the slewing axis; None: it never touches [m].

    The block stands where it touched. Another block is set on the plumb mark of the head in the low position.

    Args:
        way: boom and blocks
        height: of the hook under the head when the winch was locked [m]
        side: sign of an unknown lead change [-]

    Source: docs/theory/method.md, "Where the block stands".
    """
    if way.now.state.block != way.after.state.block:
        return head_radius(way.stance, way.low)
    angle = touch_angle(way, height, side)
    return None if angle is None else head_radius(way.stance, angle)


def touch_angle(way: Way, height: float, side: int = 1) -> float | None:
    """Return the angle at which the block touches, upright, falls tight; None: not between start and low [rad].

    Args:
        way: boom and blocks
        height: of the hook under the head when the winch was locked [m]
        side: sign of an unknown lead change [-]

    Source: docs/theory/method.md, eq. 10.
    """

    def over_ground(angle: float) -> float:
        span = height - lead_growth(way.stance, way.start, angle, side) / way.now.falls
        return head_height(way.stance, angle) - way.now.touches - span

    return zero_between(over_ground, way.low, way.start)


def lift_off_angle(way: Way, height: float, side: int = 1) -> float | None:
    """Return the angle at which the block leaves the ground, None: not between low and highest [rad].

    Args:
        way: boom and blocks
        height: of the hook under the head when the winch was locked [m]
        side: sign of an unknown lead change [-]

    Source: docs/theory/method.md, eq. 12.
    """
    return zero_between(
        lambda angle: head_height(way.stance, angle) - way.after.touches - new_span(way, height, angle, side),
        way.low,
        way.highest,
    )


def plumb_share(way: Way, height: float, side: int = 1) -> float | None:
    """Return how far the head at lift-off is beside the plumb of the block, in spans; None: no lift-off [-].

    Args:
        way: boom and blocks
        height: of the hook under the head when the winch was locked [m]
        side: sign of an unknown lead change [-]

    Source: docs/theory/method.md, eq. 13.
    """
    lift_off, place = lift_off_angle(way, height, side), block_place(way, height, side)
    if lift_off is None or place is None:
        return None
    return abs(head_radius(way.stance, lift_off) - place) / new_span(way, height, lift_off, side)


def _least_bounds(way: Way) -> tuple[Bound, ...]:
    a, b, settings = way.now.falls, way.after.falls, way.settings
    growth = lead_growth(way.stance, way.start, way.low, +1)
    arcs = way.after.arcs - way.now.arcs
    threading = b * (low_span(way) + settings.leave_rope_per_fall) + settings.leave_rope_dead_end + arcs + growth
    greatest = greatest_growth(way.stance, way.start, way.low)
    up = b * (way.trips + settings.switch_up_clear) + arcs + greatest
    another = "another permitted position whose head comes lower"
    return (
        Bound(
            name="threading",
            height=threading / a,
            why=f"rope for {b} falls, the hands and the dead end out of {a} hanging",
            helps=f"{another}; winding in with one fall; a stop between on another number of falls",
        ),
        Bound(
            name="switch, going down",
            height=way.trips + way.margin + greatest / a,
            why="the hook climbs toward the head as the boom comes down, and stays clear of the hoist limit switch",
            helps="another permitted boom length",
        ),
        Bound(
            name="switch, coming up",
            height=up / a,
            why=f"the block comes up on {b} falls clear of the hoist limit switch",
            helps="a stop between on another number of falls",
        ),
    )


def _most_bounds(way: Way) -> tuple[Bound, ...]:
    a, b, settings = way.now.falls, way.after.falls, way.settings
    growth = lead_growth(way.stance, way.start, way.low, -1)
    slack = low_span(way) + (settings.leave_slack_most + growth) / a
    at_highest = lead_growth(way.stance, way.start, way.highest, -1)
    rise = head_height(way.stance, way.highest) - way.after.touches
    return (
        Bound(
            name="slack on the ground",
            height=slack,
            why=f"{settings.leave_slack_most:.0f} m of slack rope is the most that people can manage "
            f"({settings.named('leave_slack_most')})",
            helps="winding in with one fall",
        ),
        Bound(
            name="lift-off",
            height=(b * rise + way.after.arcs - way.now.arcs + at_highest) / a,
            why=f"the block is off the ground by {degrees(way.highest):.1f} deg, the highest angle of the position",
            helps="another permitted boom length; winding in with one fall",
        ),
        _plumb_bound(way, slack),
    )


def _plumb_bound(way: Way, slack: float) -> Bound:
    """Return the height over which the head at lift-off is too far beside the plumb of the block [m]."""
    share = way.settings.leave_plumb_share
    return Bound(
        name="plumb",
        height=min(_plumb_height(way, slack, side) for side in ((1,) if way.stance.drum is not None else (1, -1))),
        why=f"at lift-off the head is beside the plumb of the block by {share:.0%} of the span "
        f"({way.settings.named('leave_plumb_share')}), more would drag the block",
        helps="a stop between on another number of falls; a block that is set anew on the plumb of the head",
    )


def _plumb_height(way: Way, slack: float, side: int) -> float:
    def over(height: float) -> float:
        share = plumb_share(way, height, side)
        return -1.0 if share is None else share - way.settings.leave_plumb_share

    # the new falls are just tight at the low position: under this height no rope is left to thread
    tight = (way.after.falls * low_span(way) + way.after.arcs - way.now.arcs) / way.now.falls
    low = max(tight + lead_growth(way.stance, way.start, way.low, side) / way.now.falls, 0.05)
    if over(low) > 0:
        return low
    step = max(slack - low, 0.0) / _SEARCH_STEPS
    for i in range(_SEARCH_STEPS):
        if over(low + (i + 1) * step) > 0:
            return zero_between(over, low + i * step, low + (i + 1) * step, 1e-7) or low + i * step
    return max(slack, low)


def _rounded_up(height: float, step: float) -> float:
    """Return a height rounded up to a step, a hair of float error forgiven [m]."""
    return round(ceil(height / step - 1e-9) * step, 9)
