"""Which states can do a lift: exactly those whose row of the falls table passes."""

from __future__ import annotations

from dataclasses import replace
from random import Random

import pytest

from becket.book.jobs import Lift
from becket.book.tackle import State
from becket.limits.table import row_of
from becket.planning.feasible import Ability, lifting_minutes, missing_of, what_stops
from becket.verdict import Verdict
from tests.crane import CHART, invented_book, invented_lift, invented_settings
from tests.planning.jobs import pump

BOOK, SETTINGS = invented_book(), invented_settings()


def dice_lift(seed: int) -> Lift:
    """Return a lift that some states can do and some cannot [-]."""
    dice = Random(seed)
    near = dice.choice([5.0, 6.0, 7.0, 8.0])
    return invented_lift(
        load=dice.choice([None, 300.0, 900.0, 2000.0, 4200.0, 6000.0, 8500.0, 12000.0]),
        load_basis=dice.choice(["weighed", "estimate", None]),
        rigging=dice.choice([0.0, 120.0, None]),
        boom=dice.choice([17.0, 24.2, 31.4]),
        radius=(near, near + dice.choice([0.0, 2.0, 4.0])),
        top=dice.choice([2.0, 5.0, 9.0, 14.0]),
        bottom=dice.choice([-12.0, -3.0, 0.0]),
        kind=dice.choice([None, None, None, "persons"]),
        chart=dice.choice([CHART, CHART, None]),
    )


def test_the_able_states_are_those_whose_row_passes() -> None:
    """300 seeded lifts, every pattern on file: the shortcuts of the plan change no verdict."""
    ability = Ability(BOOK, SETTINGS)
    states = [pattern.state for pattern in BOOK.patterns]
    passed = 0
    for seed in range(300):
        lift = dice_lift(seed)
        rows = {state: row_of(BOOK, SETTINGS, state, lift) for state in states}
        expected = {state: row.hook_speed for state, row in rows.items() if row.verdict is Verdict.PASS}
        assert ability.able(lift).speeds == expected, f"seed {seed}"
        passed += len(expected)
    assert 150 < passed < 300 * len(states) / 2


def test_a_state_whose_pattern_is_not_confirmed_can_do_nothing() -> None:
    ability = Ability(BOOK, SETTINGS)
    states = {state for seed in range(60) for state in ability.able(dice_lift(seed)).speeds}
    assert State(block="main", falls=5) not in states
    unsealed = tuple(replace(p, page="9-9") for p in BOOK.patterns)  # the seal no longer matches
    assert not Ability(replace(BOOK, patterns=unsealed), SETTINGS).able(invented_lift()).speeds


def test_a_lift_that_nothing_can_do_names_the_limit_that_stops_the_nearest_state() -> None:
    able = Ability(BOOK, SETTINGS).able(invented_lift(load=13000.0))
    assert not able.speeds
    assert able.stopped_by == "chart"
    assert able.why is not None
    assert "fail at chart: " in able.why
    assert "The chart full outriggers, 7 t permits 12.50 t" in able.why


def test_a_missing_load_stops_every_state_as_unknown() -> None:
    able = Ability(BOOK, SETTINGS).able(invented_lift(load=None))
    assert not able.speeds
    assert able.why is not None
    assert ": unknown at " in able.why


def test_a_book_without_patterns_says_so() -> None:
    able = Ability(replace(BOOK, patterns=()), SETTINGS).able(pump())
    assert (able.stopped_by, able.why) == (
        "pattern",
        "No reeving pattern is on file: type them in from the manual.",
    )


def test_what_stops_names_verdict_and_limit() -> None:
    assert what_stops(BOOK, SETTINGS, pump(), State(block="main", falls=2)) == "fail at lead line pull"


def test_lifting_minutes_by_hand() -> None:
    """40 x (6 min + 10 m x 2 ways / (0.9 m/s x 0.6)): 40 x (360 + 37.04) s = 264.69 min, rounded up to 1/1024."""
    lift = invented_lift(count=40, handling=360.0, top=10.0, bottom=0.0)
    minutes = lifting_minutes(lift, 0.9, SETTINGS)
    assert minutes == pytest.approx(264.691, abs=0.001)
    assert minutes is not None
    assert (minutes * 1024).is_integer()


@pytest.mark.parametrize("name", ["handling", "top", "bottom"])
def test_lifting_minutes_of_something_not_stated_are_unknown(name: str) -> None:
    lift = invented_lift(**{name: None})
    assert lifting_minutes(lift, 0.9, SETTINGS) is None
    assert missing_of(lift) == (name,)
