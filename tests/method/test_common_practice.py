"""What crews do everywhere. Common practice, no source: plausible cranes, wide tolerances."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.crane import Book
from becket.book.tackle import State
from becket.method.hanging import hanging_of
from becket.method.leave import RopeToLeave, rope_to_leave, way_of
from becket.method.position import find_position
from becket.method.site import Site
from tests.crane import invented_book, invented_settings
from tests.method.golden_crane import SITE, golden_book

SETTINGS = invented_settings()
CRANES = ((golden_book, SITE), (invented_book, Site(counterweight=7000.0, outriggers="full")))


def leave(book: Book, site: Site, falls: tuple[int, int]) -> RopeToLeave:
    states = State(block="main", falls=falls[0]), State(block="main", falls=falls[1])
    position = find_position(book, SETTINGS, *states, site).position
    assert position is not None
    hanging = hanging_of(book, states[0]), hanging_of(book, states[1])
    return rope_to_leave(way_of(book, SETTINGS, position, hanging, site))


@pytest.mark.parametrize("crane", range(len(CRANES)))
def test_two_more_falls_on_a_low_head_want_three_to_four_metres(crane: int) -> None:
    make, site = CRANES[crane]
    target = leave(make(), site, (2, 4)).target
    assert target is not None
    assert 3.0 <= target <= 4.0


@pytest.mark.parametrize("crane", range(len(CRANES)))
@pytest.mark.parametrize("falls", [(4, 2), (6, 4)])
def test_fewer_falls_want_the_hook_close_up(crane: int, falls: tuple[int, int]) -> None:
    make, site = CRANES[crane]
    book = make()
    target = leave(book, site, falls).target
    assert target is not None
    assert book.switch.trips is not None
    assert target < 2.0
    assert target > book.switch.trips


@pytest.mark.parametrize("crane", range(len(CRANES)))
def test_more_boom_out_brings_the_head_lower_over_the_side(crane: int) -> None:
    """Any length taken, permitted or not: the further out, the lower the head at the lowest angle of the side."""
    make, site = CRANES[crane]
    book = make()
    heights = []
    for length in (b.length for b in book.boom.lengths if b.length > 20):
        rows = tuple(replace(row, length=length) for row in book.rereeve if row.sector == "side")
        one = replace(book, rereeve=rows)
        found = find_position(one, replace(SETTINGS, hand_height=9.0), State(block="ball", falls=1), *_main(), site)
        assert found.position is not None
        heights.append(found.position.head_height)
    assert heights == sorted(heights, reverse=True)


def _main() -> tuple[State]:
    return (State(block="main", falls=2),)


@pytest.mark.parametrize("crane", range(len(CRANES)))
def test_top_section_is_run_out_92_to_100_percent(crane: int) -> None:
    """To get the head down to hand height over the side."""
    make, site = CRANES[crane]
    found = find_position(make(), SETTINGS, State(block="main", falls=2), State(block="main", falls=4), site).position
    assert found is not None
    assert found.sector == "side"
    assert 92 <= float(found.code.split("-")[-1]) <= 100
