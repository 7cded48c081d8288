"""Layers of the drum over a lift, pull and speed there."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.limits.figures import Missing
from becket.limits.winding import Layers, layers_between, permitted_pull, slowest_speed, spool_of, turns_left
from tests.crane import invented_book

WINCH = invented_book().winch
SPOOL = spool_of(WINCH, 0.016, 1.05)


def test_the_pitch_of_the_book_counts_else_the_setting() -> None:
    assert SPOOL.turns == 28  # 0.48 / 0.0166
    plain = replace(WINCH, drum=replace(WINCH.drum, pitch=None))
    assert spool_of(plain, 0.016, 1.05).turns == 28  # 0.48 / 0.0168
    assert spool_of(plain, 0.016, 1.2).turns == 25


def test_layers_at_both_ends() -> None:
    layers = layers_between(SPOOL, 170.0, 40.0, 140.0)
    assert layers.lowest == 1
    assert layers.highest == 4
    assert turns_left(SPOOL, 170.0, 140.0) == pytest.approx(30.0 / (3.14159265 * 0.356), rel=1e-6)


def test_the_lower_pull_and_the_lower_speed_of_the_layers_count() -> None:
    layers = Layers(highest=4, lowest=2)
    assert permitted_pull(WINCH, SPOOL, layers) == 36_000.0
    assert slowest_speed(WINCH, SPOOL, layers) == 1.6


def test_a_table_that_rises_in_the_middle_takes_its_least() -> None:
    odd = replace(WINCH, pull=(44e3, 20e3, 38e3, 36e3))
    assert permitted_pull(odd, SPOOL, Layers(highest=4, lowest=1)) == 20_000.0


def test_a_layer_that_is_not_printed_is_missing() -> None:
    layers = Layers(highest=6, lowest=2)
    for found in (permitted_pull(WINCH, SPOOL, layers), slowest_speed(WINCH, SPOOL, layers)):
        assert isinstance(found, Missing)
        assert "layer 6" in found.why


def test_layer_one_alone_is_carried_by_the_square_radius() -> None:
    alone = replace(WINCH, pull=(44e3,), speed=(1.5,))
    layers = Layers(highest=3, lowest=2)
    assert permitted_pull(alone, SPOOL, layers) == pytest.approx(44e3 * 0.178 / (0.178 + 2 * 0.016))
    assert slowest_speed(alone, SPOOL, layers) == pytest.approx(1.5 * (0.178 + 0.016) / 0.178)
