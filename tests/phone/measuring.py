"""What a page costs on a slow phone: largest paint, shift of the layout, tap to paint, at a quarter of the CPU.

In:    a phone, pages of becket.
Out:   milliseconds and shifts, as the browser itself measured them.
Never: a figure of a page that did not show its content.
"""

from __future__ import annotations

from dataclasses import dataclass

from playwright.sync_api import Page

from tests.phone.phone import Phone

SLOWER = 4
WATCH = """
    globalThis.seen = { paint: 0, shift: 0, tap: 0, taps: [], what: "" };
    const watch = (type, each, more = {}) =>
        new PerformanceObserver((list) => list.getEntries().forEach(each)).observe({ type, buffered: true, ...more });
    watch("largest-contentful-paint", (one) => {
        seen.paint = one.startTime;
        seen.what = one.element?.className ?? "";
    });
    watch("layout-shift", (one) => {
        if (!one.hadRecentInput) {
            seen.shift += one.value;
            seen.what += ` moved: ${one.sources.map(({ node }) => node?.className || node?.nodeName)}`;
        }
    });
    watch("event", (one) => {
        if (one.interactionId) {
            seen.tap = Math.max(seen.tap, one.duration);
            seen.taps.push(one.duration);
        }
    },
        { durationThreshold: 16 });
"""
KEPT = """async (urls) => {
    for (const end = Date.now() + 180_000; Date.now() < end; ) {
        for (const name of await caches.keys()) {
            const found = await Promise.all(urls.map(async (url) => (await caches.open(name)).match(url)));
            if (found.every(Boolean)) { return true; }
        }
        await new Promise((done) => setTimeout(done, 50));
    }
    return false;
}"""


@dataclass(frozen=True, kw_only=True)
class Seen:
    """What the browser measured on one page."""

    paint: float  # of the largest content, from the start of the navigation [ms]
    shift: float  # of the layout, summed [-]
    tap: float  # the slowest from a tap to the paint after it [ms]; 0: under 16
    taps: list[float]  # each tap of 16 ms or more [ms]
    what: str  # class of the largest content; what moved


def wait_until_kept(page: Page, *addresses: str) -> None:
    """Wait until this phone keeps pages and does not need the server for them.

    Args:
        page: a tab of the server
        addresses: of the pages
    """
    assert page.evaluate(KEPT, list(addresses)), "the phone has not kept these pages"


def slow_page(phone: Phone) -> Page:
    """Return a new tab at a quarter of the CPU that watches itself [-].

    Args:
        phone: switched on
    """
    page = phone.page()
    page.add_init_script(WATCH)
    phone.context_now().new_cdp_session(page).send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    return page


def seen_on(page: Page) -> Seen:
    """Return what was measured on the page that stands, once two more frames are drawn [-].

    Args:
        page: of ``slow_page``
    """
    frames = "new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 50))))"
    page.evaluate(f"() => {frames}")
    return Seen(**page.evaluate("seen"))
