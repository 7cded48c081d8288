"""Records become plain JSON; nothing that JSON does not know gets through."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date, datetime, time

import pytest

from becket.book.tackle import Pass, State
from becket.cli.json_answers import keyed, plain
from becket.verdict import Verdict


@dataclass(frozen=True, kw_only=True)
class Sample:
    """A record of a test."""

    state: State
    verdict: Verdict
    secret: int = 7


def test_every_kind_of_value() -> None:
    value = {
        1: (Pass(place="head", sheave=3), State(block="main", falls=4), Verdict.UNKNOWN),
        "at": [date(2027, 3, 1), datetime(2027, 3, 1, 7), time(6, 30)],
        "numbers": (1, 2.5, float("inf"), float("nan"), True, None),
    }
    assert json.loads(json.dumps(plain(value), allow_nan=False)) == {
        "1": ["head 3", "main:4", "unknown"],
        "at": ["2027-03-01", "2027-03-01T07:00:00", "06:30:00"],
        "numbers": [1, 2.5, None, None, True, None],
    }


def test_only_the_named_keys_go_out_in_their_order() -> None:
    sample = Sample(state=State(block="main", falls=2), verdict=Verdict.PASS)
    assert list(keyed(sample, ("verdict", "state")).items()) == [("verdict", "pass"), ("state", "main:2")]


def test_a_value_with_no_json_is_a_bug_and_says_so() -> None:
    with pytest.raises(TypeError, match="no JSON for object"):
        plain(object())
