"""Limits of the rope and the drum, the slow way.

In:    one situation.
Out:   one slow limit each.
Never: the product's limits.
"""

from __future__ import annotations

from dataclasses import replace
from math import atan

from becket.book.charts import Fleet
from becket.verdict import Verdict
from tests.slow_evaluation.answer import BrokenError, MissingError, SlowLimit, harshest, need
from tests.slow_evaluation.boom import straight_rope
from tests.slow_evaluation.situation import G, Situation
from tests.slow_evaluation.tackle import block_that_comes_down, tensions


def raising(s: Situation) -> float:
    """Return the pull at the drum, raising [N]."""
    guides = s.book.winch.guide_sheaves
    if guides is None:
        raise MissingError("guide sheaves")
    return s.once("raising", lambda: tensions(s.gross() * G, s.falls, s.passed_on(), guides)[0])


def at_dead_end(s: Situation) -> float:
    """Return the tension of the last fall, lowering [N]."""
    return s.once("at_dead_end", lambda: tensions(s.gross() * G, s.falls, 1 / s.passed_on())[1][-1])


def pull_by_layer(s: Situation) -> SlowLimit:
    """Return the line pull against what the maker permits in the layers in use, the rope's strength left aside [-]."""
    answer = s.judged(raising(s) / s.permitted_pull(), counts_load=True)
    spare = min(laid.spare for laid in s.laid())
    return replace(answer, nearness=min(answer.nearness, spare))


def lead_line_pull(s: Situation) -> SlowLimit:
    def by_rope() -> SlowLimit:
        force = need(s.book.rope.breaking_force, "breaking force")
        return s.proved_factor(s.judged(raising(s) / (force / s.design_factor()), counts_load=True))

    return harshest([lambda: pull_by_layer(s), by_rope])


def rope_strength(s: Situation) -> SlowLimit:
    factor = need(s.book.rope.breaking_force, "breaking force") / raising(s)
    return s.proved_factor(s.judged(s.design_factor() / factor, counts_load=True))


def dead_end(s: Situation) -> SlowLimit:
    holds = need(s.book.rope.breaking_force, "breaking force") * need(s.book.dead_end.efficiency, "socket efficiency")
    factor = holds / at_dead_end(s)
    return s.proved_factor(s.judged(s.design_factor() * s.settings.dead_end_share / factor, counts_load=True))


def rope_length(s: Situation) -> SlowLimit:
    return s.proved_wraps(s.judged(s.rope_needed() / need(s.book.rope.length, "rope length")))


def wraps_left(s: Situation) -> float:
    """Return the turns on the drum, hook lowest [-]."""
    return min(laid.turns for laid in s.laid_low())


def wraps(s: Situation) -> SlowLimit:
    turns, least = wraps_left(s), s.least_wraps()
    if turns <= 0:
        return SlowLimit(verdict=Verdict.FAIL if least > 0 else Verdict.PASS, nearness=1.0)
    return s.proved_wraps(s.judged(least / turns))


def overhaul(s: Situation) -> SlowLimit:
    ratio = max(1 / s.passed_on(), s.settings.overhaul_ratio_least)
    mass = need(s.book.rope.mass, "rope mass")
    tension = need(s.book.winch.drag, "drag of the drum")
    for _ in range(int(need(s.book.winch.guide_sheaves, "guide sheaves"))):
        tension *= ratio
    steepest = max(s.ends, key=lambda end: end.angle)
    tension += mass * G * (steepest.z - need(s.book.winch.at_z, "place of the winch"))
    least_fall = need(s.book.switch.trips, "trip distance") + need(s.book.switch.margin, "margin")
    needed = block_that_comes_down(tension, ratio, s.falls, mass * G * least_fall) / G
    block = need(s.block.mass, "block mass")
    return s.three_ways(needed / block, 1 / s.settings.overhaul_margin, 1.0)


def fleet_angle(s: Situation) -> SlowLimit:
    fleet: Fleet = s.book.fleet

    def clear() -> SlowLimit:
        if min(s.heights_high()) <= 0:
            raise BrokenError("the hook is above the head")
        return SlowLimit(verdict=Verdict.PASS)

    def at_sheaves() -> SlowLimit:
        least = s.least_fall()
        if least <= 0:
            raise BrokenError("the hook is above the head")
        offsets = [top.side - low.side for top, low in s.fall_places]
        limit = need(fleet.sheave, "fleet limit of sheaves")
        free = sum(offsets) / len(offsets)
        worst = max(max(abs(x - free), abs(x)) for x in offsets)
        return s.judged(atan(worst / least) / limit)

    def at_drum() -> SlowLimit:
        limit = need(fleet.drum, "fleet limit of the drum")
        first = s.fall_places[0][0].side
        shortest = min(straight_rope(s.book, need(s.lift.boom, "boom length"), end) for end in s.ends)
        return s.judged(atan((s.book.winch.drum.width / 2 + abs(first)) / shortest) / limit)

    return harshest([clear, at_sheaves, at_drum])


def groove(s: Situation) -> SlowLimit:
    rope = s.book.rope.diameter
    made_for = (s.book.head.rope_diameter, s.block.rope_diameter, s.book.dead_end.rope_diameter)
    if any(d is not None and abs(d - rope) > 1e-9 for d in made_for):
        return SlowLimit(verdict=Verdict.FAIL, why="made for another rope")
    if None in made_for:
        raise MissingError("rope diameter of head, block or socket")
    return SlowLimit(verdict=Verdict.PASS)
