"""The change as one record."""

from __future__ import annotations

import pytest

from becket.method.change import Change, as_change, work_out_change
from becket.method.step import RuleAnswer
from becket.verdict import Verdict
from tests.crane import invented_settings
from tests.method.golden_crane import SITE, golden_book
from tests.method.test_facts import facts
from tests.method.test_leave import state

PROVED = (RuleAnswer(name="dead end", verdict=Verdict.PASS, step=None),)


def change(before: str, after: str) -> Change:
    return work_out_change(golden_book(), invented_settings(), state(before), state(after), SITE)


def test_everything_that_a_sheet_says() -> None:
    found = change("main:2", "main:4")
    assert [str(p) for p in found.keep] == []
    assert [str(p) for p in found.draw_out] == ["block 4", "head 4"]
    assert [str(p) for p in found.thread] == ["head 3", "block 3", "head 5", "block 5"]
    assert sorted(found.keepers) == ["block pin left", "block pin right", "dead-end pin", "head bar"]
    assert found.position is not None
    assert found.rope_to_leave is not None
    assert found.rope_to_leave.target == pytest.approx(3.9)
    assert found.simulation is not None
    assert found.minutes is not None
    assert found.why_no_position is None
    assert found.asked == ("free radius", "ground", "slope")


def test_a_method_of_which_no_rule_is_proved_is_no_pass() -> None:
    assert as_change(facts("main:2", "main:4"), steps=(), rules=()).verdict is Verdict.UNKNOWN


def test_every_reason_and_every_rule_counts() -> None:
    broken = (*PROVED, RuleAnswer(name="hands", verdict=Verdict.FAIL, step=7))
    assert as_change(facts("main:2", "main:4"), steps=(), rules=PROVED).verdict is Verdict.PASS
    assert as_change(facts("main:2", "main:4"), steps=(), rules=broken).verdict is Verdict.FAIL
    assert as_change(facts("main:2", "main:5"), steps=(), rules=PROVED).verdict is Verdict.UNKNOWN
    assert as_change(facts("main:2", "main:6"), steps=(), rules=PROVED).verdict is Verdict.FAIL


def test_states_without_a_pattern_have_no_path() -> None:
    found = change("main:4", "main:7")
    assert found.verdict is Verdict.UNKNOWN
    assert (found.keep, found.draw_out, found.thread, found.keepers) == ((), (), (), ())
    assert found.rope_pulled is None
    assert found.minutes is None
