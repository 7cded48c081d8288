"""The service worker in a real browser: what the phone shows when the server is gone."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Page, Playwright

from becket.web.static_files import FOLDER as STATIC
from becket.web.worker_script import PLACE, worker_script
from tests.web.asking import Phone, running

CHROMIUM = "/usr/bin/chromium-headless-shell"
FLAGS = [
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
]
KEPT = """async (wanted) => {
    const names = (await caches.keys()).filter((one) => one.startsWith("becket-pages-"));
    const found = await Promise.all(wanted.map((url) => names.length && caches.match(url, { ignoreVary: true })));
    return found.every(Boolean) && Boolean(navigator.serviceWorker.controller);
}"""
EVERY = """async () => {
    const found = [];
    for (const name of await caches.keys()) {
        for (const request of await (await caches.open(name)).keys()) found.push(`${request.method} ${request.url}`);
    }
    return found;
}"""
PAGES = (
    *("now", "week", "falls", "falls/2", "pattern", "pattern/main:4", "change", "change/main:2/main:4", "record"),
    "trouble",
)


@pytest.fixture(params=["allow"])
def browser(play: Playwright, tmp_path: Path, request: pytest.FixtureRequest) -> Iterator[BrowserContext]:
    """Yield a browser with an empty profile, at the size of a phone; "block": one without workers."""
    found = play.chromium.launch_persistent_context(
        tmp_path / "profile",
        executable_path=CHROMIUM,
        args=FLAGS,
        viewport={"width": 360, "height": 800},
        service_workers=request.param,
    )
    yield found
    found.close()


def visit(page: Page, url: str) -> int | None:
    """Return the status of a page once it stands."""
    answer = page.goto(url, wait_until="domcontentloaded")
    return answer.status if answer else None


def wait_until_kept(page: Page, urls: list[str]) -> None:
    """Wait until the worker has kept all of these."""
    ends = time.monotonic() + 180
    while not page.evaluate(KEPT, urls):
        assert time.monotonic() < ends, "not kept within three minutes"
        page.wait_for_timeout(200)


@pytest.mark.browser
def test_every_page_of_a_crane_stands_when_the_server_is_gone(browser: BrowserContext, folder: Path) -> None:
    page = browser.new_page()
    with running(folder) as server:
        visit(page, server.link)
        page.wait_for_url(f"{server.url}/")
        visit(page, f"{server.url}/c/hazel-70/now")
        wanted = page.evaluate("async () => (await (await fetch('/api/kept/hazel-70')).json())")
        kept = [*wanted["pages"], *(one["url"] for one in wanted["scripts"])]
        wait_until_kept(page, [f"{server.url}{url}" for url in kept])
        assert page.evaluate("document.body.dataset.kept") is None
        url = server.url
    for name in PAGES:
        assert visit(page, f"{url}/c/hazel-70/{name}") == 200
        assert str(page.evaluate("document.body.dataset.kept")).startswith("20"), name
        assert "Hazel 70" in page.title()
    for run in ("run-1", "run-2"):
        visit(page, f"{url}/run/{run}")
        assert page.evaluate("document.body.dataset.page") == "run"
    visit(page, f"{url}/c/rowan-30/now")
    assert page.title() == "Not kept on this phone"
    found = page.evaluate(EVERY)
    assert not [one for one in found if "/api/" in one or "/open/" in one or not one.startswith("GET ")]


@pytest.mark.browser
@pytest.mark.parametrize("browser", ["block"], indirect=True)
def test_without_the_worker_nothing_stands(browser: BrowserContext, folder: Path) -> None:
    """The control: it shows that the test above can fail."""
    page = browser.new_page()
    with running(folder) as server:
        visit(page, server.link)
        visit(page, f"{server.url}/c/hazel-70/now")
        url = server.url
    with pytest.raises(Exception, match="ERR_CONNECTION_REFUSED"):
        visit(page, f"{url}/c/hazel-70/now")


def test_the_worker_is_filled_in_and_never_kept_by_the_browser(phone: Phone) -> None:
    answer = phone.get("/sw.js")
    assert answer.headers["cache-control"] == "no-cache"
    assert PLACE in (STATIC / "sw.js").read_text(encoding="utf-8")
    assert PLACE not in answer.text
    for address in phone.app.state.templates.statics.addresses():
        assert f'"{address}"' in answer.text


def test_a_word_that_changes_makes_a_new_version(phone: Phone) -> None:
    templates = phone.app.state.templates
    before = worker_script(templates)
    assert worker_script(templates) == before
    templates.statics.seal = "another"
    assert worker_script(templates) != before
