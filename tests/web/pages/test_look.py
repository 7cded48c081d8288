"""The pages to read in a real browser: complete at 360 x 800, nothing cut off, nothing that moves, few bytes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect

from becket.book.tackle import State
from becket.web.house import House
from tests.phone.server import PhoneServer, demo_folder
from tests.web.pages.standing import change_done, crew

pytestmark = pytest.mark.browser

CHROMIUM = "/usr/bin/chromium-headless-shell"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--disable-background-networking", "--disable-sync"]
BASE = "/c/hazel-70"
PAGES = (
    *("now", "week", "falls", "falls/3", "falls/9", "pattern", "pattern/main:4", "pattern/main:5", "pattern/main:7"),
    *("change", "change/main:2/main:4", "change/main:2/main:6"),
)
FIRM = ("/pages?crane=hazel-70", "/settings?crane=hazel-70", "/files")
MOST_BYTES = 150_000  # of the first load, as they come over the air
CUT = """() => {
    const wide = document.documentElement.clientWidth;
    const found = document.documentElement.scrollWidth > wide ? ["the page scrolls sideways"] : [];
    for (const one of document.querySelectorAll("body *")) {
        const style = getComputedStyle(one), box = one.getBoundingClientRect();
        if (style.display === "none" || box.width < 2 || one.closest("svg, .only-read, .skip")) continue;
        const said = `${one.tagName}.${one.className}: ${one.textContent.trim().slice(0, 40)}`;
        if (box.right > wide + 1 || box.left < -1) found.push(`off the page: ${said}`);
        const clips = style.overflowX !== "visible" && one.scrollWidth > one.clientWidth + 1;
        if (clips) found.push(`cut off: ${said}`);
        const own = [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim());
        if (own && parseFloat(style.fontSize) < 18) found.push(`under 18 px: ${said}`);
    }
    return found;
}"""
SHIFTS = """new PerformanceObserver((list) => {
    for (const entry of list.getEntries()) {
        if (!entry.hadRecentInput) window.shifted = (window.shifted || 0) + entry.value;
    }
}).observe({ type: "layout-shift", buffered: true });"""


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PhoneServer]:
    """A server on which main 2 was counted an hour ago."""
    folder = demo_folder(tmp_path_factory.mktemp("look") / "data")
    house = House.open(folder)
    crew(house)
    two, four = (State(block="main", falls=falls) for falls in (2, 4))
    change_done(house, four, two, datetime.now().astimezone() - timedelta(hours=1))
    house.close()
    found = PhoneServer(folder)
    yield found.start()
    found.stop()


@pytest.fixture(scope="module")
def browser(play: Playwright) -> Iterator[Browser]:
    """Chromium; where it is missing the tests fail."""
    found = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    yield found
    found.close()


def enter(page: Page, server: PhoneServer) -> None:
    """Open the link; its page goes on by itself, and a page that is closed or sent elsewhere just then never ends."""
    page.goto(server.new_link())
    page.wait_for_url(lambda url: "/open/" not in url)


def context_of(browser: Browser, server: PhoneServer, look: str, *, wide: int = 360) -> BrowserContext:
    """Return a phone that is open, with a look."""
    context = browser.new_context(viewport={"width": wide, "height": 800}, service_workers="block")
    page = context.new_page()
    enter(page, server)
    page.close()
    context.add_cookies([{"name": "look", "value": look, "url": server.address}])
    return context


def open_page(context: BrowserContext, server: PhoneServer, path: str) -> Page:
    """Return a page whose own code has run."""
    page = context.new_page()
    page.add_init_script(SHIFTS)
    page.goto(server.address + path)
    page.wait_for_selector("body[data-ready]")
    return page


def paths() -> list[str]:
    """Return the address of every page to read."""
    return [*(f"{BASE}/{name}" for name in PAGES), *FIRM]


@pytest.mark.parametrize(("look", "wide"), [("sun.normal", 360), ("night.large", 360), ("sun.large.us", 1280)])
def test_nothing_is_cut_off_and_nothing_is_small(browser: Browser, server: PhoneServer, look: str, wide: int) -> None:
    """No sideways scroll, no text off the page or clipped, none under 18 px; and no error in the console."""
    context, faults = context_of(browser, server, look, wide=wide), []
    for path in paths():
        page = open_page(context, server, path)
        faults += [f"{path}: {one}" for one in page.evaluate(CUT)]
        page.close()
    context.close()
    assert faults == []


def test_the_check_for_cut_text_can_fail(browser: Browser, server: PhoneServer) -> None:
    """A control: a line that cannot break and small print are both found."""
    context = context_of(browser, server, "sun.normal")
    page = open_page(context, server, f"{BASE}/now")
    page.evaluate(
        """() => { const line = document.createElement("p"); line.textContent = "x".repeat(90);
        Object.assign(line.style, { fontSize: "12px", whiteSpace: "nowrap", overflowWrap: "normal" });
        document.querySelector("main").append(line); }"""
    )
    found = page.evaluate(CUT)
    context.close()
    assert any("sideways" in one for one in found)
    assert any("under 18 px" in one for one in found)


def test_now_is_complete_without_scrolling(browser: Browser, server: PhoneServer) -> None:
    """Number, lift, next change, its button and the limit stand above the foot at 360 x 800."""
    context = context_of(browser, server, "sun.normal")
    page = open_page(context, server, f"{BASE}/now")
    foot = _box(page, ".foot")["y"]
    for hook in ("falls", "lift", "next", "open-change", "limit"):
        box = _box(page, f"[data-now={hook}]")
        assert box["y"] + box["height"] <= foot, hook
    assert page.evaluate("getComputedStyle(document.querySelector('[data-now=falls]')).fontSize") == "160px"
    context.close()


def test_nothing_moves_while_a_page_opens(browser: Browser, server: PhoneServer) -> None:
    """Nothing is pushed while the strap fills in and the font comes: under a thousandth, less than a pushed line.

    A page that is said to move is opened twice more: what is in the page moves each time. On a machine that is far too
    busy 0.0015 was seen once and could not be brought about again.
    """
    context, moved = context_of(browser, server, "sun.normal"), {}
    for path in paths():
        for _ in range(3):
            page = open_page(context, server, path)
            page.wait_for_timeout(150)
            moved[path] = page.evaluate("window.shifted || 0")
            page.close()
            if moved[path] <= 0.001:
                break
    context.close()
    assert {path: shift for path, shift in moved.items() if shift > 0.001} == {}


def test_the_check_for_what_moves_can_fail(browser: Browser, server: PhoneServer) -> None:
    """A control: a line that comes late pushes what stands below it, and is told."""
    context = context_of(browser, server, "sun.normal")
    page = open_page(context, server, f"{BASE}/now")
    page.evaluate(
        """() => new Promise((done) => {
            const line = Object.assign(document.createElement("p"), { textContent: "late" });
            document.querySelector("main").prepend(line);
            setTimeout(done, 300);
        })"""
    )
    moved = page.evaluate("window.shifted || 0")
    context.close()
    assert moved > 0.001


def test_first_load_is_small(browser: Browser, server: PhoneServer) -> None:
    """Page, style, fonts, words and code of the first page: under 150 kB as they come over the air."""
    context = context_of(browser, server, "sun.normal")
    page = context.new_page()
    session = context.new_cdp_session(page)
    session.send("Network.enable")
    sizes: list[float] = []
    session.on("Network.loadingFinished", lambda one: sizes.append(one["encodedDataLength"]))
    page.goto(f"{server.address}{BASE}/now")
    page.wait_for_selector("body[data-ready]")
    page.wait_for_timeout(300)
    context.close()
    assert len(sizes) > 5
    assert sum(sizes) < MOST_BYTES, sum(sizes)


def test_fonts_are_ours_and_loaded(browser: Browser, server: PhoneServer) -> None:
    """Both weights of the bundled font are used; no font of the machine."""
    context = context_of(browser, server, "sun.normal")
    page = open_page(context, server, f"{BASE}/now")
    page.reload()
    loaded = page.evaluate(
        """document.fonts.ready.then((all) =>
            [...all].filter((one) => one.status === "loaded").map((one) => one.family + one.weight))"""
    )
    context.close()
    assert {"Roboto400", "Roboto700"} <= set(loaded)


def test_pages_can_be_read_without_a_program(browser: Browser, server: PhoneServer) -> None:
    """JavaScript off: every page shows its answer, and a row opens its limits."""
    context = browser.new_context(viewport={"width": 360, "height": 800}, java_script_enabled=False)
    page = context.new_page()
    enter(page, server)
    for path in paths():
        page.goto(server.address + path)
        assert page.locator("h1").inner_text() != ""
    page.goto(f"{server.address}{BASE}/falls/3")
    assert not page.locator("#main-4").is_visible()
    page.get_by_role("link", name="4 falls: open limit by limit").click()
    expect(page.locator("#main-4")).to_be_visible()
    assert "lead line pull" in page.locator("#main-4").inner_text()
    context.close()


def test_a_choice_is_seen_at_once_and_kept(browser: Browser, server: PhoneServer) -> None:
    """Night and US: the page turns at once, the line of Now changes, the next page is made with it."""
    context = context_of(browser, server, "sun.normal")
    page = open_page(context, server, "/settings?crane=hazel-70")
    page.locator("input[value=night]").check()
    page.locator("input[value=us]").check()
    expect(page.locator("html")).to_have_attribute("data-theme", "night")
    expect(page.locator("[data-settings=line]")).to_contain_text("lb at a radius of")
    falls = open_page(context, server, f"{BASE}/falls/3")
    assert "lbf" in falls.content()
    assert falls.evaluate("document.documentElement.dataset.theme") == "night"
    context.close()


def _box(page: Page, selector: str) -> dict[str, Any]:
    box = page.locator(selector).first.bounding_box()
    assert box is not None, selector
    return dict(box)


def test_count_now_has_a_button_that_works(browser: Browser, tmp_path: Path) -> None:
    """Nothing recorded: the button leads to the screen that asks who counts."""
    server = PhoneServer(demo_folder(tmp_path / "data")).start()
    context = context_of(browser, server, "sun.normal")
    page = open_page(context, server, f"{BASE}/now")
    page.get_by_role("button", name="Count now").click()
    page.wait_for_url("**/run/start")
    context.close()
    server.stop()
