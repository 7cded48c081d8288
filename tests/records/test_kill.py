"""kill -9 in the middle of writing: what was acknowledged is there once, the chain holds, and it goes on."""

from __future__ import annotations

import pytest

from becket.records.guards import drop_guards, place_guards
from becket.records.store import Store
from tests.records.invented import NOON, some
from tests.records.kill import Acknowledged, killed, missed
from tests.records.postgres import Server

PLACES = {"sqlite": 14, "postgresql": 8}


def test_what_was_acknowledged_before_a_kill_is_there_once(url: str, engine: str) -> None:
    acknowledged = Acknowledged()
    for seed in range(PLACES[engine]):
        acknowledged |= killed(url, f"p{seed}", seed)
        assert missed(url, acknowledged) == []
    assert len(acknowledged) > PLACES[engine]


def test_a_kill_of_the_server_of_postgresql_loses_nothing_that_was_acknowledged() -> None:
    server = Server(fsync="on")
    try:
        url = server.new_database()
        with Store.open(url) as store:
            numbers = {one.key: one.number for one in store.append(some(1, 20), NOON)}
            server.kill()
            server.start()
        assert missed(url, {key: number for key, number in numbers.items() if number}) == []
    finally:
        server.stop()


@pytest.mark.parametrize("engine", ["sqlite"], indirect=True)
def test_the_look_afterwards_can_find_a_fault(url: str) -> None:
    with Store.open(url) as store:
        store.append(some(1, 5), NOON)
    assert missed(url, {"phone-1.3": 3}) == []
    assert missed(url, {"phone-1.3": 4, "nobody": 9}) == ["phone-1.3: acknowledged as 4", "nobody: acknowledged as 9"]
    with Store.open(url) as store, store.database.writing() as connection:
        drop_guards(connection)
        connection.exec_driver_sql("DELETE FROM events WHERE number = 3")
        place_guards(connection)
    faults = missed(url, {"phone-1.3": 3})
    assert faults[0] == "phone-1.3: acknowledged as 3"
    assert "event 3 is missing" in faults[1]
    assert faults[2] == "gaps"
