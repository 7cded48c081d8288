"""Week tells the booked minutes that stay free, and none where the change runs over them."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.web.present.week import WeekFacts, week_shown
from becket.web.words import Words
from tests.web.asking import Phone


@pytest.mark.parametrize(
    ("left", "told"), [(None, None), (20.9, 20), (0.0, 0), (-1e-9, 0), (-0.5, None), (-29.0, None)]
)
def test_minutes_that_are_not_there_are_not_called_free(phone: Phone, left: float | None, told: int | None) -> None:
    crane = phone.house.crane("hazel-70")
    plan = phone.house.plan(crane)
    assert crane.book is not None
    assert crane.sheet is not None
    assert plan is not None
    changes = tuple(replace(one, minutes_left_in_job=left) for one in plan.changes)
    facts = WeekFacts(
        id=crane.id,
        book=crane.book,
        settings=crane.settings,
        sheet=crane.sheet,
        plan=replace(plan, changes=changes),
        made=crane.made,
    )
    shown = week_shown(facts, Words().word, "metric", with_cost=True)
    assert [one.left for one in shown.changes] == [told] * len(changes)
    assert changes
