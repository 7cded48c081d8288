"""What hangs on the boom beside the load."""

from __future__ import annotations

import pytest

from becket.book.charts import Stowed
from becket.book.hoist import SecondLine
from becket.limits.counted import second_line_mass, stowed_mass
from becket.limits.figures import Missing
from tests.crane import invented_book, invented_lift

EXTENSION = Stowed(name="extension", deduct={17.0: 300.0, 24.2: 450.0})
RACK = Stowed(name="rack", deduct={9.8: 50.0, 17.0: 60.0, 24.2: 90.0})


@pytest.mark.parametrize(
    ("boom", "mass"),
    [(17.0, 300.0 + 60.0), (24.2, 450.0 + 90.0)],
)
def test_deductions_are_read_by_boom_length(boom: float, mass: float) -> None:
    assert stowed_mass(invented_book(stowed=(EXTENSION, RACK)), invented_lift(boom=boom)) == mass


@pytest.mark.parametrize("boom", [9.8, 20.0, 31.4])
def test_a_length_that_is_not_printed_is_missing(boom: float) -> None:
    found = stowed_mass(invented_book(stowed=(EXTENSION,)), invented_lift(boom=boom))
    assert isinstance(found, Missing)
    assert "deduction for extension at this boom length" in found.why


def test_nothing_stowed_is_an_answer_and_not_said_is_none() -> None:
    assert stowed_mass(invented_book(stowed=()), invented_lift(boom=None)) == 0.0
    assert isinstance(stowed_mass(invented_book(stowed=None), invented_lift()), Missing)


def test_the_second_line() -> None:
    assert second_line_mass(invented_book(second_line=SecondLine(hangs="ball", mass=210.0))) == 210.0
    assert second_line_mass(invented_book()) == 0.0
    assert isinstance(second_line_mass(invented_book(second_line=None)), Missing)
