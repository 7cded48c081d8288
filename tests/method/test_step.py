"""A step and the answer of a rule are records that nobody changes."""

from dataclasses import FrozenInstanceError

import pytest

from becket.method.step import RuleAnswer, Step
from becket.verdict import Verdict


def test_a_step_asks_for_nothing_unless_it_says_so() -> None:
    step = Step(number=1, who="rigger", phase="low", do="draw the bar")
    assert (step.look_for, step.value_asked, step.blind) == (None, None, False)


def test_records_do_not_change() -> None:
    answer = RuleAnswer(name="hands", verdict=Verdict.PASS, step=None)
    with pytest.raises(FrozenInstanceError):
        answer.verdict = Verdict.FAIL  # type: ignore[misc]
