"""What a lighter load would do: true at that load, untrue at the next step."""

from __future__ import annotations

from dataclasses import replace

from becket.book.tackle import State
from becket.planning.feasible import Ability
from becket.planning.plan import plan_sheet
from becket.planning.what_if import GROUPS_MOST, greatest_load
from tests.crane import invented_book, invented_settings
from tests.planning.jobs import first_job, pump, rafters, second_job, sheet_of

BOOK, SETTINGS = invented_book(), invented_settings()
MAIN_2 = State(block="main", falls=2)


def test_the_greatest_load_passes_and_ten_kilograms_more_do_not() -> None:
    ability = Ability(BOOK, SETTINGS)
    load = greatest_load(ability, pump(), MAIN_2)
    assert load is not None
    assert load % 10 == 0
    assert MAIN_2 in ability.able(replace(pump(), load=load)).speeds
    assert MAIN_2 not in ability.able(replace(pump(), load=load + 10)).speeds


def test_no_load_helps_where_the_load_is_not_what_stops_it() -> None:
    """Five falls are not confirmed; eight have no pattern."""
    ability = Ability(BOOK, SETTINGS)
    assert greatest_load(ability, pump(), State(block="main", falls=5)) is None
    assert greatest_load(ability, pump(), State(block="main", falls=8)) is None
    assert greatest_load(ability, replace(pump(), load=None), MAIN_2) is None


def test_the_sentence_is_what_the_plan_of_the_lighter_load_says() -> None:
    before = plan_sheet(BOOK, SETTINGS, sheet_of())
    load = greatest_load(Ability(BOOK, SETTINGS), pump(), MAIN_2)
    assert load is not None
    (note,) = before.notes
    assert note == (
        f"If pump weighed {load / 1000:.2f} t or less instead of 8.50 t, main:2 would do for it: "
        "the same cost and 1 change fewer."
    )
    after = plan_sheet(BOOK, SETTINGS, sheet_of(first_job(), second_job(lifts=(pump(load=load),))))
    assert (after.cost, after.changes) == (before.cost, ())


def test_a_long_sheet_goes_without() -> None:
    lifts = tuple(rafters(name=f"rafters {i}", count=1) for i in range(GROUPS_MOST))
    found = plan_sheet(BOOK, SETTINGS, sheet_of(first_job(lifts=lifts), second_job()))
    assert found.changes
    assert found.notes == ()
