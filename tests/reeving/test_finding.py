"""A finding says its name, its verdict and why, whatever of the pattern is on file."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.reeving.finding import PatternCase, pattern_case
from becket.reeving.pattern import PATTERN_CHECKS
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings

BOOK = invented_book()
BARE = PatternCase(
    book=replace(BOOK, keepers=(), sheave_efficiency=None, rope=replace(BOOK.rope, torque_factor=None)),
    settings=invented_settings(),
    pattern=replace(BOOK.patterns[4], typed=None, confirmed=None),
    block=None,
    places=None,
    lacking=("sideways place of head sheave 2 (head.sheaves)",),
    least_fall=None,
    greatest_fall=None,
    hook_load=None,
)


@pytest.mark.parametrize("name", PATTERN_CHECKS)
def test_a_finding_stands_under_the_name_of_its_check(name: str) -> None:
    finding = PATTERN_CHECKS[name](BARE)
    assert finding.name == name
    assert finding.why[:1].isupper() or finding.why[:1].isdigit()
    assert finding.why.endswith(".")


@pytest.mark.parametrize(
    "name", ["falls_that_rub", "falls_that_cross", "tilt", "fleet_angle", "hangs_turned", "twist_length"]
)
def test_where_places_are_not_on_file_nothing_passes_and_the_figure_is_named(name: str) -> None:
    finding = PATTERN_CHECKS[name](BARE)
    assert finding.verdict is Verdict.UNKNOWN
    assert "sideways place of head sheave 2 (head.sheaves)" in finding.why or name in ("tilt", "fleet_angle")


def test_a_pattern_of_a_block_that_is_not_in_the_book_does_not_pass() -> None:
    assert PATTERN_CHECKS["block_sheaves_enough"](BARE).verdict is not Verdict.PASS
    assert PATTERN_CHECKS["confirmed"](BARE).verdict is Verdict.UNKNOWN


def test_a_case_is_of_no_lift_until_one_is_given() -> None:
    """Fall lengths and load of a lift are never made up; what is not on file of the places is named."""
    case = pattern_case(BOOK, invented_settings(), BOOK.patterns[4])
    assert (case.least_fall, case.greatest_fall, case.hook_load) == (None, None, None)
    assert case.block is BOOK.blocks["main"]
    assert case.places is not None
    assert case.lacking == ()
    bare = replace(BOOK, head=replace(BOOK.head, anchors={}), blocks={})
    lost = pattern_case(bare, invented_settings(), BOOK.patterns[4])
    assert (lost.block, lost.places) == (None, None)
    assert lost.lacking
