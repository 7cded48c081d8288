"""Limit of the empty block that must come down."""

from __future__ import annotations

import pytest

from becket.verdict import Verdict
from tests.crane import invented_book
from tests.limits.asking import book_with, limit


def test_a_heavy_block_comes_down() -> None:
    found = limit("overhaul")
    assert found.verdict is Verdict.PASS
    assert found.why == (
        "To come down empty on 4 falls the block main must have 0.26 t, 1.2 times what balances (setting "
        "overhaul_margin); it has 0.48 t. Worst place: highest hook, steepest boom, nothing on the hook."
    )


def test_need_is_the_march_along_the_rope() -> None:
    k, m, g, h = 1.025, 1.28, 9.80665, 1.4
    tension = 320.0 + m * g * (18.434658190185226 - 3.1)
    lower = 0.0
    for fall in range(4):  # over a head sheave and down, or under a block sheave and up
        tension *= k
        if fall % 2 == 0:
            tension -= m * g * h
            lower += tension
        else:
            lower += tension
            tension += m * g * h
    assert limit("overhaul").need == pytest.approx(1.2 * lower / g, rel=1e-6)


def test_between_balance_and_margin_it_is_unknown() -> None:
    need = limit("overhaul").need
    assert need is not None
    for mass, verdict in ((need, Verdict.PASS), (need - 1, Verdict.UNKNOWN), (need / 1.2 + 0.1, Verdict.UNKNOWN)):
        assert limit("overhaul", book=book_with(block={"mass": mass})).verdict is verdict
    found = limit("overhaul", book=book_with(block={"mass": need / 1.2 - 0.1}))
    assert found.verdict is Verdict.FAIL


def test_why_unknown_says_what_to_do() -> None:
    found = limit("overhaul", book=book_with(block={"mass": 250.0}))
    assert found.why.endswith("It balances, but cold grease or stiff rope may hold it up: try it before it is needed.")


def test_the_steepest_boom_is_the_worst_place() -> None:
    near, far = limit("overhaul", radius=(3.5, 9.0)).need, limit("overhaul", radius=(9.0, 9.0)).need
    assert near is not None
    assert far is not None
    assert near > far


def test_rough_sheaves_are_not_taken_for_rollers() -> None:
    rough, roller = (limit("overhaul", book=invented_book(sheave_efficiency=eta)).need for eta in (0.90, 0.98))
    better = limit("overhaul", book=invented_book(sheave_efficiency=0.995)).need
    assert rough is not None
    assert roller is not None
    assert rough > roller
    assert better == roller  # never under the published column


def test_the_ball_on_one_fall() -> None:
    assert limit("overhaul", 1, block="ball").verdict is Verdict.PASS
    assert limit("overhaul", 1, book_with(block={"mass": 40.0}), block="ball").verdict is Verdict.FAIL
