"""The second person cannot see the first one's count before giving their own: not in the page, nor behind it."""

from __future__ import annotations

import pytest
from playwright.sync_api import Page

from becket.guide.script import Script
from tests.phone.crew import CRANE, NAMED, Crew
from tests.phone.modules import ask
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer
from tests.phone.test_change import CHANGE, begin

pytestmark = pytest.mark.browser
HEIGHT = 4.077  # a height that stands nowhere else, as the rigger measures it
PLANTED = "planted-7f3a"
EVERYWHERE = """async () => {
    const found = [location.href, document.title, document.documentElement.outerHTML, document.cookie];
    const strings = (value) => {
        if (value instanceof ArrayBuffer || ArrayBuffer.isView(value)) {
            const bytes = new Uint8Array(value.buffer ?? value, value.byteOffset ?? 0, value.byteLength);
            found.push(new TextDecoder("latin1").decode(bytes));
        } else if (value instanceof CryptoKey) found.push(`key ${value.extractable}`);
        else if (value && typeof value === "object") {
            Object.entries(value).forEach(([k, v]) => { found.push(k); strings(v); });
        }
        else found.push(String(value));
    };
    for (const store of [localStorage, sessionStorage]) strings({ ...store });
    strings(history.state);
    for (const { name } of await indexedDB.databases()) {
        const open = indexedDB.open(name);
        const database = await new Promise((done) => { open.onsuccess = () => done(open.result); });
        for (const store of database.objectStoreNames) {
            const request = database.transaction(store).objectStore(store).openCursor();
            await new Promise((done) => { request.onsuccess = () => {
                const cursor = request.result;
                if (!cursor) { done(); return; }
                strings(cursor.value); strings(cursor.key); found.push(JSON.stringify(cursor.value) ?? "");
                cursor.continue();
            }; });
        }
        database.close();
    }
    for (const name of await caches.keys()) {
        const cache = await caches.open(name);
        for (const request of await cache.keys()) {
            found.push(request.url, await (await cache.match(request)).text());
        }
    }
    return found;
}"""


class Heard:
    """Every address of the server that the browser asks."""

    def __init__(self, page: Page, server: PhoneServer) -> None:
        self.page, self.server, self.addresses = page, server, set[str]()
        page.context.on("request", lambda asked: self.addresses.add(asked.url))

    def answers(self) -> list[str]:
        """Return what each of them answers now, to this phone; kept copies are searched where they are kept."""
        found = sorted(self.addresses)
        for address in [one for one in found if one.startswith(self.server.address) and "/static/" not in one]:
            found.append(self.page.context.request.get(address, timeout=60_000).text())
        return found


def everywhere(page: Page) -> list[str]:
    """Return every text that the browser holds for this site: page, storages, databases, caches."""
    found: list[str] = page.evaluate(EVERYWHERE)
    return found


def history_of(page: Page) -> list[str]:
    """Return addresses and titles of the pages that Back reaches."""
    entries = page.context.new_cdp_session(page).send("Page.getNavigationHistory")["entries"]
    return [f"{one['url']} {one['title']}" for one in entries]


def first_hidden(crew: Crew, script: Script) -> None:
    """Play until one of the two who measure the hook has entered an odd height, and the other is asked."""
    group = next(one for one in script.groups if one.name == "hook height")
    for item in group.items:
        crew.other[item] = {"height": HEIGHT}
    crew.play(lambda one: bool(one.done & set(group.items)))


def test_the_first_count_is_nowhere_until_the_second_is_in(phone: Phone, ready: tuple[PhoneServer, Script]) -> None:
    """Searched: answers of the server, page, title, addresses, storages, every record, every kept page."""
    server, script = ready
    page = phone.enter(server, CHANGE)
    crew = begin(page, script)
    heard = Heard(page, server)
    first_hidden(crew, script)
    assert crew.screen == "handover"
    assert crew.title.split("\n")[0] == "Hidden."
    ask(page, "await (await m.outbox).deliver(); await (await m.outbox).deliver();")
    crew.give_digits(NAMED[other_than_asked(crew)], opens=False)
    assert "opens this" in page.locator(".said").inner_text()
    crew.give_digits()
    assert crew.screen == "alone"
    crew.action()
    assert crew.screen == "blind"
    assert (page.locator(".strap-what").inner_text(), page.title()) == ("Count", "Count")
    phone.go(page, server, page.url.removeprefix(server.address))  # and once more from the server and the worker
    for path in (f"/c/{CRANE}/record", f"/c/{CRANE}/now", f"/api/feed/{CRANE}?after=0"):
        page.evaluate("(path) => fetch(path).then((reply) => reply.text())", path)
    assert any("/api/feed/" in address for address in heard.addresses)
    texts = [*everywhere(page), *heard.answers(), *history_of(page)]
    assert any("sealed" in text for text in texts), "the entry itself is there, hidden"
    assert [text[:200] for text in texts if str(HEIGHT) in text] == []
    assert "key true" not in texts, "no key leaves the browser"


def test_the_search_finds_what_is_planted(phone: Phone, ready: tuple[PhoneServer, Script]) -> None:
    """The control: a value in the clear in a record, a storage, a cache, the page is found; and once both are in."""
    server, script = ready
    page = phone.enter(server, CHANGE)
    crew = begin(page, script)
    first_hidden(crew, script)
    places = {
        "record": "await (await m.db).writeMeta('planted', { a: [{ b: arg }] });",
        "storage": "localStorage.setItem('planted', arg);",
        "cache": "await (await caches.open('planted')).put('/planted', new Response(arg));",
        "page": "document.body.append(Object.assign(document.createElement('p'), { hidden: true, textContent: arg }));",
    }
    for name, body in places.items():
        ask(page, body, f"{PLANTED}-{name}")
        assert any(f"{PLANTED}-{name}" in text for text in everywhere(page)), name
    assert not any(str(HEIGHT) in text for text in everywhere(page))
    crew.give_digits()
    crew.play(lambda one: one.screen in ("agree", "differ"))
    assert any(str(HEIGHT) in text for text in everywhere(page)), "both are in: the phone may know"


def other_than_asked(crew: Crew) -> str:
    """Return the role whose digits are not asked."""
    return "rigger" if "operator" in crew.title.lower() else "operator"
