"""Checks of how the falls and the block hang.

In:    a pattern with its crane and the places of its falls.
Out:   findings and the numbers behind them.
Never: a place, an efficiency or a mass that is not on file.
"""

from __future__ import annotations

from math import degrees, isinf

from becket.mechanics.fleet import closest_distance, fall_offsets, fleet_angle
from becket.mechanics.tackle import lowering_tensions, raising_tensions, static_tensions
from becket.mechanics.tilt import pull_offset, tilt_angle
from becket.mechanics.twist import twist_length
from becket.reeving.crossings import Crossing, PlanPlaces, find_crossings, nearest_falls, plan_places, turned
from becket.reeving.finding import Finding, PatternCase
from becket.reeving.places import FallPlaces
from becket.reeving.wording import (
    degrees_asked,
    metres_asked,
    metres_there,
    millimetres_asked,
    millimetres_there,
    not_on_file,
)
from becket.verdict import Verdict

_HOOK_PAGE = "on the block's plate or the page of the manual on hook blocks"


def falls_that_rub(case: PatternCase) -> Finding:
    """Return whether every two falls keep clear of each other [-].

    Args:
        case: the pattern, the fall lengths and the load to look at

    Source: docs/theory/reeving.md, "Crossing".
    """
    name, plan, lengths = "falls_that_rub", _plan(case), _lengths(case)
    if case.places is not None and len(case.places.tops) == 1:
        return _passes(name, "One fall: nothing to rub against.")
    if plan is None or not lengths:
        return _unknown(name, _lacking(case) + _lengths_lacking(case))
    if min(lengths) <= 0:
        return Finding(name=name, verdict=Verdict.FAIL, why="The block would be above the head.")
    nearest = nearest_falls(plan, lengths)
    need = case.settings.rub_distance * case.book.rope.diameter
    if nearest is None:
        return _passes(name, "One fall: nothing to rub against.")
    pair = f"Falls {nearest.falls[0]} and {nearest.falls[1]}"
    at = f"at a fall length of {metres_there(nearest.fall_length)}"
    if nearest.distance < need:
        return Finding(
            name=name,
            verdict=Verdict.FAIL,
            why=f"{pair} come within {millimetres_there(nearest.distance)} of each other {at}, centre to centre; under "
            f"{millimetres_asked(need)} they rub ({case.settings.named('rub_distance')}). Look at the page again.",
        )
    return _passes(
        name,
        f"{pair} come nearest, {millimetres_there(nearest.distance)} {at}; {millimetres_asked(need)} keeps them "
        f"from rubbing ({case.settings.named('rub_distance')}).",
    )


def falls_that_cross(case: PatternCase) -> Finding:
    """Return which falls cross in the front view, and which of them on one face of the block [-].

    Args:
        case: the pattern, the fall lengths and the load to look at

    Source: docs/theory/reeving.md, "Crossing".
    """
    name, lengths = "falls_that_cross", _lengths(case)
    if case.places is not None and len(case.places.tops) == 1:
        return _passes(name, "One fall: nothing to cross.")
    if case.places is None or _plan(case) is None or not lengths:
        return _unknown(name, _lacking(case) + _lengths_lacking(case))
    crossings = find_crossings(case.places, lengths)
    if not crossings:
        return _passes(
            name,
            "No two falls cross in the front view, where the two of a sheave hang one behind the other; "
            "a picture draws them side by side.",
        )
    said = [_crossing_words(one) for one in crossings]
    if any(one.same_face is not False for one in crossings):
        page = f"page {case.pattern.page}" if case.pattern.page else "the page"
        said.append(f"Falls that cross on the same face are a common slip in typing a path: look at {page} again.")
    return _passes(name, " ".join(said))


def block_hangs_turned(case: PatternCase) -> Finding:
    """Return how far the block hangs turned without any torque in the rope; shown, not limited [-].

    Args:
        case: the pattern, the fall lengths and the load to look at

    Source: docs/theory/twist.md, eq. 3.
    """
    plan = _plan(case)
    if plan is None:
        return _unknown("hangs_turned", _lacking(case))
    if len(plan.tops) == 1:
        return _passes("hangs_turned", "One fall: the block turns freely.")
    return _passes("hangs_turned", f"The block hangs turned by {degrees_asked(turned(plan))}; shown, not limited.")


def block_tilts(case: PatternCase) -> Finding:
    """Return whether the block hangs upright, raising, lowering and standing, loaded and empty [-].

    Args:
        case: the pattern, the fall lengths and the load to look at

    Source: docs/theory/tilt.md, eq. 1 and 2.
    """
    if case.pattern.falls == 1:
        return _passes("tilt", "One fall: the block hangs under its rope.")
    angle = greatest_tilt(case)
    if angle is None:
        return _unknown("tilt", _tilt_lacking(case))
    settings = case.settings
    said = f"The block tilts by up to {degrees_asked(angle)}, empty or with {_load(case) or 0:.0f} kg on the hook"
    if angle <= settings.tilt_pass:
        return _passes("tilt", f"{said}; up to {_limit(settings.tilt_pass)} passes ({settings.named('tilt_pass')}).")
    if angle <= settings.tilt_fail:
        why = (
            f"{said}; over {_limit(settings.tilt_pass)} ({settings.named('tilt_pass')}) it is not proven. Look at the "
            "sheaves and the dead end on the page again."
        )
        return Finding(name="tilt", verdict=Verdict.UNKNOWN, why=why)
    why = (
        f"{said}; beyond {_limit(settings.tilt_fail)} ({settings.named('tilt_fail')}) the rope leaves its grooves. "
        "Look at the sheaves and the dead end on the page again."
    )
    return Finding(name="tilt", verdict=Verdict.FAIL, why=why)


def fleet(case: PatternCase) -> Finding:
    """Return how far askew the falls reach their sheaves at the shortest fall; shown, not judged [-].

    Args:
        case: the pattern, the fall lengths and the load to look at

    Source: docs/theory/fleet.md, eq. 1 to 3.
    """
    name = "fleet_angle"
    if case.places is None:
        return _unknown(name, _lacking(case))
    nearest = nearest_by_fleet(case)
    if nearest is None or case.least_fall is None:
        no_limit = (
            ()
            if case.book.fleet.sheave is not None
            else (
                "fleet angle limit at a sheave (fleet.sheave), in the manual's rope page or on the rope maker's sheet",
            )
        )
        return _unknown(name, no_limit + _lengths_lacking(case))
    if case.least_fall <= 0:
        return Finding(name=name, verdict=Verdict.FAIL, why="The block would be above the head.")
    free = fleet_angle(_greatest_offset(case.places, held=False), case.least_fall)
    held = fleet_angle(_greatest_offset(case.places, held=True), case.least_fall)
    return _passes(
        name,
        f"At {metres_there(case.least_fall)} under the head the falls reach their sheaves askew by up to "
        f"{degrees_asked(free)} hanging free, {degrees_asked(held)} held in the middle; from {metres_asked(nearest)} "
        f"on they stay within {_limit(case.book.fleet.sheave or 0.0)}. Shown, not judged: a lift judges it.",
    )


def block_turns_over(case: PatternCase) -> Finding:
    """Return the fall length at which the rope's torque would turn the block over; shown, not judged [-].

    Args:
        case: the pattern, the fall lengths and the load to look at

    Source: docs/theory/twist.md, eq. 4.
    """
    if case.places is not None and len(case.places.tops) == 1:
        return _passes("twist_length", "One fall is not a tackle: nothing but swivel and rope keep it from turning.")
    longest = longest_before_turning(case)
    if longest is None:
        return _unknown("twist_length", _lacking(case) + _torque_lacking(case))
    length = "at no fall length" if isinf(longest) else f"at a fall length of {metres_there(longest)}"
    return _passes(
        "twist_length",
        f"The rope's own torque would turn the block over {length}. Shown, not judged: a lift judges it.",
    )


def greatest_tilt(case: PatternCase) -> float | None:
    """Return the greatest tilt of the block; None: a figure is missing [rad]."""
    block, load, offsets = case.block, _load(case), _pull_offsets(case)
    if case.pattern.falls == 1:
        return 0.0
    if block is None or load is None or offsets is None:
        return None
    hook, mass, centre = block.hook, block.mass, block.mass_centre
    if hook is None or mass is None or centre is None:
        return None
    return max(tilt_angle(offset, on_hook, hook, mass, centre) for offset in offsets for on_hook in (load, 0.0))


def _pull_offsets(case: PatternCase) -> tuple[float, ...] | None:
    """How far the falls pull beside the block's middle plane, raising, lowering, standing; None: not known [m]."""
    eta = case.book.sheave_efficiency
    if case.places is None or eta is None:
        return None
    falls, lows = len(case.places.lows), [side for side, _ in case.places.lows]
    ways = (raising_tensions(1.0, falls, eta), lowering_tensions(1.0, falls, eta), static_tensions(1.0, falls))
    return tuple(pull_offset(tensions, lows) for tensions in ways)


def _load(case: PatternCase) -> float | None:
    """The load at which the loaded block is looked at [kg]."""
    if case.hook_load is not None or case.block is None:
        return case.hook_load
    return case.block.rated


def nearest_by_fleet(case: PatternCase) -> float | None:
    """Return the shortest fall at which every fall keeps the fleet angle; None: a figure is missing [m]."""
    limit = case.book.fleet.sheave
    if case.places is None or limit is None:
        return None
    offset = max(_greatest_offset(case.places, held=held) for held in (False, True))
    return closest_distance(offset, limit)


def longest_before_turning(case: PatternCase) -> float | None:
    """Return the twist length; None: one fall, or a figure is missing [m]."""
    plan, factor = _plan(case), case.book.rope.torque_factor
    if plan is None or factor is None or len(plan.tops) == 1:
        return None
    return twist_length(plan.tops, plan.lows, factor, case.book.rope.diameter)


def turned_by(case: PatternCase) -> float | None:
    """Return how far the block hangs turned; None: one fall, or a place is not on file [rad]."""
    plan = _plan(case)
    return None if plan is None or len(plan.tops) == 1 else turned(plan)


def crossings_of(case: PatternCase) -> tuple[Crossing, ...]:
    """Return the pairs of falls that cross; none where the places are not on file [-]."""
    lengths = _lengths(case)
    return find_crossings(case.places, lengths) if case.places is not None and lengths else ()


def _plan(case: PatternCase) -> PlanPlaces | None:
    return plan_places(case.places) if case.places is not None else None


def _lengths(case: PatternCase) -> tuple[float, ...]:
    if case.least_fall is None or case.greatest_fall is None:
        return ()
    return tuple(dict.fromkeys((case.least_fall, case.greatest_fall)))


def _greatest_offset(places: FallPlaces, *, held: bool) -> float:
    offsets = fall_offsets([side for side, _ in places.tops], [side for side, _ in places.lows], held)
    ends = zip(offsets, places.top_on_sheave, places.low_on_sheave, strict=True)
    return max((abs(offset) for offset, top, low in ends if top or low), default=0.0)


def _crossing_words(one: Crossing) -> str:
    faces = {True: "on the same face", False: "on different faces", None: "the face of the dead end is not on file"}
    return (
        f"Falls {one.falls[0]} and {one.falls[1]} cross in the front view, {faces[one.same_face]}, "
        f"{millimetres_there(one.distance)} apart."
    )


def _lacking(case: PatternCase) -> tuple[str, ...]:
    return case.places.missing if case.places is not None else case.lacking


def _lengths_lacking(case: PatternCase) -> tuple[str, ...]:
    if _lengths(case):
        return ()
    return ("fall length; of the pattern alone the trip distance (switch.trips), in the manual's page on the switch",)


def _torque_lacking(case: PatternCase) -> tuple[str, ...]:
    if case.book.rope.torque_factor is not None:
        return ()
    return ("torque factor of the rope (rope.torque_factor), on the rope's certificate or its maker's sheet",)


def _tilt_lacking(case: PatternCase) -> tuple[str, ...]:
    block = case.block
    figures = [] if case.places is not None else list(case.lacking)
    if case.book.sheave_efficiency is None:
        figures.append("efficiency of one sheave (sheave_efficiency), in the manual's data of the hoist")
    fields: tuple[str, ...] = ("hook", "mass", "mass_centre")
    for field in fields if case.hook_load is not None else ("rated", *fields):
        if block is not None and getattr(block, field) is None:
            figures.append(f"blocks.{block.name}.{field}, {_HOOK_PAGE}")
    return tuple(figures)


def _limit(angle: float) -> str:
    return f"{round(degrees(angle), 2):g} deg"


def _passes(name: str, why: str) -> Finding:
    return Finding(name=name, verdict=Verdict.PASS, why=why)


def _unknown(name: str, figures: tuple[str, ...]) -> Finding:
    return Finding(name=name, verdict=Verdict.UNKNOWN, why=not_on_file(figures))
