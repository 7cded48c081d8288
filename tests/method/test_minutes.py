"""How long a change takes."""

from dataclasses import replace

import pytest

from becket.book.tackle import Pass
from becket.method.minutes import Tally, count_minutes, derricked, rope_pulled, telescoped
from tests.crane import invented_settings
from tests.method.test_leave import way

SETTINGS = invented_settings()
TALLY = Tally(telescoped=12.0, derricked=0.75, keepers=4, passes_out=2, passes_in=4, metres=18.0)
TWO = (Pass(place="head", sheave=4), Pass(place="block", sheave=4))
FOUR = (
    Pass(place="head", sheave=3),
    Pass(place="block", sheave=3),
    Pass(place="head", sheave=5),
    Pass(place="block", sheave=5),
)


def test_parts_add_up_to_the_sum() -> None:
    minutes = count_minutes(SETTINGS, TALLY)
    assert sum(minutes.parts.values()) == pytest.approx(minutes.total)
    assert not minutes.from_records


def test_sum_by_hand() -> None:
    """In minutes: 6 + 12/6 + 43/60 + 5 + 4 x 1.3 + 2 x 0.6 + 4 x 1.2 + 18 x 0.06 + 6 + 2 + 3 + 3 + 2 + 2 + 5."""
    tally = replace(TALLY, derricked=2 * 21.5 * 3.141592653589793 / 180)
    by_hand = 6 + 2 + 43 / 60 + 5 + 5.2 + 1.2 + 4.8 + 1.08 + 6 + 2 + 3 + 3 + 2 + 2 + 5
    assert count_minutes(SETTINGS, tally).total / 60 == pytest.approx(by_hand, abs=1e-6)


def test_another_block_and_its_lorry_take_longer() -> None:
    plain = count_minutes(SETTINGS, TALLY).total
    exchanged = count_minutes(SETTINGS, replace(TALLY, block_changes=True)).total
    fetched = count_minutes(SETTINGS, replace(TALLY, block_changes=True, from_lorry=True)).total
    assert exchanged - plain == pytest.approx(12 * 60)
    assert fetched - exchanged == pytest.approx(10 * 60)
    assert count_minutes(SETTINGS, replace(TALLY, from_lorry=True)).total == plain


def test_own_records_replace_the_sum_from_five_on() -> None:
    records = [50 * 60.0, 40 * 60.0, 90 * 60.0, 42 * 60.0, 44 * 60.0]
    few, enough = count_minutes(SETTINGS, TALLY, records[:4]), count_minutes(SETTINGS, TALLY, records)
    assert few.total == few.by_settings
    assert enough.total == 44 * 60.0
    assert enough.from_records
    assert enough.by_settings == few.by_settings


def test_no_records_replace_nothing_whatever_the_setting() -> None:
    assert not count_minutes(replace(SETTINGS, records_needed=0), TALLY, ()).from_records


def test_boom_not_given_is_said_not_guessed() -> None:
    assert telescoped(None, 33.4, None) == (
        0.0,
        ("telescoping from the boom of the lift before", "telescoping to the boom of the lift after"),
    )
    metres, missing = telescoped(26.2, 33.4, 18.4)
    assert metres == pytest.approx(22.2)
    assert missing == ()


def test_derricking_is_down_and_up() -> None:
    assert derricked(way("main:2", "main:4")) == pytest.approx(2 * 21.5 * 3.141592653589793 / 180)


def test_rope_pulled_through_each_sheave_is_all_that_lies_beyond() -> None:
    """2 -> 4 falls, span 0.836 m at the low position, half turns of 0.597 m, tail 0.34 m."""
    pulled = rope_pulled(way("main:2", "main:4"), (TWO, FOUR), 0, 0.34)
    assert [str(p.place) for p in pulled] == ["block 4", "head 4", "head 3", "block 3", "head 5", "block 5"]
    span, arc = 0.836, 0.597
    by_hand = [span, 2 * span + arc, 4 * span + 3 * arc, 3 * span + 2 * arc, 2 * span + arc, span]
    assert [p.metres for p in pulled] == pytest.approx([m + 0.34 for m in by_hand], abs=2e-3)
    assert [p.out for p in pulled] == [True, True, False, False, False, False]


def test_passes_that_stay_rigged_are_not_pulled() -> None:
    pulled = rope_pulled(way("main:2", "main:4"), (FOUR[:2], FOUR), 2, 0.34)
    assert [str(p.place) for p in pulled] == ["head 5", "block 5"]
