"""Limit of the block that turns about the upright axis."""

from __future__ import annotations

from dataclasses import replace
from math import radians, sin
from typing import Any

import pytest

from becket.verdict import Verdict
from tests.crane import invented_book
from tests.limits.asking import book_with, limit


def test_a_short_drop_passes() -> None:
    found = limit("twist")
    assert found.verdict is Verdict.PASS
    assert found.why == (
        "The falls are up to 17.56 m long; up to 77.81 m the rope turns the block by no more than 20 deg (setting "
        "twist_pass). Worst place: lowest hook, steepest boom."
    )


def test_two_falls_by_hand() -> None:
    # tops (-0.055, 0.18), (0.055, -0.09); lows (0, 0.18), (0, -0.18): D = mean(t . b), X = mean(b x t)
    along = 2 * 0.135 * 0.18 / 2
    across = 2 * 0.18 * 0.055 / 2
    longest = (along**2 + across**2) ** 0.5 / (0.012 * 0.016)
    assert limit("twist", 2).have == pytest.approx(longest * sin(radians(20)))


@pytest.mark.parametrize(
    ("share", "verdict"),
    [(0.99 * sin(radians(20)), Verdict.PASS), (1.01 * sin(radians(20)), Verdict.UNKNOWN),
     (0.99 * sin(radians(45)), Verdict.UNKNOWN), (1.01 * sin(radians(45)), Verdict.FAIL), (1.5, Verdict.FAIL)],
)  # fmt: skip
def test_the_angle_decides(share: float, verdict: Verdict) -> None:
    plain = limit("twist")
    assert plain.have is not None
    assert plain.need is not None
    factor = 0.012 * share * (plain.have / sin(radians(20))) / plain.need
    found = limit("twist", book=book_with(rope={"torque_factor": factor}))
    assert found.verdict is verdict
    if verdict is Verdict.UNKNOWN:
        assert "45 deg (setting twist_fail), it is not proven: watch the falls on a trial lift." in found.why


def test_the_lowest_hook_is_the_worst_place() -> None:
    lower, higher = limit("twist", bottom=-30.0).need, limit("twist", bottom=2.0).need
    assert lower is not None
    assert higher is not None
    assert lower == pytest.approx(higher + 32.0)


def test_a_rope_without_torque_may_hang_any_length() -> None:
    found = limit("twist", book=book_with(rope={"torque_factor": 0.0}))
    assert found.verdict is Verdict.PASS
    assert "up to any length" in found.why
    assert found.have is None or found.have < float("inf")  # what JSON can say


def test_one_fall_passes_on_a_swivel() -> None:
    found = limit("twist", 1, block="ball")
    assert found.verdict is Verdict.PASS
    assert found.why == "One fall: the rope is rotation resistant and may run on the swivel that the block ball has."


@pytest.mark.parametrize(
    ("parts", "words"),
    [
        ({"rope": {"rotation_resistant": False}}, "a rotation-resistant rope"),
        ({"rope": {"swivel": False}}, "a rope that the book allows on a swivel"),
        ({"block": {"swivel": False}}, "a block with a swivel"),
    ],
)
def test_one_fall_without_one_of_them_is_unknown(parts: dict[str, Any], words: str) -> None:
    found = limit("twist", 1, book_with(**parts), block="ball")
    assert found.verdict is Verdict.UNKNOWN
    assert found.why == f"One fall turns with the rope; it would need {words}."


@pytest.mark.parametrize(
    ("parts", "field"),
    [
        ({"rope": {"rotation_resistant": None}}, "rope.rotation_resistant"),
        ({"rope": {"swivel": None}}, "rope.swivel"),
        ({"block": {"swivel": None}}, "blocks.ball.swivel"),
    ],
)
def test_one_fall_with_one_of_them_not_on_file_is_unknown(parts: dict[str, Any], field: str) -> None:
    found = limit("twist", 1, book_with(**parts), block="ball")
    assert found.verdict is Verdict.UNKNOWN
    assert field in found.why


def test_lead_under_swaps_the_sides() -> None:
    over = limit("twist", 2)
    under = limit("twist", 2, book_with(head={"lead": "under"}))
    assert over.have != under.have
    assert replace(invented_book().head, lead="under").lead == "under"
