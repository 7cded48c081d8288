"""How the falls hang: one fall, a dead end between the faces, a rope without torque."""

from __future__ import annotations

from dataclasses import replace
from math import radians, tan

import pytest

from becket.reeving.pattern import check_pattern
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings

BOOK = invented_book()


def test_one_fall_has_nothing_to_rub_cross_or_tilt() -> None:
    check = check_pattern(BOOK, invented_settings(), BOOK.patterns[0], None, None)
    assert check.verdict is Verdict.PASS
    assert (check.tilt, check.hangs_turned, check.twist_length, check.crossings) == (0.0, None, None, ())
    assert check.closest_distance == pytest.approx(0.055 / tan(radians(4)))  # held in the middle, head 4 is beside it


def test_a_rope_without_torque_has_no_twist_length() -> None:
    book = replace(BOOK, rope=replace(BOOK.rope, torque_factor=0.0))
    check = check_pattern(book, invented_settings(), BOOK.patterns[4], None, None)
    assert check.twist_length is None
    assert "at no fall length" in next(one.why for one in check.findings if one.name == "twist_length")


def test_a_dead_end_in_the_middle_of_the_block_is_on_no_face() -> None:
    check = check_pattern(BOOK, invented_settings(), BOOK.patterns[5], None, None)
    assert [(one.falls, one.same_face) for one in check.crossings] == [((3, 5), False)]


def test_the_empty_block_governs_the_tilt() -> None:
    """The hook is deeper under the shaft than the mass centre of the empty block."""
    settings = invented_settings()
    tilts = [check_pattern(BOOK, settings, BOOK.patterns[4], None, None, hook_load=q).tilt for q in (0.0, 4e4)]
    assert tilts[0] == tilts[1]
