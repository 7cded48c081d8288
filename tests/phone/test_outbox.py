"""What is entered is kept, and reaches the server once, whatever dies on the way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from typing import Any

import pytest
from playwright.sync_api import Page, Route, expect

from becket.records.kept import Kept
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("test_outbox")]  # one server for all
CRANE = "hazel-70"
WHO = f"/who?crane={CRANE}"
NO_LOCKS = "Object.defineProperty(navigator, 'locks', { value: undefined });"
NO_OUTBOX = """
    const put = IDBObjectStore.prototype.put;
    IDBObjectStore.prototype.put = function (...all) { return this.name === "outbox" ? null : put.apply(this, all); };
"""
OLD_CLOCK = """
    const gone = Date.now() - Date.parse("2020-01-01T10:00:00Z"), Right = Date;
    Date = class extends Right {
        constructor(...all) { if (all.length) { super(...all); } else { super(Right.now() - gone); } }
        static now() { return Right.now() - gone; }
    };
"""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PhoneServer]:
    """Yield one server for all: it gives a worker to the test and can be made to die between commit and reply."""
    found = PhoneServer(demo_folder(tmp_path_factory.mktemp("odd"), CRANE), module="tests.phone.odd_server")
    yield found.start()
    found.stop()


def kept_there(server: PhoneServer, keys: Sequence[str]) -> list[Kept]:
    """Return what the server has kept of some keys, in its order."""
    return [one for one in stored(server.folder) if one.event.key in keys]


def there(server: PhoneServer, keys: Sequence[str]) -> list[str]:
    """Return those of some keys that the server has kept, in its order."""
    return [one.event.key for one in kept_there(server, keys)]


def enter_notes(page: Page, many: int, **more: object) -> list[str]:
    """Keep notes on the phone and return their keys."""
    found: list[str] = ask(
        page, "return put(arg.many, arg.crane, arg.more)", {"many": many, "crane": CRANE, "more": more}
    )
    return found


def deliver(page: Page) -> dict[str, Any]:
    """Deliver by button and return what the strap is made of."""
    found: dict[str, Any] = ask(page, "await (await m.outbox).deliver(); return (await m.outbox).counts();")
    return found


def strap(page: Page) -> str:
    """Return what the strap says of the signal."""
    return page.inner_text("[data-strap=signal]")


def test_twenty_queued_two_tabs_and_a_worker_deliver_once(phone: Phone, server: PhoneServer) -> None:
    """Without locks, and with the server restarted while they deliver: each is there once, in the order entered."""
    phone.add_script(NO_LOCKS)
    one = phone.enter(server, WHO)
    two = phone.page()
    phone.go(two, server, WHO)
    made = "globalThis.worker = new Worker('/test/worker.js?no-locks', { type: 'module' });"
    ask(one, made + "await new Promise((ready) => { worker.onmessage = ready; });")
    server.kill()
    keys = enter_notes(one, 20)
    assert ask(two, "return (await m.outbox).counts()")["kept"] == 20
    server.start()
    begin = "void (await m.outbox).deliver();"
    ask(one, "worker.postMessage('go');" + begin)
    ask(two, begin)
    server.restart()
    for tab in (two, one):
        counts = deliver(tab)
    assert (counts["kept"], counts["refused"], counts["state"]) == (0, 0, "sent")
    assert there(server, keys) == keys
    shown = ask(one, "return (await (await m.view).eventsOf(arg)).filter((event) => event.own)", CRANE)
    assert [event["key"] for event in shown] == keys
    assert [event["number"] for event in shown] == [one.number for one in kept_there(server, keys)]


def test_a_refused_item_goes_to_a_list_and_blocks_nothing(phone: Phone, server: PhoneServer) -> None:
    """The second of three has a role that the server does not know."""
    page = phone.enter(server, WHO)
    phone.context_now().set_offline(True)
    first, bad, last = (enter_notes(page, 1, **more)[0] for more in ({}, {"role": "nobody"}, {}))
    expect(page.locator("[data-strap=signal]")).to_have_text("No signal · 3 kept")
    phone.context_now().set_offline(False)
    counts = deliver(page)
    assert (counts["kept"], counts["refused"]) == (0, 1)
    assert there(server, [first, bad, last]) == [first, last]
    assert strap(page) == "1 refused: look"
    page.click("[data-strap=signal]")
    refused = page.locator(".kept-refused .kept-item")
    refused.wait_for()
    assert refused.count() == 1
    assert "role: 'nobody'" in refused.inner_text()
    assert "note 0" in refused.inner_text()
    refused.get_by_role("button", name="Send it once more").click()
    counts = deliver(page)
    assert (counts["kept"], counts["refused"]) == (0, 1), "still refused, still there"
    shown = ask(page, "return (await (await m.view).eventsOf(arg)).map((event) => event.key)", CRANE)
    assert bad not in shown, "what is not in the record is not shown as if it were"


def test_a_whole_batch_refused_is_taken_apart(phone: Phone, server: PhoneServer) -> None:
    """A delivery too large for the server as a whole: each event by itself is not."""
    page = phone.enter(server, WHO)
    phone.context_now().set_offline(True)

    def only_small(route: Route) -> None:
        if len(route.request.post_data or "") > 4000:
            route.fulfill(status=413, body="too large")
        else:
            route.continue_()

    phone.context_now().route("**/api/events", only_small)
    keys = enter_notes(page, 15)
    phone.context_now().set_offline(False)
    counts = deliver(page)
    assert (counts["kept"], counts["refused"]) == (0, 0)
    assert there(server, keys) == keys


def test_the_server_dies_between_commit_and_reply(
    phone: Phone, server: PhoneServer, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It has the events, the phone does not know it and sends them again: they stand once."""
    page = phone.enter(server, WHO)
    server.kill()
    keys = enter_notes(page, 3)
    monkeypatch.setenv("ODD", "drop")
    server.start()
    counts = deliver(page)
    assert (counts["state"], counts["kept"]) == ("no_signal", 3)
    assert there(server, keys) == keys, "they were kept before it died"
    monkeypatch.delenv("ODD")
    server.kill()
    server.start()
    assert deliver(page)["kept"] == 0
    assert there(server, keys) == keys


def test_signed_out_keeps_everything(phone: Phone, server: PhoneServer) -> None:
    """The session is gone: the strap says what to do, and the link brings all of it home."""
    page = phone.enter(server, WHO)
    phone.context_now().clear_cookies()
    keys = enter_notes(page, 1)
    assert deliver(page)["state"] == "signed_out"
    assert strap(page) == "Open the link · 1 kept"
    phone.enter(server, WHO)
    assert deliver(page)["kept"] == 0
    assert there(server, keys) == keys


def test_a_log_in_page_of_the_network_is_no_signal(phone: Phone, server: PhoneServer) -> None:
    """A hotel's page answers with HTML, good or not: nothing counts as sent, nothing as refused."""
    page = phone.enter(server, WHO)
    context = phone.context_now()
    for status in (200, 503, 511):
        context.route("**/api/**", partial(_log_in_page, status))
        keys = enter_notes(page, 1)
        counts = deliver(page)
        assert (counts["kept"], counts["refused"]) == (1, 0)
        assert counts["state"] == ("trouble" if status == 511 else "no_signal")
        context.unroute("**/api/**")
        assert deliver(page)["kept"] == 0
        assert there(server, keys) == keys


def _log_in_page(status: int, route: Route) -> None:
    route.fulfill(status=status, content_type="text/html", body="<h1>Room number?</h1>")


def test_a_clock_set_back_is_kept_as_it_is_and_changes_no_order(phone: Phone, server: PhoneServer) -> None:
    """Ticks go on from the greatest that the phone knows."""
    page = phone.enter(server, WHO)
    first = enter_notes(page, 1)
    deliver(page)
    phone.add_script(OLD_CLOCK)
    phone.go(page, server, WHO)
    second = enter_notes(page, 1)
    assert deliver(page)["kept"] == 0
    old, new = kept_there(server, first + second)
    assert [old.event.key, new.event.key] == first + second
    assert new.event.at.startswith("2020-01-01T")
    assert new.event.tick == old.event.tick + 1
    assert new.received > old.received > "2021"
    shown = ask(page, "return (await (await m.view).eventsOf(arg)).map((event) => event.key)", CRANE)
    assert shown[-2:] == first + second


def test_a_server_put_back_to_an_older_copy_gets_what_it_lost(phone: Phone, server: PhoneServer) -> None:
    """The phone has what the server lost, and sends it again."""
    page = phone.enter(server, WHO)
    first = enter_notes(page, 2)
    deliver(page)
    server.stop()
    copy = {path: path.read_bytes() for path in server.folder.glob("becket.sqlite*")}
    server.start()
    second = enter_notes(page, 2)
    assert deliver(page)["kept"] == 0
    server.kill()
    for old in server.folder.glob("becket.sqlite*"):
        old.unlink()
    for path, content in copy.items():
        path.write_bytes(content)
    server.start()
    assert there(server, first + second) == first
    assert deliver(page)["kept"] == 0
    assert there(server, first + second) == first + second


def entry_arrives(phone: Phone, server: PhoneServer) -> bool:
    """Enter with the server stopped, let the battery die, come back: whether the entry is with the server then."""
    page = phone.enter(server, WHO)
    server.stop()
    keys = enter_notes(page, 2)
    phone.kill()
    server.start()
    phone.switch_on()
    counts = deliver(phone.enter(server, WHO))
    assert (counts["kept"], counts["state"]) == (0, "sent")
    return there(server, keys) == keys


def test_an_entry_without_signal_outlives_the_browser(phone: Phone, server: PhoneServer) -> None:
    """Killed right after it was called kept: it is there, and is delivered."""
    assert entry_arrives(phone, server)


def test_control_an_outbox_that_keeps_nothing_loses_the_entry(phone: Phone, server: PhoneServer) -> None:
    """The same, with the store of the outbox cut off: the entry is lost, so the test above can fail."""
    phone.add_script(NO_OUTBOX)
    assert not entry_arrives(phone, server)
