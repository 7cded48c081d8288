"""Limits of the block, the head and the pattern, the slow way.

In:    one situation.
Out:   one slow limit each.
Never: the product's limits.
"""

from __future__ import annotations

from math import cos, pi, sin

from becket.verdict import Verdict
from tests.slow_evaluation.answer import BrokenError, MissingError, SlowLimit, harshest, need
from tests.slow_evaluation.places import (
    dead_end_of,
    faults_of,
    hanging_turn,
    nearest_falls,
    plan_of,
    turned,
    twisting_turn,
)
from tests.slow_evaluation.seal import slow_is_confirmed
from tests.slow_evaluation.situation import Situation
from tests.slow_evaluation.tackle import tensions


def block_rating(s: Situation) -> SlowLimit:
    return s.judged(s.hook_load() / need(s.block.rated, "rated load of the block"), counts_load=True)


def block_sheaves(s: Situation) -> SlowLimit:
    passes = len([fall for fall in range(2, s.falls + 1) if fall % 2 == 0])
    return SlowLimit(verdict=Verdict.PASS if passes <= len(s.block.sheaves) else Verdict.FAIL)


def head_sheaves(s: Situation) -> SlowLimit:
    passes = len([fall for fall in range(1, s.falls + 1) if fall % 2 == 1])
    return SlowLimit(verdict=Verdict.PASS if passes <= len(s.book.head.sheaves) else Verdict.FAIL)


def pattern(s: Situation) -> SlowLimit:
    on_file = s.pattern
    checked = harshest([lambda: _path(s), lambda: _falls_apart(s)])
    if slow_is_confirmed(s.book, on_file):
        return checked
    return SlowLimit(verdict=Verdict.UNKNOWN, why="not confirmed", either=checked.verdict is Verdict.FAIL)


def _path(s: Situation) -> SlowLimit:
    faults = faults_of(s.book, s.pattern)
    if not faults:
        _ = dead_end_of(s.book, s.pattern)
    return SlowLimit(verdict=Verdict.FAIL if faults else Verdict.PASS, why="; ".join(faults))


def _falls_apart(s: Situation) -> SlowLimit:
    rub = s.settings.rub_distance * s.book.rope.diameter

    def at(height: float) -> SlowLimit:
        if s.falls == 1:
            return SlowLimit(verdict=Verdict.PASS)
        if height <= 0:
            raise BrokenError("the block is above the head")
        tops, lows = plan_of(s.fall_places)
        at_rest = s.once("at_rest", lambda: turned(lows, hanging_turn(tops, lows)))
        near = nearest_falls(tops, at_rest, height, rub)
        verdict = Verdict.PASS if near >= rub else Verdict.FAIL
        return SlowLimit(verdict=verdict, nearness=abs(near / rub - 1))

    def clear() -> SlowLimit:
        above = s.falls > 1 and min(s.heights_high()) <= 0
        return SlowLimit(verdict=Verdict.FAIL if above else Verdict.PASS, why="the block is above the head")

    return harshest([clear, lambda: at(max(s.heights_low())), lambda: at(s.least_fall())])


def twist(s: Situation) -> SlowLimit:
    if s.falls == 1:
        rope = s.book.rope
        if rope.rotation_resistant is True and rope.swivel is True and s.block.swivel is True:
            return SlowLimit(verdict=Verdict.PASS)
        raise MissingError("a swivel and a rope that may run on one")
    tops, lows = plan_of(s.fall_places)
    torque = need(s.book.rope.torque_factor, "torque factor") * s.book.rope.diameter
    height = max(s.heights_low())
    if height <= 0 or torque == 0:
        return SlowLimit(verdict=Verdict.PASS, use=0.0)
    turn = twisting_turn(tops, lows, height, torque)
    if turn is None:
        return SlowLimit(verdict=Verdict.FAIL, why="nothing holds the block")
    return s.three_ways(turn, s.settings.twist_pass, s.settings.twist_fail)


def tilt(s: Situation) -> SlowLimit:
    if s.falls == 1:
        return SlowLimit(verdict=Verdict.PASS)

    def way(passed_on: float, on_hook: float) -> SlowLimit:
        pulls = tensions(1.0, s.falls, passed_on)[1]
        sides = [low.side for _, low in s.fall_places]
        block, hook = need(s.block.mass, "block mass"), need(s.block.hook, "block hook")
        centre = need(s.block.mass_centre, "mass centre of the block")

        askew = (on_hook + block) * abs(sum(pull * side for pull, side in zip(pulls, sides, strict=True)))
        upright = on_hook * hook + block * centre

        def rights_itself(angle: float) -> float:
            return askew * cos(angle) - upright * sin(angle)

        low, high = 0.0, pi / 2
        for _ in range(40):
            middle = (low + high) / 2
            low, high = (middle, high) if rights_itself(middle) > 0 else (low, middle)
        return s.three_ways((low + high) / 2, s.settings.tilt_pass, s.settings.tilt_fail)

    def all_ways(on_hook: float) -> SlowLimit:
        eta = s.passed_on()
        return harshest([lambda: way(eta, on_hook), lambda: way(1 / eta, on_hook), lambda: way(1.0, on_hook)])

    return harshest([lambda: all_ways(0.0), lambda: all_ways(s.hook_load())])


def head_clearance(s: Situation) -> SlowLimit:
    kept = need(s.book.switch.trips, "trip distance") + need(s.book.switch.margin, "margin")

    def judged(least: float) -> SlowLimit:
        return SlowLimit(
            verdict=Verdict.PASS if least >= kept else Verdict.FAIL,
            use=kept / least if least > 0 else None,
            nearness=abs(least / kept - 1),
        )

    straight = judged(min(s.heights_high()))
    if straight.verdict is Verdict.FAIL:
        return harshest([lambda: straight, lambda: judged(s.least_fall())])
    return judged(s.least_fall())
