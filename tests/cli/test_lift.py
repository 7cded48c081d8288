"""A lift as the options describe it: nothing is filled in."""

from __future__ import annotations

import pytest

from becket.cli.lift import asked_lift
from becket.errors import NotOnFileError, OutOfRangeError
from tests.crane import CHART, invented_book

BOOK = invented_book()


def test_what_is_not_given_stays_unknown() -> None:
    lift = asked_lift(BOOK, boom=17.0, radius=None)
    given = {"name", "count", "boom"}
    assert {name for name in lift.__dataclass_fields__ if getattr(lift, name) is not None} == given


def test_a_chart_is_named_and_its_counterweight_is_not_taken_for_the_one_that_is_fitted() -> None:
    lift = asked_lift(BOOK, boom=17.0, radius=(5.0, 7.0), chart=CHART)
    assert lift.chart == CHART
    assert (lift.counterweight, lift.outriggers, lift.sector) == (None, None, None)


def test_names_that_are_not_in_the_book() -> None:
    with pytest.raises(NotOnFileError) as error:
        asked_lift(BOOK, boom=17.0, radius=None, chart=CHART[:-1])
    assert str(error.value) == f'chart: "{CHART[:-1]}" is not in the book; nearest: "{CHART}"'
    with pytest.raises(NotOnFileError, match='sector: "sied" is not in the book; nearest: "side"'):
        asked_lift(BOOK, boom=17.0, radius=None, sector="sied")


def test_a_top_under_the_bottom_is_refused() -> None:
    with pytest.raises(OutOfRangeError) as error:
        asked_lift(BOOK, boom=17.0, radius=None, top=1.0, bottom=5.0)
    assert str(error.value) == "--top: 1 m lies under --bottom 5 m; the highest hook of the lift"
    assert asked_lift(BOOK, boom=17.0, radius=None, top=5.0, bottom=5.0).top == 5.0
