"""The fuzz can fail: each limit of the product, broken so that it always passes, is caught."""

from __future__ import annotations

from collections.abc import Callable
from types import MappingProxyType
from typing import Any

import pytest

from becket.limits import registry
from becket.limits.answer import Limit
from becket.verdict import Verdict
from tests.fuzz.run import run_chunk
from tests.slow_evaluation.answer import LIMIT_NAMES

SEED = 77
CASES = 40


def _always(limit: Callable[[Any], Limit]) -> Callable[[Any], Limit]:
    return lambda case: limit(case)._replace(verdict=Verdict.PASS)


@pytest.mark.parametrize("name", LIMIT_NAMES)
def test_a_limit_that_always_passes_is_caught(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    broken = dict(registry.LIMITS)
    broken[name] = _always(broken[name])
    monkeypatch.setattr(registry, "LIMITS", MappingProxyType(broken))
    assert any(f"wrong pass: {name} " in line for line in run_chunk(SEED, 0, CASES).disagreements)


def test_a_limit_a_tenth_too_generous_is_caught(monkeypatch: pytest.MonkeyPatch) -> None:
    def generous(case: Any) -> Limit:
        answer = right(case)
        if answer.verdict is Verdict.FAIL and answer.use is not None and answer.use < 1.1:
            return answer._replace(verdict=Verdict.PASS)
        return answer

    right = registry.LIMITS["rope_strength"]
    monkeypatch.setattr(registry, "LIMITS", MappingProxyType({**registry.LIMITS, "rope_strength": generous}))
    assert any("wrong pass: rope_strength " in line for line in run_chunk(SEED, 0, 120).disagreements)


def test_registry_holds_the_limits_that_the_slow_evaluation_knows() -> None:
    assert tuple(registry.LIMITS) == LIMIT_NAMES
