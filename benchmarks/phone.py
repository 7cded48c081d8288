"""How quick the phone is with the server stopped, at a quarter of the CPU: start, tap to paint, shift of the layout.

In:    the demo crane on a server of its own, Debian's Chromium at 360 x 800; ``--quick``: each page once.
Out:   one line a page: largest paint, slowest tap to paint, shift; first load in kB.
Never: a figure of a page that came from the server.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from statistics import median

from playwright.sync_api import Page, Request, sync_playwright

from tests.phone.crew import CRANE, make_ready
from tests.phone.measuring import Seen, seen_on, slow_page, wait_until_kept
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder

PAGES = (f"/c/{CRANE}/now", f"/c/{CRANE}/week", f"/c/{CRANE}/falls", f"/who?crane={CRANE}", f"/pages?crane={CRANE}")


def main() -> None:
    """Measure and print."""
    times = 1 if "--quick" in sys.argv else 7
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as play:
        server = PhoneServer(demo_folder(Path(folder) / "data", CRANE))
        make_ready(server.folder)
        phone = Phone(play, Path(folder) / "profile")
        try:
            keep_pages(phone, server.start())
            server.stop()
            for path in PAGES:
                seen = [measured(phone, server, path) for _ in range(times)]
                paint, tap = median(one.paint for one in seen), max(one.tap for one in seen)
                print(f"{path:30} paint {paint:5.0f} ms  tap {tap:4.0f} ms  shift {max(one.shift for one in seen):.4f}")
            print("aims at a quarter of the CPU: paint under 1000 ms, tap under 100 ms, shift 0")
        finally:
            server.stop()
            phone.switch_off()


def keep_pages(phone: Phone, server: PhoneServer) -> None:
    """Open the link and Now, tell their size, wait until the phone needs the server no more."""
    asked: list[Request] = []
    phone.context_now().on("requestfinished", lambda request: asked.append(request))
    page = phone.enter(server, PAGES[0])
    size = sum(one.sizes()["responseBodySize"] for one in asked) / 1000
    print(f"first load, link and Now, without what the service worker keeps: {size:.0f} kB")
    wait_until_kept(page, *PAGES)


def measured(phone: Phone, server: PhoneServer, path: str) -> Seen:
    """Return what one start of a page costs, and a tap on the first thing that stays on the page."""
    page: Page = slow_page(phone)
    phone.go(page, server, path)
    first = page.locator("main button:visible")
    if first.count():
        first.first.tap()
    seen = seen_on(page)
    page.close()
    return seen


if __name__ == "__main__":
    main()
