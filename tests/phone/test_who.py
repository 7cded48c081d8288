"""Who holds the phone; a phone that is full; a count that nobody reads out of the phone."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from tests.phone.crew import CRANE, DIGITS, NAMED, make_ready
from tests.phone.measuring import wait_until_kept
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("test_who")]  # one server for all
WHO = f"/who?crane={CRANE}"
DUMP = """async () => {
    const texts = [location.href, document.title, document.documentElement.outerHTML,
        JSON.stringify(localStorage), JSON.stringify(sessionStorage), JSON.stringify(history.state)];
    for (const { name } of await indexedDB.databases()) {
        const base = await new Promise((done) => {
            indexedDB.open(name).onsuccess = (one) => done(one.target.result);
        });
        for (const store of base.objectStoreNames) {
            const all = await new Promise((done) => {
                base.transaction(store).objectStore(store).getAll().onsuccess = (one) => done(one.target.result);
            });
            const bytes = (key, value) => (ArrayBuffer.isView(value) || value instanceof ArrayBuffer)
                ? new TextDecoder("latin1").decode(value) : value;
            texts.push(JSON.stringify(all, bytes));
        }
        base.close();
    }
    for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const key of await cache.keys()) {
            texts.push(key.url, await (await cache.match(key)).text());
        }
    }
    return texts.join("\\n");
}"""
PUT = """
    const { newEvent } = await m.view;
    const entered = { item: arg.item, round: 1, values: { sheaves: [arg.secret] } };
    const start = { kind: "change", script: arg.script, lot: 0, ...arg.people, ...arg.start };
    const outbox = await m.outbox;
    const of = { crane: arg.crane, run: "r-1", role: "operator", person: arg.people.operator };
    await outbox.put(await newEvent("run_started", { ...of, entered: start }));
    await outbox.put(await newEvent("entered", { ...of, entered }));
    return (await (await m.view).eventsOf(arg.crane)).at(-1).entered;
"""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PhoneServer]:
    """Yield one server for all: a crew of the demo on the list, 2 falls on the crane."""
    found = PhoneServer(demo_folder(tmp_path_factory.mktemp("who"), CRANE))
    make_ready(found.folder)
    yield found.start()
    found.stop()


@pytest.fixture
def page(phone: Phone, server: PhoneServer) -> Page:
    """Return the page on a phone that has the crew list."""
    found = phone.enter(server, WHO)
    ask(found, "await (await m.outbox).deliver()")
    phone.go(found, server, WHO)
    return found


def type_digits(page: Page, digits: str) -> None:
    """Tap digits."""
    for one in digits:
        page.get_by_role("button", name=one, exact=True).tap()


def said(page: Page, text: str) -> None:
    """Wait until a text stands on the page."""
    expect(page.get_by_text(text)).to_be_visible()


def test_a_new_person_without_signal_is_on_the_list_everywhere(phone: Phone, server: PhoneServer, page: Page) -> None:
    """Name, role, licence, digits twice; kept here, sent later; no digit goes with it."""
    wait_until_kept(page, f"/c/{CRANE}/now")
    phone.context_now().set_offline(True)
    page.get_by_role("button", name="I am not on the list").tap()
    page.get_by_role("button", name="Choose four digits").tap()
    said(page, "The name is empty. Write first and last name.")
    page.get_by_label("Name, first and last").fill(" Nell  Third ")
    page.get_by_role("button", name="Choose four digits").tap()
    said(page, "The role is not chosen. Choose one.")
    page.get_by_label("Rigger").check()
    page.get_by_label("Licence").fill("Rigger, basic")
    page.get_by_label("Its number").fill("R 77")
    page.get_by_role("button", name="Choose four digits").tap()
    type_digits(page, "7849")
    said(page, "The same four again.")
    type_digits(page, "7848")
    said(page, "Not the same four. Choose again.")
    for _ in range(2):
        type_digits(page, "7849")
    page.wait_for_url(f"**/c/{CRANE}/now")
    phone.context_now().set_offline(False)
    phone.go(page, server, WHO)
    first = page.locator(".person").first
    assert first.inner_text().split("\n") == ["NT", "Nell Third", "Rigger, holds it now"]
    ask(page, "await (await m.outbox).deliver()")
    event = stored(server.folder)[-1].event
    assert (event.kind, event.crane, event.entered["name"], event.entered["licence"]) == (
        *("person_added", "", "Nell Third"),
        "Rigger, basic, R 77",
    )
    assert "7849" not in page.evaluate(DUMP).replace(event.entered["check"], "").replace(event.entered["salt"], "")


def test_wrong_digits_make_a_wait_that_a_reload_does_not_end(phone: Phone, server: PhoneServer, page: Page) -> None:
    """After five; then even the right ones are not looked at."""
    otto = page.locator(".person", has_text="Otto Operator")
    otto.tap()
    for left in (4, 3, 2, 1):
        type_digits(page, "9999")
        said(page, f"Not these digits. {left} more, then there is a wait.")
    type_digits(page, "9999")
    said(page, "Wrong too often. Wait 30 s, then enter them again.")
    phone.go(page, server, WHO)
    otto.tap()
    type_digits(page, "1111")
    expect(page.get_by_text("Wrong too often. Wait ")).to_be_visible()
    assert ask(page, "return (await m.people).holder()") is None


def test_two_others_vouch_for_forgotten_digits(server: PhoneServer, page: Page) -> None:
    """Each with own digits; then the old ones are void and the new ones hold."""
    people = ask(page, "return (await (await m.people).crew()).map((one) => one.name)")
    assert len(people) >= 3, people
    page.locator(".person", has_text="Otto Operator").tap()
    page.get_by_role("button", name="Digits forgotten").tap()
    said(page, "Two others vouch for Otto Operator. Who is the first?")
    assert page.locator(".person", has_text="Otto Operator").count() == 0
    for name, key in (("Rita Rigger", NAMED["rigger"]), ("Suse Supervisor", "demo-supervisor")):
        page.locator(".person", has_text=name).tap()
        type_digits(page, DIGITS[key])
    for _ in range(2):
        type_digits(page, "6161")
    page.wait_for_url("**/now")
    is_right = "return (await m.people).areDigitsOf(arg[0], arg[1])"
    page.goto(server.address + WHO)
    page.wait_for_selector("body[data-ready]")
    assert ask(page, is_right, [NAMED["operator"], "6161"])
    assert not ask(page, is_right, [NAMED["operator"], DIGITS[NAMED["operator"]]])


def test_a_full_phone_says_so_and_the_entry_stays(phone: Phone, server: PhoneServer) -> None:
    """Nothing is called kept that is not; the browser has no room for this server from its first page on."""
    session = phone.context_now().new_cdp_session(phone.page())
    session.send("Storage.overrideQuotaForOrigin", {"origin": server.address, "quotaSize": 1})
    page = phone.enter(server, WHO)
    full = page.get_by_text("Cannot keep it: the phone is full. Write it on paper now.")
    full.wait_for()
    page.get_by_role("button", name="I have read it").tap()
    page.get_by_role("button", name="I am not on the list").tap()
    page.get_by_label("Name, first and last").fill("Full Phone")
    page.get_by_label("Rigger").check()
    page.get_by_role("button", name="Choose four digits").tap()
    for _ in range(2):
        type_digits(page, "4545")
    full.wait_for()
    assert page.locator("h1").inner_text() == "Full Phone"
    assert "Full Phone" not in [one.event.entered.get("name") for one in stored(server.folder)]


def test_a_blind_count_is_nowhere_in_the_clear(phone: Phone, server: PhoneServer, page: Page) -> None:
    """Not in the store, a cache, the page, its address or title; sent as it was entered, it comes back hidden."""
    url = f"/api/kept/{CRANE}"
    scripts = page.evaluate("(url) => fetch(url).then((one) => one.json())", url)["scripts"]
    name = scripts[0]["id"]
    script = page.evaluate("(id) => fetch(`/script/${id}.json`).then((one) => one.json())", name)
    item = next(one for one in script["items"] if one["blind"] and one["who"] == "operator")
    secret = "9481776251"
    phone.context_now().set_offline(True)
    start = {"book": script["book"], "before": script["before"], "after": script["after"], "why": "a test"}
    given = {"crane": CRANE, "script": name, "item": item["id"], "secret": secret, "people": NAMED, "start": start}
    shown = ask(page, PUT, given)
    assert shown == {"item": item["id"], "round": 1, "sealed": True}
    assert secret not in page.evaluate(DUMP)
    phone.context_now().set_offline(False)
    ask(page, "await (await m.outbox).deliver()")
    assert ask(page, "return (await m.outbox).refusedItems()") == []
    assert stored(server.folder)[-1].event.entered["values"] == {"sheaves": [secret]}
    assert secret not in page.evaluate(DUMP)
    feed = page.evaluate("(url) => fetch(url).then((one) => one.text())", f"/api/feed/{CRANE}?after=0")
    assert secret not in feed
    assert '"sealed": true' in feed or '"sealed":true' in feed


def test_control_what_is_not_blind_is_found_by_the_search(page: Page) -> None:
    """The search of the test above finds a value that lies in the clear."""
    ask(page, "return put(1, arg, { entered: { text: 'secret 9481776251' } })", CRANE)
    assert "secret 9481776251" in page.evaluate(DUMP)
