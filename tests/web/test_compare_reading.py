"""A second person's reading of a pattern, compared by the server."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from becket.guide.event import Event
from becket.reeving.pattern import find_pattern
from becket.reeving.seal import is_confirmed
from becket.reeving.words import path_words, read_state
from tests.web.asking import Phone
from tests.web.run_answered import Writer, people_events
from tests.web.test_receive import deliver

STATE = "main:5"  # typed in the demo's book, not confirmed


def reading(phone: Phone, **other: Any) -> Event:
    """Return a reading of the pattern by the rigger, right unless something else is given."""
    book = phone.house.crane("hazel-70").book
    assert book is not None
    pattern = find_pattern(book, read_state(STATE))
    assert pattern is not None
    entered = {"state": STATE, "path": path_words(pattern.path), "dead_end": str(pattern.dead_end), **other}
    return Writer(device="d3").write("pattern_read", entered, role="rigger", run=None, key="r-1")


def answers(phone: Phone) -> list[dict[str, Any]]:
    """Return what becket said of readings."""
    return [dict(one.entered) for one in phone.house.events("hazel-70") if one.kind == "pattern_compared"]


def test_the_same_reading_seals_the_pattern_once(phone: Phone) -> None:
    for _ in range(2):
        deliver(phone, [*people_events(), reading(phone)])
    (answer,) = answers(phone)
    assert (answer["about"], answer["sealed"], answer["name"], answer["state"]) == ("r-1", True, "Bo Fenn", STATE)
    book = phone.house.crane("hazel-70").book
    assert book is not None
    pattern = find_pattern(book, read_state(STATE))
    assert pattern is not None
    assert is_confirmed(book, pattern)


def test_another_reading_shows_both_and_seals_nothing(phone: Phone, folder: Path) -> None:
    before = (folder / "hazel-70.crane.yaml").read_bytes()
    deliver(phone, [*people_events(), reading(phone, path="head 1, block 1", dead_end="head a")])
    (answer,) = answers(phone)
    assert answer["sealed"] is False
    assert answer["read"] == {"path": ["head 1", "block 1"], "dead_end": "head a"}
    assert len(answer["typed"]["path"]) == 5
    assert (folder / "hazel-70.crane.yaml").read_bytes() == before


def test_the_typist_and_what_cannot_be_read_are_told_why(phone: Phone) -> None:
    book = phone.house.crane("hazel-70").book
    assert book is not None
    pattern = find_pattern(book, read_state(STATE))
    assert pattern is not None
    assert pattern.typed is not None
    people = people_events()
    typist = Event(**{**vars(people[1]), "entered": {**people[1].entered, "name": pattern.typed.by}})
    deliver(phone, [people[0], typist, reading(phone)])
    (answer,) = answers(phone)
    assert answer["sealed"] is False
    assert "another person reads the page" in answer["why"]


def test_a_path_that_is_none_is_told(phone: Phone) -> None:
    deliver(phone, [*people_events(), reading(phone, path="somewhere")])
    (answer,) = answers(phone)
    assert answer["sealed"] is False
    assert "somewhere" in answer["why"]
