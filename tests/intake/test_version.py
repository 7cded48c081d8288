"""The version of the format: one, written as 1."""

from __future__ import annotations

import pytest

from becket.intake.version import VERSION
from tests.intake.reading import value_of


@pytest.mark.parametrize("written", ["1", "'1'"])
def test_the_one_version(written: str) -> None:
    assert value_of(VERSION, written) == (1, [])


@pytest.mark.parametrize("written", ["2", "1.0", "01", "one", "-1"])
def test_any_other_is_refused_and_named(written: str) -> None:
    message = f"f: version {written}; 1, the version of the format that this becket reads"
    assert value_of(VERSION, written) == (None, [message])


def test_a_list_of_versions() -> None:
    assert value_of(VERSION, "[1]") == (None, ["f: a list stands there; 1, the version of the format"])
