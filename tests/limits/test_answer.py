"""Records of the falls table."""

from __future__ import annotations

import pytest

from becket.limits.answer import Limit
from becket.verdict import Verdict
from tests.limits.asking import row


def test_a_limit_cannot_be_changed() -> None:
    limit = row().limits[0]
    with pytest.raises(AttributeError):
        limit.use = 0.0  # type: ignore[misc]


def test_a_limit_is_found_by_its_name() -> None:
    assert row().limit("chart").name == "chart"
    with pytest.raises(StopIteration):
        row().limit("charts")


def test_a_limit_has_the_keys_of_its_json() -> None:
    assert Limit._fields == ("name", "verdict", "use", "have", "need", "unit", "where", "why")
    assert isinstance(row().limits[0].verdict, Verdict)
