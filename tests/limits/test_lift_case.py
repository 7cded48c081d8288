"""What a lift has for all numbers of falls."""

from __future__ import annotations

import pytest

from becket.limits.figures import Missing
from becket.limits.lift_case import lift_case
from tests.crane import invented_book, invented_lift, invented_settings

BOOK = invented_book()


def test_the_allowance_is_on_an_estimate_alone() -> None:
    for basis, load in (("weighed", 8500.0), ("drawing", 8500.0), ("estimate", 9350.0), (None, 8500.0)):
        found = lift_case(BOOK, invented_settings(), BOOK.blocks["main"], invented_lift(load_basis=basis))
        assert found.load == pytest.approx(load)


def test_anchors_bound_what_the_dead_end_adds() -> None:
    found = lift_case(BOOK, invented_settings(), BOOK.blocks["main"], invented_lift())
    assert (found.anchors_least, found.anchors_most) == (-0.15, -0.15)


def test_a_load_that_is_not_given_is_missing() -> None:
    found = lift_case(BOOK, invented_settings(), BOOK.blocks["main"], invented_lift(load=None, rigging=None))
    assert isinstance(found.hook_load, Missing)
    assert len(found.hook_load.figures) == 2
