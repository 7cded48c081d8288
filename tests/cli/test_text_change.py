"""A change as text."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest

from becket.book.tackle import State
from becket.cli.json_answers import change_json
from becket.cli.text_change import NOT_FOR_USE, change_text
from becket.method.change import work_out_change
from becket.method.site import Site
from becket.verdict import Verdict
from tests.cli.conftest import fits, held_by_schema
from tests.crane import invented_book, invented_settings

BOOK, SETTINGS = invented_book(), invented_settings()
SITE = Site(
    counterweight=BOOK.rereeve[0].counterweight,
    outriggers=BOOK.rereeve[0].outriggers,
    free_radius=60.0,
    ground=0.0,
    slope=0.0,
)
STATES = [pattern.state for pattern in BOOK.patterns]


@pytest.mark.parametrize("before", STATES, ids=str)
@pytest.mark.parametrize("after", STATES, ids=str)
@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_change_of_a_book_fits_and_says_whether_it_is_for_use(before: State, after: State, system: str) -> None:
    change = work_out_change(BOOK, SETTINGS, before, after, SITE)
    text = change_text(BOOK, change, system)
    fits(text)
    assert (NOT_FOR_USE in text) is (change.verdict is not Verdict.PASS)
    assert ("NOT CONFIRMED AGAINST THE MANUAL" in text.split("\n\n")[0]) is not change.is_confirmed
    assert all(f"{step.number:>4}  " in text for step in change.steps)
    held_by_schema("change", json.loads(json.dumps(change_json(change), allow_nan=False)))


def test_what_is_entered_alone_is_said_so() -> None:
    change = work_out_change(BOOK, SETTINGS, State(block="main", falls=2), State(block="main", falls=4), SITE)
    blind = [step for step in change.steps if step.blind]
    assert blind
    assert change_text(BOOK, change, "metric").count("Enter, alone and hidden from the other:") == len(blind)


def test_a_change_with_no_steps_shows_none() -> None:
    change = work_out_change(BOOK, SETTINGS, State(block="main", falls=2), State(block="main", falls=4), Site())
    text = change_text(BOOK, replace(change, steps=(), rules=()), "metric")
    assert "Steps" not in text
    assert "No position" in text
