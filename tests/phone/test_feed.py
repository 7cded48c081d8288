"""What a phone takes from the feed: in parts, whole or not at all; and from a server that lost events."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Route

from becket.records.backup import back_up_file, restore_file
from becket.records.store import Store, store_place
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder
from tests.web.run_answered import START, Writer

pytestmark = pytest.mark.browser
CRANE = "hazel-70"
WHO = f"/who?crane={CRANE}"
KEYS = "return (await (await m.view).eventsOf(arg)).map((event) => event.key)"
DELIVER = "await (await m.outbox).deliver(); return (await m.outbox).counts();"
MANY = 4100  # the server tells 2000 at a time


@pytest.fixture
def server(tmp_path: Path) -> Iterator[PhoneServer]:
    """Yield a server of its own."""
    found = PhoneServer(demo_folder(tmp_path / "data", CRANE))
    yield found.start()
    found.stop()


def test_a_long_record_comes_in_parts_and_half_of_it_is_not_taken(phone: Phone, server: PhoneServer) -> None:
    page = phone.enter(server, WHO)
    ask(page, DELIVER)
    writer = Writer(device="other")
    notes = [writer.write("noted", {"text": "x"}, run=None, person=None, key=f"n-{one}") for one in range(MANY)]
    with Store.open(store_place(server.folder)) as store:
        store.append(notes, START.isoformat())
    asked: list[str] = []

    def first_alone(route: Route) -> None:
        asked.append(route.request.url.partition("after=")[2].partition("&")[0])
        if len(asked) == 2:
            route.abort()
        else:
            route.continue_()

    phone.context_now().route("**/api/feed/**", first_alone)
    assert ask(page, DELIVER)["state"] == "no_signal"
    assert ask(page, KEYS, CRANE) == [], "a record that is half here would show a state that is past"
    assert ask(page, DELIVER)["state"] == "sent"
    assert ask(page, KEYS, CRANE) == [one.key for one in notes]
    assert asked == ["0", "2000", "0", "2000", "4000"]


def test_what_a_restored_server_lost_is_sent_again_also_where_as_many_came_in_since(
    phone: Phone, server: PhoneServer, tmp_path: Path
) -> None:
    page = phone.enter(server, WHO)
    old = ask(page, "return put(2, arg)", CRANE)
    ask(page, DELIVER)
    with Store.look(store_place(server.folder)) as store:
        back_up_file(store, tmp_path / "copy")
    lost = ask(page, "return put(3, arg)", CRANE)
    ask(page, DELIVER)
    server.stop()
    place = Path(store_place(server.folder))
    for end in ("", "-wal", "-shm"):
        place.with_name(place.name + end).unlink(missing_ok=True)
    restore_file(tmp_path / "copy", place)
    writer = Writer(device="other")
    others = [writer.write("noted", {"text": "x"}, run=None, person=None, key=f"n-{one}") for one in range(6)]
    with Store.open(store_place(server.folder)) as store:
        store.append(others, START.isoformat())
    server.start()
    for _ in range(2):
        counts = ask(page, DELIVER)
    assert (counts["state"], counts["kept"], counts["refused"]) == ("sent", 0, 0)
    there = [one.event.key for one in stored(server.folder)]
    assert sorted(there) == sorted([*old, *lost, *(one.key for one in others)])
    assert sorted(ask(page, KEYS, CRANE)) == sorted(there)
