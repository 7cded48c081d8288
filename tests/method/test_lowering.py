"""The way down and up, winch locked."""

from dataclasses import replace
from itertools import pairwise
from math import degrees, hypot, radians

import pytest

from becket.method.leave import Way
from becket.method.lowering import JUDGES, Lowering, lower_and_raise
from becket.verdict import Verdict
from tests.method.golden_crane import golden_book
from tests.method.test_leave import leave, way

PAIRS = (
    ("main:2", "main:4"),
    ("main:6", "main:4"),
    ("main:4", "main:2"),
    ("main:4", "main:6"),
    ("main:2", "main:5"),
    ("ball:1", "main:4"),
    ("main:4", "ball:1"),
)


def run(before: str, after: str, height: float | None = None) -> Lowering:
    target = height or leave(before, after).target
    assert target is not None
    return lower_and_raise(way(before, after), target)


def finding(found: Lowering, name: str) -> Verdict:
    return next(f.verdict for f in found.findings if f.name == name)


def test_numbers_that_two_other_simulations_agree_on() -> None:
    """2 -> 4 falls, hook 3.9 m under the head at 20 deg."""
    found = run("main:2", "main:4")
    assert found.height == pytest.approx(3.9)
    assert found.touches_angle is not None
    assert found.tight_angle is not None
    assert found.lift_off_angle is not None
    assert found.weight_window is not None
    assert round(degrees(found.touches_angle), 1) == 4.4
    assert round(degrees(found.tight_angle), 1) == -0.2
    assert round(degrees(found.lift_off_angle), 1) == 0.6
    assert round(found.slack_at_low) == 6
    assert [round(degrees(a), 2) for a in found.weight_window] == [-0.62, 1.35]
    assert found.verdict is Verdict.PASS
    assert found.span_at_low == pytest.approx(0.836, abs=1e-3)
    assert found.least_head_clearance == pytest.approx(0.836, abs=1e-3)


def test_fewer_falls_leave_rope_along_the_boom_and_come_tight_out_of_reach() -> None:
    """4 -> 2 falls: 6.5 m left over, tight at 4.1 deg with the head 4.7 m up, set down inside the weight window."""
    found = run("main:4", "main:2")
    assert round(found.slack_after, 1) == 6.5
    assert found.tight_angle is not None
    assert found.tight_head_height is not None
    assert round(degrees(found.tight_angle), 1) == 4.1
    assert round(found.tight_head_height, 1) == 4.7
    assert found.touches_angle is not None
    assert found.weight_window is not None
    assert found.weight_window[0] < found.touches_angle < found.weight_window[1]


def test_main_block_to_the_ball_lifts_off_at_12_6_degrees() -> None:
    found = run("main:4", "ball:1")
    assert found.lift_off_angle is not None
    assert round(degrees(found.lift_off_angle), 1) == 12.6
    assert round(found.slack_after, 1) == 7.5


@pytest.mark.parametrize(("before", "after"), PAIRS)
def test_rope_is_conserved_to_a_millimetre_through_the_whole_run(before: str, after: str) -> None:
    """Drum to dead end: straight rope to the head worked out here, arcs, falls, slack; down and up alike."""
    found = run(before, after)
    totals = []
    for s in found.samples:
        x = -1.45 + complex(33.4, -0.48) * complex(1, 0) * _turn(s.angle)
        lead = hypot((x.real + 3.30), (3.05 + x.imag) - 3.55)
        totals.append(lead + s.arcs + s.falls * (s.head_height - s.block_height) + s.slack)
    assert max(totals) - min(totals) < 1e-3
    ropes = [s.rope for s in found.samples]
    assert max(ropes) - min(ropes) < 1e-3
    assert ropes[0] == pytest.approx(totals[0] - _lead_at_start(), abs=1e-6)
    assert {s.way for s in found.samples} == {"down", "up"}


def _lead_at_start() -> float:
    head = complex(-1.45, 3.05) + complex(33.4, -0.48) * _turn(radians(20))
    return abs(head - complex(-3.30, 3.55))


def _turn(angle: float) -> complex:
    return complex(1, 0) * (complex(0, 1) ** (angle / radians(90)))


@pytest.mark.parametrize(("before", "after"), PAIRS)
def test_slack_only_while_the_block_stands_and_no_block_in_the_ground(before: str, after: str) -> None:
    found = run(before, after)
    for s in found.samples:
        block = golden_book().blocks[(before if s.way == "down" else after).split(":")[0]]
        assert block.stands is not None
        assert block.touches is not None
        assert s.block_height >= block.stands - 1e-9
        assert s.slack >= 0
        assert s.block in ("hangs", "touches", "stands")
        assert s.slack < 1e-5 or s.block == "stands"
        assert (s.block == "hangs") == (s.block_height >= block.touches - 1e-6)


@pytest.mark.parametrize(("before", "after"), PAIRS)
def test_order_of_the_moments(before: str, after: str) -> None:
    """Touch above the low position; on the way up tight comes before lift-off; the block is not dragged."""
    one, found = way(before, after), run(before, after)
    assert found.touches_angle is not None
    assert found.tight_angle is not None
    assert found.lift_off_angle is not None
    assert one.low < found.touches_angle < one.start
    assert one.low < found.tight_angle < found.lift_off_angle <= one.highest
    assert found.verdict is Verdict.PASS


def test_two_block_while_derricking_down() -> None:
    """H7, rope broke as the boom came down to its rest: the hook climbs while the winch stands still."""
    close = run("main:4", "main:2", height=1.52)
    assert close.least_hanging_down < 1.5 < 1.52
    assert finding(close, "two-block, going down") is Verdict.FAIL
    assert close.verdict is Verdict.FAIL
    assert finding(run("main:4", "main:2", height=1.57), "two-block, going down") is Verdict.PASS


def test_hook_set_at_another_angle_would_climb_further() -> None:
    """DANGERS: hook set before telescoping or at another angle: the same height at 40 deg climbs more."""
    steep = replace(way("main:4", "main:2"), start=radians(40))
    assert lower_and_raise(steep, 1.7).least_hanging_down < run("main:4", "main:2", height=1.7).least_hanging_down
    assert lower_and_raise(steep, 1.7).lead_change > run("main:4", "main:2").lead_change


def test_head_on_the_block() -> None:
    """DANGERS: two-block on the way down; head on block; switch weight on block."""
    one = way("main:2", "main:4")
    low = replace(one, low=radians(-2.2))
    assert finding(lower_and_raise(low, 3.9), "head over the block") is Verdict.FAIL
    assert finding(lower_and_raise(one, 3.9), "head over the block") is Verdict.PASS


def test_switch_weight_on_the_block() -> None:
    """No angle at which the weight is in reach and not yet on the block: the block stands too high."""
    one = way("main:2", "main:4")
    tall = replace(one, now=replace(one.now, stands=1.8, touches=1.9), after=replace(one.after, stands=1.8))
    assert lower_and_raise(tall, 3.9).weight_window is None
    assert finding(lower_and_raise(tall, 3.9), "weight window") is Verdict.FAIL


def test_switch_that_trips_only_after_head_and_block_met() -> None:
    one = way("main:2", "main:4")
    found = lower_and_raise(replace(one, trips=0.6), 3.9)
    assert finding(found, "switch distance") is Verdict.FAIL
    other = replace(one, trips=0.8, after=replace(one.after, clear=0.9))
    assert finding(lower_and_raise(other, 3.9), "switch distance") is Verdict.FAIL
    why = next(f.why for f in found.findings if f.name == "switch distance")
    assert "switch.trips 0.60 m is under the 0.70 m" in why


def test_block_that_never_touches_fails() -> None:
    found = run("main:2", "main:4", height=14.5)
    assert found.touches_angle is None
    assert finding(found, "block touches") is Verdict.FAIL


def test_block_that_would_be_dragged_fails() -> None:
    found = run("main:2", "main:6", height=5.8)
    assert found.off_plumb is not None
    assert round(found.off_plumb, 2) == 0.24
    assert finding(found, "plumb") is Verdict.FAIL


def test_too_little_rope_is_seen() -> None:
    found = run("main:2", "main:4", height=2.2)
    assert finding(found, "rope for the new falls") is Verdict.FAIL
    assert finding(found, "two-block, coming up") is Verdict.FAIL


def test_coming_up_the_block_stays_clear_of_the_switch_by_the_setting() -> None:
    """4 -> 6 falls, 2.6 m: 1.49 m hook to head at lift-off. It is enough up to a switch that trips at 1.39 m."""
    one = replace(way("main:4", "main:6"), margin=0.0)
    assert finding(lower_and_raise(replace(one, trips=1.38), 2.6), "two-block, coming up") is Verdict.PASS
    assert finding(lower_and_raise(replace(one, trips=1.40), 2.6), "two-block, coming up") is Verdict.FAIL


def test_block_that_the_boom_does_not_lift() -> None:
    one = replace(way("main:4", "ball:1"), highest=radians(10))
    found = lower_and_raise(one, 1.8)
    assert found.lift_off_angle is None
    assert finding(found, "lift-off") is Verdict.FAIL


def test_unknown_place_of_the_drum_takes_the_worse_of_two_runs() -> None:
    def unknown(one: Way) -> Way:
        return replace(one, stance=replace(one.stance, drum=None, lead_run=1.9))

    one = way("main:2", "main:4")
    worse, known = lower_and_raise(unknown(one), 3.9), lower_and_raise(one, 3.9)
    assert worse.least_hanging_down < known.least_hanging_down
    assert worse.slack_at_low > known.slack_at_low
    assert worse.lead_change == pytest.approx(2 * 1.9 * 0.18652, abs=1e-3)
    assert len(worse.samples) == 2 * len(known.samples)
    assert worse.clear_over_block == known.clear_over_block
    assert worse.verdict is Verdict.PASS
    assert all(f.verdict is Verdict.PASS for f in worse.findings)


def test_clear_over_the_block_counts_the_worse_of_both_blocks() -> None:
    """Head 1.436 m up; main stands 0.60 and wants 0.70 clear, ball 0.25 and 0.45."""
    for before, after in (("ball:1", "main:4"), ("main:4", "ball:1")):
        assert run(before, after).clear_over_block == pytest.approx(1.436 - 0.60 - 0.70, abs=1e-3)


def test_a_bad_run_of_the_two_makes_the_answer_bad() -> None:
    """The hook is set so that it is clear of the switch only if the lead line shrinks."""
    one = way("main:4", "main:2")
    unknown = replace(one, stance=replace(one.stance, drum=None, lead_run=1.9))
    found = lower_and_raise(unknown, 1.6)
    assert finding(found, "two-block, going down") is Verdict.FAIL
    assert found.verdict is Verdict.FAIL


@pytest.mark.parametrize(("before", "after"), PAIRS)
def test_moments_do_not_depend_on_the_step(before: str, after: str) -> None:
    target = leave(before, after).target
    assert target is not None
    fine, coarse = (lower_and_raise(way(before, after), target, radians(step)) for step in (0.25, 2.0))
    assert (fine.touches_angle, fine.tight_angle, fine.lift_off_angle) == pytest.approx(
        (coarse.touches_angle, coarse.tight_angle, coarse.lift_off_angle), abs=1e-9
    )
    assert [f.verdict for f in fine.findings] == [f.verdict for f in coarse.findings]
    assert len(coarse.samples) < len(fine.samples) / 4


def test_samples_are_dense_and_cover_the_way() -> None:
    one, found = way("main:4", "ball:1"), run("main:4", "ball:1")
    down = [s.angle for s in found.samples if s.way == "down"]
    up = [s.angle for s in found.samples if s.way == "up"]
    assert (down[0], down[-1], up[0]) == pytest.approx((one.start, one.low, one.low))
    assert up[-1] >= one.start
    for angles in (down, up):
        assert max(abs(a - b) for a, b in pairwise(angles)) <= radians(0.25) + 1e-12


def test_every_judge_can_fail() -> None:
    """No finding of the run is there for show: each is made to fail somewhere in this file."""
    assert len(JUDGES) == 9
