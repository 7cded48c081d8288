"""The way down and up, boom derricking in steps, winch locked.

In:    a way (boom, blocks, switch) and the height at which the hook was set.
Out:   samples of the whole run and what they show: touching, weight window, slack, tight, lift-off, least distances.
Never: winch motion, telescoping, a block that sinks into the ground, rope that grows.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from math import degrees, radians

from becket.method.hanging import Hanging
from becket.method.leave import Way, block_place
from becket.method.root import zero_between
from becket.method.stance import angle_of_head, head_height, head_radius, lead_growth
from becket.reeving.finding import Finding
from becket.verdict import Verdict, worst

STEP = radians(0.25)
_ROUNDING = 1e-6  # heights equal to the micrometre are equal [m]


@dataclass(frozen=True, kw_only=True)
class Sample:
    """One moment. Heights are above the ground at the head."""

    way: str  # "down" on the old falls, "up" on the new
    angle: float  # [rad]
    lead: float  # growth of the rope from drum to head since the winch was locked [m]
    head_x: float  # from the slewing axis [m]
    head_height: float  # [m]
    block_x: float | None  # [m]
    block_height: float  # of the shaft [m]
    falls: int
    arcs: float  # rope on the sheaves [m]
    slack: float  # [m]
    block: str  # "hangs", "touches" (upright or tipping, falls tight) or "stands" (falls slack)

    @property
    def span(self) -> float:
        """Head shaft to block shaft [m]."""
        return self.head_height - self.block_height

    @property
    def rope(self) -> float:
        """Rope between where the drum held it and the dead end: lead growth, arcs, falls, slack [m]."""
        return self.lead + self.arcs + self.falls * self.span + self.slack


@dataclass(frozen=True, kw_only=True)
class Lowering:
    """What a run shows. An angle that the run does not come to is None."""

    verdict: Verdict
    height: float  # of the hook under the head when the winch was locked [m]
    touches_angle: float | None  # block upright, falls tight [rad]
    weight_window: tuple[float, float] | None  # angles between which the switch weight comes off [rad]
    span_at_low: float  # head shaft to the new block's shaft [m]
    slack_at_low: float  # on the old falls [m]
    slack_after: float  # on the new falls, at the low position [m]
    lead_change: float  # growth of the rope from drum to head down to the low position [m]
    tight_angle: float | None  # new falls tight, block standing [rad]
    tight_head_height: float | None  # [m]
    lift_off_angle: float | None  # [rad]
    off_plumb: float | None  # head beside the plumb of the block at lift-off [m]
    span_at_lift_off: float | None  # [m]
    least_head_clearance: float  # least distance head shaft to block shaft on the whole way [m]
    least_hanging_down: float  # the same while the old falls carry the block [m]
    least_hanging_up: float | None  # while the new falls carry it; None: never [m]
    clear_over_block: float  # what is left over the distance that the manual wants clear [m]
    findings: tuple[Finding, ...]
    samples: tuple[Sample, ...]


def lower_and_raise(way: Way, height: float, step: float = STEP) -> Lowering:
    """Return the whole way down and up with the hook set at a height [SI].

    Args:
        way: boom, blocks, switch
        height: hook under the head, shaft to shaft, at the angle where the winch is locked [m]
        step: of the boom's angle between samples; the moments are found inside it [rad]

    Source: docs/theory/method.md, "The way down and up".
    """
    runs = [_run(way, height, side, step) for side in ((1,) if way.stance.drum is not None else (1, -1))]
    return runs[0] if len(runs) == 1 else _worse(runs[0], runs[1])


def _run(way: Way, height: float, side: int, step: float) -> Lowering:
    down = tuple(_march(_down_at(way, height, side), (way.start, way.low), step))
    place = block_place(way, height, side)
    rope = way.now.falls * height + way.now.arcs
    up = tuple(_march(_up_at(way, rope, place, side), (way.low, way.highest), step))
    touches = _first_angle(down, lambda s: s.head_height - way.now.touches - s.span, _down_at(way, height, side))
    raised = _up_at(way, rope, place, side)

    def over_shaft(shaft: float) -> Callable[[Sample], float]:
        return lambda s: _tight_span(way.after, rope - s.lead) - (s.head_height - shaft)

    tight = _first_angle(up, over_shaft(way.after.stands), raised)
    lift_off = _first_angle(up, over_shaft(way.after.touches), raised)
    return _seen(way, height, (down, up), (touches, tight, lift_off), place)


def _march(at: Callable[[float], Sample], ends: tuple[float, float], step: float) -> Iterator[Sample]:
    """Yield the samples from one angle to another."""
    steps = max(1, int(abs(ends[1] - ends[0]) / step) + 1)
    for i in range(steps + 1):
        yield at(ends[0] + (ends[1] - ends[0]) * i / steps)


def _down_at(way: Way, height: float, side: int) -> Callable[[float], Sample]:
    rope = way.now.falls * height + way.now.arcs
    place = block_place(way, height, side) if way.now.state.block == way.after.state.block else None
    return lambda angle: _moment(way, "down", (way.now, rope, place), angle, side)


def _up_at(way: Way, rope: float, place: float | None, side: int) -> Callable[[float], Sample]:
    return lambda angle: _moment(way, "up", (way.after, rope, place), angle, side)


def _moment(way: Way, name: str, tackle: tuple[Hanging, float, float | None], angle: float, side: int) -> Sample:
    """Return where head, block and rope are at one angle [SI]."""
    hanging, rope, place = tackle
    lead = lead_growth(way.stance, way.start, angle, side)
    head = head_height(way.stance, angle)
    span = _tight_span(hanging, rope - lead)
    if head - span >= hanging.touches - _ROUNDING:
        block, shaft = "hangs", head - span
    elif head - span >= hanging.stands:
        block, shaft = "touches", head - span
    else:
        block, shaft = "stands", hanging.stands
    return Sample(
        way=name,
        angle=angle,
        lead=lead,
        head_x=head_radius(way.stance, angle),
        head_height=head,
        block_x=head_radius(way.stance, angle) if block == "hangs" else place,
        block_height=shaft,
        falls=hanging.falls,
        arcs=hanging.arcs,
        slack=max(0.0, hanging.falls * (span - (head - shaft))),
        block=block,
    )


def _tight_span(hanging: Hanging, rope: float) -> float:
    return (rope - hanging.arcs) / hanging.falls


def _first_angle(
    samples: tuple[Sample, ...], over: Callable[[Sample], float], at: Callable[[float], Sample]
) -> float | None:
    """Return the first angle of a run at which something changes sign, found again inside its step [rad]."""
    for one, other in pairwise(samples):
        if (over(one) > 0) != (over(other) > 0):
            return zero_between(lambda angle: over(at(angle)), one.angle, other.angle)
    return None


def weight_window(way: Way) -> tuple[float, float] | None:
    """Return the angles between which the switch weight is in reach and not yet on the block, None: nowhere [rad].

    Args:
        way: boom, blocks, switch

    Source: docs/theory/method.md, eq. 11.
    """
    settings = way.settings
    lowest = way.now.stands + way.trips + settings.weight_window_clear
    highest = settings.weight_reach + way.trips
    first, last = angle_of_head(way.stance, lowest), angle_of_head(way.stance, highest)
    if lowest > highest or head_height(way.stance, way.low) > highest:
        return None
    first = way.low if first is None else max(first, way.low)
    last = way.start if last is None else min(last, way.start)
    return (first, last) if first <= last else None


def _seen(
    way: Way,
    height: float,
    samples: tuple[tuple[Sample, ...], tuple[Sample, ...]],
    angles: tuple[float | None, float | None, float | None],
    place: float | None,
) -> Lowering:
    """Return what the samples show [SI]."""
    (down, up), (touches, tight, lift_off) = samples, angles
    head = head_height(way.stance, way.low)
    at_lift_off = head_height(way.stance, lift_off) - way.after.touches if lift_off is not None else None
    low = down[-1]
    found = Lowering(
        verdict=Verdict.UNKNOWN,
        height=height,
        touches_angle=touches,
        weight_window=weight_window(way),
        span_at_low=head - way.after.stands,
        slack_at_low=max(0.0, way.now.falls * (height - (head - way.after.stands)) - low.lead),
        slack_after=up[0].slack,
        lead_change=low.lead,
        tight_angle=tight,
        tight_head_height=None if tight is None else head_height(way.stance, tight),
        lift_off_angle=lift_off,
        off_plumb=None if lift_off is None or place is None else abs(head_radius(way.stance, lift_off) - place),
        span_at_lift_off=at_lift_off,
        least_head_clearance=min(s.span for s in down + up),
        least_hanging_down=min((s.span for s in down if s.block == "hangs"), default=height),
        least_hanging_up=_least_hanging(up, at_lift_off),
        clear_over_block=min(head - h.stands - h.clear for h in (way.now, way.after)),
        findings=(),
        samples=down + up,
    )
    return _judged(way, found)


def _least_hanging(run: tuple[Sample, ...], at_lift_off: float | None) -> float | None:
    """Return the least distance shaft to shaft while the falls carry the block, None: never [m]."""
    spans = [s.span for s in run if s.block == "hangs"]
    return min(spans if at_lift_off is None else [*spans, at_lift_off], default=None)


def _judged(way: Way, found: Lowering) -> Lowering:
    judged = (judge(way, found) for judge in JUDGES)
    from_judging = tuple(finding for finding in judged if finding is not None)
    return replace(found, verdict=worst(f.verdict for f in from_judging), findings=from_judging)


def _finding(name: str, is_good: bool, good: str, bad: str) -> Finding:
    return Finding(name=name, verdict=Verdict.PASS if is_good else Verdict.FAIL, why=good if is_good else bad)


def _block_touches(way: Way, found: Lowering) -> Finding:
    angle = found.touches_angle
    return _finding(
        "block touches",
        angle is not None,
        f"the block touches, upright, at {degrees(angle or 0.0):.1f} deg",
        f"with the hook {found.height:.2f} m under the head the block does not come to touch between "
        f"{degrees(way.start):.1f} deg and the low position",
    )


def _hoist_limit_down(way: Way, found: Lowering) -> Finding:
    need = way.trips + way.margin
    return _finding(
        "two-block, going down",
        found.least_hanging_down >= need - _ROUNDING,
        f"hook to head stays {found.least_hanging_down:.2f} m, {need:.2f} m wanted, while the block hangs",
        f"the hook climbs to {found.least_hanging_down:.2f} m under the head before it touches; wanted: {need:.2f} m",
    )


def _hoist_limit_up(way: Way, found: Lowering) -> Finding:
    need, have = way.trips + way.settings.switch_up_clear, found.least_hanging_up
    return _finding(
        "two-block, coming up",
        have is not None and have >= need - _ROUNDING,
        f"hook to head is {have or 0.0:.2f} m at lift-off, {need:.2f} m wanted, and grows from there",
        f"hook to head is {have or 0.0:.2f} m at lift-off; {need:.2f} m is wanted",
    )


def _weight_comes_off(way: Way, found: Lowering) -> Finding:
    window, touches = found.weight_window, found.touches_angle
    is_good = window is not None and touches is not None and touches >= window[0]
    return _finding(
        "weight window",
        is_good,
        "the switch weight is in reach, and not yet on the block, while the block stands",
        "there is no angle at which the block stands and the switch weight is in reach and not yet on the block",
    )


def _head_clears_block(way: Way, found: Lowering) -> Finding:
    return _finding(
        "head over the block",
        found.clear_over_block >= -_ROUNDING,
        f"the head stays clear of the standing block, {max(found.clear_over_block, 0.0):.2f} m more than wanted",
        f"the head comes {-found.clear_over_block:.2f} m nearer to the standing block than the manual wants clear",
    )


def _switch_over_block(way: Way, found: Lowering) -> Finding:
    clear = max(way.now.clear, way.after.clear)
    return _finding(
        "switch distance",
        way.trips >= clear - _ROUNDING,
        "the switch trips before the head meets the block",
        f"switch.trips {way.trips:.2f} m is under the {clear:.2f} m that head and block need between their shafts: "
        "it would trip only after they met; see the manual's page on the hoist limit switch",
    )


def _ropes_are_threaded_slack(way: Way, found: Lowering) -> Finding:
    return _finding(
        "rope for the new falls",
        found.slack_after > 0,
        f"{found.slack_after:.1f} m of the new falls lies slack at the low position",
        "the new falls would be tight at the low position: too little rope to thread",
    )


def _block_lifts_off(way: Way, found: Lowering) -> Finding:
    angle = found.lift_off_angle
    return _finding(
        "lift-off",
        angle is not None,
        f"the block leaves the ground at {degrees(angle or 0.0):.1f} deg",
        f"the block does not leave the ground up to {degrees(way.highest):.1f} deg, the highest angle of the position",
    )


def _block_is_not_dragged(way: Way, found: Lowering) -> Finding | None:
    if found.off_plumb is None or found.span_at_lift_off is None:
        return None
    most = way.settings.leave_plumb_share * found.span_at_lift_off
    return _finding(
        "plumb",
        found.off_plumb <= most + _ROUNDING,
        f"at lift-off the head is {found.off_plumb:.2f} m beside the plumb of the block, at most {most:.2f} m",
        f"at lift-off the head is {found.off_plumb:.2f} m beside the plumb of the block; over {most:.2f} m drags it",
    )


JUDGES: tuple[Callable[[Way, Lowering], Finding | None], ...] = (
    _block_touches,
    _hoist_limit_down,
    _weight_comes_off,
    _head_clears_block,
    _switch_over_block,
    _ropes_are_threaded_slack,
    _hoist_limit_up,
    _block_lifts_off,
    _block_is_not_dragged,
)


def _worse(one: Lowering, other: Lowering) -> Lowering:
    """Return the worse of the two runs that an unknown place of the drum leaves possible [SI].

    The angle of touching is the one in the middle: it is foretold, then read.
    """
    return Lowering(
        verdict=worst((one.verdict, other.verdict)),
        height=one.height,
        touches_angle=_middle(one.touches_angle, other.touches_angle),
        weight_window=one.weight_window,
        span_at_low=one.span_at_low,
        slack_at_low=max(one.slack_at_low, other.slack_at_low),
        slack_after=min(one.slack_after, other.slack_after),
        lead_change=max(one.lead_change, other.lead_change),
        tight_angle=_later(one.tight_angle, other.tight_angle),
        tight_head_height=_later(one.tight_head_height, other.tight_head_height),
        lift_off_angle=_later(one.lift_off_angle, other.lift_off_angle),
        off_plumb=_later(one.off_plumb, other.off_plumb),
        span_at_lift_off=_middle(one.span_at_lift_off, other.span_at_lift_off),
        least_head_clearance=min(one.least_head_clearance, other.least_head_clearance),
        least_hanging_down=min(one.least_hanging_down, other.least_hanging_down),
        least_hanging_up=None
        if one.least_hanging_up is None or other.least_hanging_up is None
        else min(one.least_hanging_up, other.least_hanging_up),
        clear_over_block=min(one.clear_over_block, other.clear_over_block),
        findings=tuple(
            a if b.verdict is Verdict.PASS else b for a, b in zip(one.findings, other.findings, strict=False)
        ),
        samples=one.samples + other.samples,
    )


def _later(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else max(one, other)


def _middle(one: float | None, other: float | None) -> float | None:
    return None if one is None or other is None else (one + other) / 2
