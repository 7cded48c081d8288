"""Trouble and inspection on the phone, with no server; a note on a record."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from becket.cli.demo_crew import keep_crew
from tests.phone.crew import CRANE, make_ready
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder

pytestmark = pytest.mark.browser
TROUBLE = f"/c/{CRANE}/trouble"
KEPT = """async (path) => {
    while ((await caches.match(path)) === undefined) await new Promise((done) => setTimeout(done, 50));
}"""
PARTS = ("rope", "sheaves", "head", "block", "switch")


@pytest.fixture
def ready(tmp_path: Path) -> Iterator[PhoneServer]:
    """Yield a server with a crew and one closed count."""
    folder = demo_folder(tmp_path / "data", CRANE)
    keep_crew(folder)
    make_ready(folder)
    server = PhoneServer(folder)
    yield server.start()
    server.stop()


def hold(phone: Phone, server: PhoneServer, person: str, path: str) -> Page:
    """Return a tab whose phone is in a person's hands."""
    page = phone.enter(server, f"/c/{CRANE}/now")
    ask(page, "await (await m.outbox).deliver(); await (await m.people).setHolder(arg)", person)
    phone.go(page, server, path)
    return page


def is_kept(page: Page, path: str) -> None:
    """Wait until the phone keeps a page."""
    page.evaluate("() => navigator.serviceWorker.ready.then(() => undefined)")
    page.evaluate(KEPT, path)


def inspect(page: Page, fit: str) -> None:
    """Write an inspection and give the digits."""
    page.locator("#trouble-by_whom").fill("Cy Marsh")
    page.locator("#trouble-licence").fill("IN 7")
    for part in PARTS:
        page.locator(f"#trouble-{part}").fill(f"{part} looked at, no mark")
    page.get_by_role("button", name=fit).tap()
    page.get_by_role("button", name="Go on to your digits").tap()
    for one in "1111":
        page.locator(f"[data-key='{one}']").tap()


def test_locked_out_and_inspected_with_no_server(phone: Phone, ready: PhoneServer) -> None:
    """Nothing stands there before it is written; not fit keeps it locked; fit ends it; all is sent later, once."""
    page = hold(phone, ready, "demo-operator", TROUBLE)
    is_kept(page, TROUBLE)
    ready.stop()
    page.get_by_role("button", name="Enter it. The crane is locked out").tap()
    page.get_by_text("Choose what happened.").wait_for()
    page.get_by_role("button", name="Two-block").tap()
    page.locator("#trouble-note").fill("Block met the head at 2 t.")
    page.get_by_role("button", name="Enter it. The crane is locked out").tap()
    page.get_by_text("LOCKED OUT: Two-block").wait_for()
    assert (
        page.locator("#trouble-form input, #trouble-form textarea").evaluate_all("(all) => all.map((one) => one.value)")
        == [""] * 7
    )
    page.get_by_role("button", name="Go on to your digits").tap()
    page.get_by_text("Nothing entered: Who inspected: name.").wait_for()
    inspect(page, "Not fit")
    page.get_by_text("The crane stays locked out.").wait_for()
    assert page.get_by_text("LOCKED OUT: Two-block").is_visible()
    page.reload()
    page.wait_for_selector("body[data-ready]")
    inspect(page, "Fit: the lock-out ends")
    page.get_by_text("The lock-out is ended.").wait_for()
    assert page.get_by_text("Not locked out.").is_visible()
    ready.start()
    page.evaluate("() => dispatchEvent(new Event('online'))")
    page.locator("[data-strap=signal]", has_text="All sent").wait_for()
    events = [one.event for one in stored(ready.folder) if one.event.kind.split("_")[0] in ("trouble", "inspection")]
    assert [one.entered.get("fit") for one in events] == [None, False, True]
    assert events[-1].entered["inspected"] == {part: f"{part} looked at, no mark" for part in PARTS}
    phone.go(page, ready, TROUBLE)
    assert page.get_by_text("Not locked out.").is_visible()


def test_a_note_is_kept_and_stands_on_the_record_after_it_was_sent(phone: Phone, ready: PhoneServer) -> None:
    """Kept on this phone first; then on the page, with the name."""
    record = f"/c/{CRANE}/record/r-before"
    page = hold(phone, ready, "demo-rigger", record)
    ready.stop()
    page.get_by_role("button", name="Keep the note").tap()
    page.get_by_text("The note is empty. Write what is to be known.").wait_for()
    page.locator("#note").fill("Groove of head 3 looked at again.")
    page.get_by_role("button", name="Keep the note").tap()
    page.get_by_text("Kept on this phone, not sent: 1 entries of this record.").wait_for()
    assert "Groove of head 3 looked at again." in page.locator("[data-record=notes]").inner_text()
    ready.start()
    page.evaluate("() => dispatchEvent(new Event('online'))")
    page.locator("[data-record=waiting]").wait_for(state="hidden")
    phone.go(page, ready, record)
    notes = page.locator("#notes").inner_text()
    assert "Groove of head 3 looked at again." in notes
    assert "Rita Rigger" in notes


def test_a_record_that_is_only_on_this_phone_is_listed_with_no_server(phone: Phone, ready: PhoneServer) -> None:
    """Its own address shows the list, and there the run with its state."""
    page = hold(phone, ready, "demo-operator", f"/c/{CRANE}/record")
    is_kept(page, f"/c/{CRANE}/record")
    name = ask(
        page,
        "return (await (await m.view).eventsOf(arg)).find((one) => one.kind === 'run_started').entered.script",
        CRANE,
    )
    is_kept(page, f"/script/{name}.json")
    ready.stop()
    started = {"kind": "count", "script": name, "operator": "demo-operator", "rigger": "demo-rigger", "lot": 0}
    ask(
        page,
        "const [outbox, view] = [await m.outbox, await m.view];"
        "const parts = { crane: arg[0], run: 'r-here', role: 'operator', entered: arg[1] };"
        "await outbox.put(await view.newEvent('run_started', parts))",
        [CRANE, started],
    )
    page.goto(f"{ready.address}/c/{CRANE}/record/r-here")
    page.wait_for_selector("body[data-ready]")
    row = page.locator("#kept-r-here").inner_text()
    assert "NOT CLOSED" in row
    assert "Kept on this phone, not sent" in row
    assert "Operator Otto Operator: not signed" in row
