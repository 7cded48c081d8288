"""Limit of the block that hangs askew."""

from __future__ import annotations

from dataclasses import replace
from math import atan2, radians

import pytest

from becket.book.crane import Book
from becket.book.tackle import Pass
from becket.verdict import Verdict
from tests.crane import invented_book, sealed
from tests.limits.asking import limit


def test_a_symmetric_block_hangs_upright() -> None:
    found = limit("tilt", 2)
    assert (found.verdict, found.need) == (Verdict.PASS, 0.0)
    assert found.why == (
        "The block hangs askew by up to 0.0 deg; 2.0 deg are upright enough (setting tilt_pass). Worst place: "
        "raising, lowering or standing, loaded or empty, whichever tilts most."
    )


def test_the_empty_block_tilts_most() -> None:
    eta = 0.98
    tensions = [eta**i for i in range(4)]
    offset = 0.11 * (tensions[0] + tensions[1] - tensions[2] - tensions[3]) / sum(tensions)
    assert limit("tilt").need == pytest.approx(atan2(offset * 480, 480 * 0.40))


def test_one_fall_hangs_under_its_rope() -> None:
    found = limit("tilt", 1, block="ball")
    assert (found.verdict, found.why) == (Verdict.PASS, "One fall: the block hangs under its rope.")


def _off_centre(side: float) -> Book:
    """Two falls on a sheave that is beside the middle of the block."""
    book = invented_book()
    main = replace(book.blocks["main"], sheaves={**book.blocks["main"].sheaves, 3: side})
    return sealed(replace(book, blocks={**book.blocks, "main": main}))


@pytest.mark.parametrize(
    ("angle", "verdict"), [(1.9, Verdict.PASS), (2.1, Verdict.UNKNOWN), (4.9, Verdict.UNKNOWN), (5.1, Verdict.FAIL)]
)
def test_the_angle_decides(angle: float, verdict: Verdict) -> None:
    from math import tan

    side = tan(radians(angle)) * 0.40  # empty: tan = e / mass_centre
    found = limit("tilt", 2, _off_centre(side))
    assert found.need == pytest.approx(radians(angle))
    assert found.verdict is verdict


def test_why_unknown_names_the_setting() -> None:
    assert limit("tilt", 2, _off_centre(0.02)).why.endswith("Up to 5 deg (setting tilt_fail) it is not proven.")


def test_a_loaded_block_can_tilt_more_than_an_empty_one() -> None:
    book = _off_centre(0.01)
    low_hung = replace(book.blocks["main"], mass_centre=1.5)
    book = sealed(replace(book, blocks={**book.blocks, "main": low_hung}))
    light, heavy = limit("tilt", 2, book, load=0.0, rigging=0.0).need, limit("tilt", 2, book, load=9000.0).need
    assert light is not None
    assert heavy is not None
    assert heavy > light
    assert Pass(place="block", sheave=3) in book.patterns[2].path
