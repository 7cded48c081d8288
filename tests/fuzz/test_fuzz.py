"""No ``pass`` of the product where a slow evaluation of the same documents says fail or unknown: 5,000 random lifts."""

from __future__ import annotations

import pytest

from tests.fuzz.cases import random_case
from tests.fuzz.compare import compare
from tests.fuzz.run import main, run_chunk
from tests.slow_evaluation.answer import LIMIT_NAMES

SEED = 20251
CHUNKS = 20
EACH = 250


@pytest.mark.parametrize("chunk", range(CHUNKS))
def test_product_and_slow_evaluation_agree(chunk: int) -> None:
    tally = run_chunk(SEED, chunk * EACH, EACH)
    assert tally.cases == EACH
    assert tally.disagreements == []


def test_every_limit_meets_every_verdict() -> None:
    tally = run_chunk(SEED, 0, 150)
    for name in LIMIT_NAMES:
        assert {verdict for limit, verdict in tally.verdicts if limit == name} == {"pass", "fail", "unknown"}, name
    assert tally.recommended > 0


def test_case_that_a_long_run_found() -> None:
    """Falls counted as needed because an estimate fails them: the chart then counted too little rope."""
    assert compare(random_case(1, 76009)).disagreements == ()


def test_same_seed_same_case() -> None:
    assert random_case(3, 14) == random_case(3, 14)
    assert random_case(3, 14) != random_case(4, 14)


def test_long_run_prints_its_progress_and_its_summary(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--cases", "40", "--seed", "5", "--processes", "1"]) == 0
    printed = capsys.readouterr().out
    assert printed.startswith("40 cases, ")
    assert "0 disagreements" in printed
