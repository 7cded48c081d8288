"""The slow evaluation against numbers worked out by hand, so that it is not wrong in the same way as what it checks."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from math import asin, atan, cos, degrees, pi, radians, sin, sqrt

import numpy as np
import pytest

from becket.verdict import Verdict
from tests.crane import invented_book, invented_lift, invented_settings
from tests.slow_evaluation.answer import LIMIT_NAMES, BrokenError
from tests.slow_evaluation.boom import angle_of, head_place
from tests.slow_evaluation.drum import lay, of_layer
from tests.slow_evaluation.evaluation import WAYS, evaluate, most_falls
from tests.slow_evaluation.places import Place, falls_of, hanging_turn, nearest_falls, plan_of, turned, twisting_turn
from tests.slow_evaluation.seal import slow_is_confirmed, slow_seal
from tests.slow_evaluation.tackle import block_that_comes_down, tensions


def test_head_of_a_level_and_of_an_upright_boom() -> None:
    boom = replace(invented_book().boom, foot_x=-1.0, foot_z=2.0, head_drop=0.5)
    assert head_place(boom, 10.0, 0.0) == pytest.approx((9.0, 1.5))
    assert head_place(boom, 10.0, pi / 2) == pytest.approx((-0.5, 12.0))


def test_angle_of_a_radius_is_the_steeper_root() -> None:
    boom = replace(invented_book().boom, foot_x=0.0, foot_z=0.0, head_drop=0.0)
    assert degrees(angle_of(boom, 10.0, 5.0)) == pytest.approx(60.0)
    dropped = replace(boom, head_drop=1.0)
    angle = angle_of(dropped, 10.0, 10.02)
    assert 10 * cos(angle) + sin(angle) == pytest.approx(10.02)
    assert angle > atan(1 / 10)
    with pytest.raises(BrokenError):
        angle_of(dropped, 10.0, 10.06)


def test_tensions_without_friction_and_of_two_falls() -> None:
    drum, falls = tensions(1000.0, 4, 1.0)
    assert drum == pytest.approx(250.0)
    assert falls == pytest.approx([250.0] * 4)
    drum, falls = tensions(1950.0, 2, 0.95, guides=1)
    assert falls == pytest.approx([1000.0, 950.0])
    assert drum == pytest.approx(1000.0 / 0.95 / 0.95)


def test_overhaul_of_one_and_two_falls_by_hand() -> None:
    assert block_that_comes_down(100.0, 1.1, 1, 10.0) == pytest.approx(100.0)
    assert block_that_comes_down(100.0, 1.1, 2, 10.0) == pytest.approx(100.0 + 110.0)


def test_rope_laid_on_a_drum_of_ten_turns() -> None:
    book = invented_book()
    winch = replace(book.winch, drum=replace(book.winch.drum, diameter=0.3, width=0.205, pitch=0.02))
    book = replace(book, winch=winch, rope=replace(book.rope, diameter=0.02))
    first, second = pi * 0.32, pi * (0.32 + sqrt(3) * 0.02)
    settings = invented_settings()
    assert lay(book, settings, 9.5 * first).layer == 1
    assert lay(book, settings, 10.5 * first).layer == 2
    assert lay(book, settings, 10 * first + 3.25 * second).turns == pytest.approx(13.25)
    assert lay(book, settings, -5.0).turns == 0.0


def test_pull_of_a_layer_from_layer_1() -> None:
    book = invented_book()
    book = replace(book, winch=replace(book.winch, drum=replace(book.winch.drum, diameter=0.38)))
    book = replace(book, rope=replace(book.rope, diameter=0.02))
    assert of_layer((1000.0,), 3, book, falls_with_radius=True) == pytest.approx(1000 * 0.2 / 0.24)
    assert of_layer((1.0,), 3, book, falls_with_radius=False) == pytest.approx(1.2)
    assert of_layer((3.0, 2.0), 3, book, falls_with_radius=True) is None


def test_two_falls_turn_as_the_closed_form_says() -> None:
    """Two falls at spacing S on height h: sin(turn) = c d h / (S/2)^2."""
    tops = np.array([[-0.2, 0.0], [0.2, 0.0]])
    turn = twisting_turn(tops, tops, 20.0, 0.0008)
    assert turn == pytest.approx(asin(20.0 * 0.0008 / 0.04))
    assert twisting_turn(tops, tops, 60.0, 0.0008) is None


def test_a_block_reeved_a_quarter_turned_hangs_a_quarter_turned() -> None:
    tops = np.array([[-0.2, 0.0], [0.2, 0.0]])
    lows = np.array([[0.0, -0.2], [0.0, 0.2]])
    assert np.allclose(turned(lows, hanging_turn(tops, lows)), tops, atol=1e-6)


def test_nearest_falls_parallel_and_crossing() -> None:
    tops = np.array([[-0.1, 0.0], [0.1, 0.0]])
    assert nearest_falls(tops, tops, 5.0, 0.2) == pytest.approx(0.2)
    crossed = np.array([[0.1, 0.03], [-0.1, -0.03]])
    near = nearest_falls(tops, crossed, 5.0, 0.03)
    assert near == pytest.approx(0.06 / sqrt(0.3**2 + 2.0**2), abs=1e-7)  # lines askew: |(b - a) . n| / |n|


def test_places_follow_the_rope() -> None:
    book = invented_book()
    pattern = next(p for p in book.patterns if p.block == "main" and p.falls == 4)
    falls = [(_rounded(top), _rounded(low)) for top, low in falls_of(book, pattern)]
    assert [top for top, _ in falls] == [
        (-0.165, 0.18),
        (0.055, -0.18),
        (0.055, 0.18),
        (0.22, -0.09),
    ]
    assert [low for _, low in falls] == [(-0.11, 0.18), (-0.11, -0.18), (0.11, 0.18), (0.11, -0.18)]
    tops, lows = plan_of(falls_of(book, pattern))
    assert abs(tops.sum()) + abs(lows.sum()) < 1e-12


def _rounded(place: Place) -> tuple[float, float]:
    assert place.along is not None
    return round(place.side, 6), round(place.along, 6)


def test_seal_over_the_words_as_they_are_written_down() -> None:
    book = invented_book()
    pattern = next(p for p in book.patterns if p.block == "main" and p.falls == 4)
    text = (
        '["main",4,["head 2","block 2","head 4","block 4"],"head b",'
        '[[2,-165],[4,55]],[[2,-110],[4,110]],[220,-90,150],"5-15"]'
    )
    assert slow_seal(book, pattern) == hashlib.sha256(text.encode()).hexdigest()[:16]
    odd = next(p for p in book.patterns if p.block == "main" and p.falls == 3)
    assert (
        slow_seal(book, odd)
        == hashlib.sha256(
            b'["main",3,["head 3","block 3","head 4"],"block",[[3,-55],[4,55]],[[3,0]],[0,0,220],"5-14"]'
        ).hexdigest()[:16]
    )
    assert slow_is_confirmed(book, pattern)
    assert not slow_is_confirmed(book, replace(pattern, page="5-16"))


def test_most_falls_by_head_and_by_block() -> None:
    book = invented_book()
    assert most_falls(book, book.blocks["ball"]) == 1
    assert most_falls(book, book.blocks["light"]) == 3
    assert most_falls(book, book.blocks["main"]) == 11


def test_every_limit_has_its_way_and_answers() -> None:
    assert tuple(WAYS) == LIMIT_NAMES
    answer = evaluate(invented_book(), invented_settings(), "main", invented_lift())
    assert answer.recommended == 3
    row = answer.rows[3]
    assert all(limit.verdict is Verdict.PASS for limit in row.limits.values())
    eta, gross = 0.98, 8500 + 200 + 480 + 4 * 1.28 * (sin(_steepest()) * 17 - 0.42 * cos(_steepest()) + 2.6 - 0.88)
    pull = gross * 9.80665 / (1 + eta + eta**2 + eta**3) / eta
    assert row.lead_line_pull == pytest.approx(pull)


def _steepest() -> float:
    """Return the angle at 5 m radius: 17 cos a + 0.42 sin a = 6.2 [rad]."""
    return atan(0.42 / 17) + pi / 2 - asin(6.2 / sqrt(17**2 + 0.42**2))


def test_lowest_angle_of_the_sector() -> None:
    far = invented_lift(radius=(15.79, 15.8), sector="side", load=100.0)
    assert radians(-1) < _angle_at(15.8) < radians(4)
    assert evaluate(invented_book(), invented_settings(), "main", far).rows[1].limits["overhaul"].verdict is not (
        Verdict.FAIL
    )
    unsaid = replace(far, sector=None)
    assert evaluate(invented_book(), invented_settings(), "main", unsaid).rows[1].limits["overhaul"].verdict is (
        Verdict.FAIL
    )


def _angle_at(radius: float) -> float:
    return angle_of(invented_book().boom, 17.0, radius)
