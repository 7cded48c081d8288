"""Deliveries of events: each by itself, once, and refused only for what could never be right."""

from __future__ import annotations

import asyncio
import json
import subprocess
import sys
from os import environ
from pathlib import Path
from typing import Any

import pytest

from becket.book.tackle import State
from becket.guide.event import Event, event_as_dict
from becket.guide.script import Script
from becket.web.receive import MOST_EVENTS
from tests.web.asking import ASKING, OWN, SOURCES, Phone
from tests.web.run_answered import RUN, Writer, answered, people_events, started

JSON = {**OWN, "content-type": "application/json"}
TWO, FOUR = State(block="main", falls=2), State(block="main", falls=4)


def script_at(phone: Phone, before: State = TWO, after: State = FOUR) -> tuple[str, Script]:
    """Return the script of a change, kept at the server."""
    found = phone.house.script_for(phone.house.crane("hazel-70"), before, after)
    assert isinstance(found, tuple)
    return found


def deliver(phone: Phone, events: list[Event]) -> dict[str, Any]:
    """Return the answer to a delivery."""
    answer = phone.post("/api/events", json={"events": [event_as_dict(event) for event in events]})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


def test_a_whole_change_comes_in_at_once_and_a_second_time_changes_nothing(phone: Phone) -> None:
    name, script = script_at(phone)
    events = [*people_events(), *answered(script, Writer(), name)]
    first = deliver(phone, events)
    again = deliver(phone, events)
    assert [one["refused"] for one in first["results"]] == [None] * len(events)
    assert [one["number"] for one in first["results"]] == list(range(1, len(events) + 1))
    assert again == first
    assert phone.house.now(phone.house.crane("hazel-70")).state == "main:4"


def test_a_bad_event_holds_up_no_good_one(phone: Phone) -> None:
    good = [event_as_dict(one) for one in people_events()]
    bad: list[object] = [{}, 7, None, {**good[0], "key": "k", "kind": "deleted"}, {**good[0], "key": "k", "extra": 1}]
    answer = phone.post("/api/events", json={"events": [good[0], *bad, good[1]]}).json()
    assert [one["number"] for one in answer["results"]] == [1, None, None, None, None, None, 2]
    assert all(isinstance(one["refused"], str) for one in answer["results"][1:-1])


def test_the_same_key_with_other_content_is_refused_and_the_first_stays(phone: Phone) -> None:
    people = people_events()
    deliver(phone, people)
    changed = {**event_as_dict(people[0]), "at": "2026-11-30T00:00:00Z"}
    (result,) = phone.post("/api/events", json={"events": [changed]}).json()["results"]
    assert result["number"] is None
    assert "What is kept cannot be changed" in result["refused"]


def test_what_can_never_be_right_is_refused_by_name(phone: Phone) -> None:
    name, script = script_at(phone)
    deliver(phone, people_events())
    stranger = Writer(device="d2").write("noted", {"text": "x"}, person="p-nobody", run=None, key="n-1")
    no_script = started(Writer(), script, "0000000000000000")
    results = deliver(phone, [stranger, no_script])["results"]
    assert all(one["number"] is None and one["refused"] for one in results)
    second = [started(Writer(), script, name), started(Writer(), script, name)]
    other = Event(**{**event_as_dict(second[1]), "key": "other", "run": "run-2", "tick": 2})  # type: ignore[arg-type]
    results = deliver(phone, [second[0], other])["results"]
    assert results[0]["refused"] is None
    assert RUN in results[1]["refused"]


@pytest.mark.parametrize(
    "body",
    [b"", b"{", b"[]", b"7", b'{"events": {}}', b'{"event": []}', b"\xff\xfe", b"[" * 100_000],
)
def test_what_is_no_delivery_is_refused_whole(phone: Phone, body: bytes) -> None:
    answer = phone.post("/api/events", headers=JSON, content=body)
    assert answer.status_code == 409
    assert "a delivery is" in answer.json()["refused"]


@pytest.mark.parametrize(
    "odd",
    [
        '{"key": "\\ud800"}',
        '{"\\ud800": 1}',
        '{"key": {"a": 1}, "kind": {}}',
        '{"key": "k", "key": 7}',
        "1e999",
        "NaN",
        "[" * 400 + "]" * 400,
        '"\\u0000"',
    ],
)
def test_an_odd_item_is_answered_and_holds_up_no_good_one(phone: Phone, odd: str) -> None:
    good = json.dumps(event_as_dict(people_events()[0]))
    answer = phone.post("/api/events", headers=JSON, content=f'{{"events": [{odd}, {good}]}}'.encode())
    assert answer.status_code == 200
    assert [one["number"] for one in answer.json()["results"]] == [None, 1]


@pytest.mark.parametrize("name", list(event_as_dict(people_events()[0])))
@pytest.mark.parametrize(
    "value", ['"\\ud800"', "{}", "[]", "1" * 4000, '"' + "x" * 30_000 + '"', "[" * 300 + "]" * 300]
)
def test_an_odd_value_in_any_place_is_answered(phone: Phone, name: str, value: str) -> None:
    plain = event_as_dict(people_events()[0])
    odd = json.dumps(plain | {name: "ODD", **({} if name == "key" else {"key": "odd"})}).replace('"ODD"', value)
    good = json.dumps(plain)
    answer = phone.post("/api/events", headers=JSON, content=f'{{"events": [{odd}, {good}]}}'.encode())
    assert answer.status_code == 200
    assert answer.json()["results"][1]["refused"] is None
    assert all(one["number"] or one["refused"] for one in answer.json()["results"])


def test_too_many_and_too_large_are_refused_and_nothing_is_kept(phone: Phone) -> None:
    many = phone.post("/api/events", json={"events": [{}] * (MOST_EVENTS + 1)})
    large = phone.post("/api/events", headers=JSON, content=b'{"events": ["' + b"x" * 1_000_000 + b'"]}')
    assert (many.status_code, large.status_code) == (409, 413)
    assert f"at most {MOST_EVENTS}; send it in parts" in many.json()["refused"]
    assert "At most 1 MB" in large.json()["refused"]
    assert phone.house.store.head().number == 0


def test_a_body_that_grows_without_saying_its_length_is_cut_off(phone: Phone) -> None:
    async def endless() -> Any:
        for _ in range(40):
            yield b" " * 100_000

    assert phone.post("/api/events", headers=JSON, content=endless()).status_code == 413


DYING = """
import json, os, sys
from pathlib import Path
from becket.records.store import Store
from becket.web.house import House
from becket.web.receive import receive

real = Store.append

def kept_and_dead(store, events, received):
    real(store, events, received)
    os._exit(9)

Store.append = kept_and_dead
receive(House.open(Path(sys.argv[1])), json.load(sys.stdin))
"""


def test_killed_between_commit_and_reply_the_second_delivery_gets_the_numbers_of_the_first(
    phone: Phone, folder: Path
) -> None:
    events = people_events()
    delivery = {"events": [event_as_dict(one) for one in events]}
    environment = {**environ, "PYTHONPATH": str(SOURCES)}
    words = [sys.executable, "-c", DYING, str(folder)]
    died = subprocess.run(words, input=json.dumps(delivery), text=True, env=environment, check=False, timeout=60)
    assert died.returncode == 9
    assert [one["number"] for one in deliver(phone, events)["results"]] == [1, 2]
    assert phone.house.store.head().number == 2


def test_a_full_disk_keeps_none_says_so_and_takes_all_when_there_is_room(phone: Phone) -> None:
    store, events = phone.house.store, people_events()
    with store.database.engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
    big = [Event(**{**event_as_dict(one), "shown": {"text": "x" * 15_000}}) for one in events]  # type: ignore[arg-type]

    def bound(connection: Any, record: Any) -> None:
        connection.execute(f"PRAGMA max_page_count = {pages}")

    from sqlalchemy import event as listening

    listening.listen(store.database.engine, "connect", bound)
    store.database.engine.dispose()
    answer = phone.post("/api/events", json={"events": [event_as_dict(one) for one in big]})
    assert answer.status_code == 507
    assert "the disk is full" in answer.json()["refused"]
    assert store.head().number == 0
    listening.remove(store.database.engine, "connect", bound)
    store.database.engine.dispose()
    assert [one["number"] for one in deliver(phone, big)["results"]] == [1, 2]


def test_a_phone_that_loses_its_signal_in_the_middle_is_no_fault_of_becket(phone: Phone) -> None:
    """Nothing is raised, which would be a traceback where becket serve runs; nothing is kept."""
    sent: list[Any] = []
    parts = [{"type": "http.request", "body": b'{"events": [', "more_body": True}, {"type": "http.disconnect"}]
    headers = {**JSON, "host": "localhost", "cookie": f"becket={phone.cookies['becket']}"}
    scope = {
        "type": "http",
        "method": "POST",
        "path": "/api/events",
        "query_string": b"",
        "headers": [(name.encode(), value.encode()) for name, value in headers.items()],
    }

    async def receive() -> Any:
        return parts.pop(0)

    async def send(message: Any) -> None:
        sent.append(message)

    ASKING.submit(asyncio.run, phone.app(scope, receive, send)).result()
    assert (parts, sent) == ([], [])
    assert phone.house.store.head().number == 0
