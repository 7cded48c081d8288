"""A plan holds no change of which no method passes every rule."""

from __future__ import annotations

from dataclasses import replace

from becket.planning.build import ModelBuilder, enter_lifts
from becket.planning.plan import plan_sheet
from becket.planning.proof import unproved_changes
from becket.planning.search import Route, Search
from tests.crane import invented_book, invented_settings
from tests.planning.jobs import sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()
STUCK = replace(
    BOOK, keepers=tuple(replace(k, draw="tight") if k.at == "head" else k for k in BOOK.keepers)
)  # a keeper at the head that only tight rope lets out: at the head the rope is slack


def test_the_invented_crane_has_a_keeper_at_the_head() -> None:
    assert any(k.at == "head" for k in BOOK.keepers)


def test_a_change_without_a_method_is_not_planned_and_is_said() -> None:
    good, stuck = plan_sheet(BOOK, SETTINGS, sheet_of()), plan_sheet(STUCK, SETTINGS, sheet_of())
    assert len(good.changes) == 1
    assert not stuck.changes
    assert stuck.cost is None
    assert stuck.why_no_plan is not None
    assert "No method passes: no order reaches 'tight_keeper_out" in stuck.why_no_plan
    assert "(rule keepers)" in stuck.why_no_plan


def test_a_proved_change_is_left_alone() -> None:
    sheet = sheet_of()
    assert sheet.rigged is not None
    for book, count in ((BOOK, 0), (STUCK, 1)):
        model = ModelBuilder(book, SETTINGS, sheet, sheet.rigged).build(enter_lifts(book, SETTINGS, sheet)).model
        best = Search(model).cheapest()
        assert isinstance(best, Route)
        assert len(unproved_changes(book, SETTINGS, sheet, model, best.moves)) == count
