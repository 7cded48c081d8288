"""Dangers on a shared server: what an account must not be able to bring, whoever holds the phone."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.guide.crane_now import lock_out
from becket.guide.event import Event, event_as_dict
from tests.web.accounts_at import Shared
from tests.web.asking import Phone, demo_folder
from tests.web.run_answered import Writer, answered, people_events

CRANE = "hazel-70"


@pytest.fixture
def shared(tmp_path: Path) -> Iterator[Shared]:
    """Yield a shared server with two people on the list."""
    found = Shared(demo_folder(tmp_path / "data"))
    found.house.store.append(people_events(), "2026-11-30T08:00:00Z")
    yield found
    found.house.close()


def brought(phone: Phone, events: list[Event]) -> list[str | None]:
    """Return what is said of each event."""
    answer = phone.post("/api/events", json={"events": [event_as_dict(one) for one in events]}).json()
    return [one["refused"] for one in answer["results"]]


@pytest.mark.parametrize("role", ["office", "administrator", "inspector"])
def test_a_count_made_up_away_from_the_crane(shared: Shared, role: str) -> None:
    """A whole change, right in every value, is kept of nobody but those who work at the crane."""
    two, four = (State(block="main", falls=falls) for falls in (2, 4))
    made = shared.house.script_for(shared.house.crane(CRANE), two, four)
    assert isinstance(made, tuple)
    name, script = made
    events = answered(script, Writer(), name)
    assert all(why is not None and "may not do this" in why for why in brought(shared.phone_in(role), events))
    assert shared.house.now(shared.house.crane(CRANE)).state is None
    assert brought(shared.phone_in("crew"), events) == [None] * len(events)
    assert shared.house.now(shared.house.crane(CRANE)).state == "main:4"


def test_a_second_person_made_up_on_the_spot(shared: Shared) -> None:
    """One who is alone puts an invented helper on the list, and is two: an account of the crew puts nobody on it."""
    new = {"id": "p-none", "name": "No Body", "role": "rigger", "licence": "", "salt": "00", "check": "00"}
    event = Writer().write("person_added", new, person="p-none", role="rigger", crane="", run=None, key="p-none")
    (why,) = brought(shared.phone_in("crew"), [event])
    assert why is not None
    assert "may not do this: put people on the crew list" in why
    assert brought(shared.phone_in("supervisor"), [event]) == [None]


def test_what_another_account_may_bring_is_to_be_kept_and_nothing_else_is(shared: Shared) -> None:
    """A phone in other hands: the answer tells it to keep the entry; one that is bad for everybody is refused."""
    writer = Writer()
    trouble = writer.write("trouble_entered", {"what": "shock", "note": "x"}, run=None)
    nobodys = writer.write("trouble_entered", {"what": "shock", "note": "x"}, run=None, person="p-none")
    for role, later in (("office", [True, True]), ("crew", [None, None])):
        sent = {"events": [event_as_dict(trouble), event_as_dict(nobodys)]}
        results = shared.phone_in(role).post("/api/events", json=sent).json()["results"]
        assert [one.get("later") for one in results] == later
    assert (results[0]["refused"], results[1]["number"]) == (None, None)


def test_a_lock_out_ended_by_those_who_are_locked_out(shared: Shared) -> None:
    """Trouble comes from everybody at the crane; the inspection that ends it from an inspector's account alone."""
    writer = Writer()
    trouble = writer.write("trouble_entered", {"what": "shock", "note": "x"}, run=None)
    parts = dict.fromkeys(("rope", "sheaves", "head", "block", "switch"), "nothing found")
    told = {"by_whom": "Ina Brook", "licence": "IN 1", "inspected": parts, "found": "nothing", "fit": True}
    inspection = writer.write("inspection_entered", told, run=None)
    for role in ("crew", "supervisor"):
        said = brought(shared.phone_in(role), [trouble, inspection])
        assert said[0] is None
        assert said[1] is not None
        assert "may not do this: enter an inspection" in said[1]
        assert lock_out(shared.house.events(CRANE)) is not None
    (as_operator,) = brought(shared.phone_in("inspector"), [inspection])
    assert as_operator is not None
    assert "brings no entry made as operator" in as_operator
    own = Event(**{**event_as_dict(inspection), "role": "inspector"})  # type: ignore[arg-type]
    assert brought(shared.phone_in("inspector"), [own]) == [None]
    assert lock_out(shared.house.events(CRANE)) is None
