"""The greatest load of the reeving that is on, held against the slow evaluation of random cranes."""

from __future__ import annotations

from dataclasses import replace

from becket.book.tackle import State
from becket.limits.rigged import rigged_limits
from becket.verdict import Verdict
from tests.fuzz.cases import FuzzCase, random_case
from tests.slow_evaluation.answer import SlowRow
from tests.slow_evaluation.evaluation import evaluate

SEED = 9
CASES = 160


def _slow_rows(case: FuzzCase, load: float) -> tuple[SlowRow, ...]:
    lift = replace(case.lift, load=load, rigging=0.0, load_basis="weighed")
    return evaluate(case.book, case.settings, case.block, lift).rows


def _passes(row: SlowRow) -> bool:
    return all(limit.verdict is Verdict.PASS for limit in row.limits.values())


def test_greatest_load_passes_and_a_little_more_does_not() -> None:
    answered = 0
    for number in range(CASES):
        case = random_case(SEED, number)
        for row in _slow_rows(case, 1.0):
            answer = rigged_limits(case.book, case.settings, State(block=case.block, falls=row.falls), case.lift)
            if answer.greatest_load is None or answer.greatest_load < 1.0:
                assert not _passes(row), (number, row.falls)
                continue
            answered += 1
            index = row.falls - 1
            assert _passes(_slow_rows(case, answer.greatest_load)[index]), (number, row.falls, answer.greatest_load)
            assert not _passes(_slow_rows(case, answer.greatest_load + 1.01)[index]), (number, row.falls)
    assert answered > 20
