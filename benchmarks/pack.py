"""How long the file of a crane with twelve patterns takes to write, how large it is, and how soon a phone shows it.

In:    ``--quick`` for few rounds.
Out:   seconds, kilobytes, milliseconds from the address to the first view, at a quarter of this machine's speed.
Never: a verdict on the numbers.

The crane is that of the tests, made wide: twelve falls on the main block, two other blocks, three charts. The phone is
Debian's chromium, network off; without it only the writing is timed, and that is said.
"""

from __future__ import annotations

import statistics
import sys
import time
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Page, sync_playwright

from becket.book.crane import Book
from becket.pack.html import pack_html
from benchmarks.falls_table import wide_book
from tests.crane import invented_settings

PATTERNS = 12
CHROMIUM = Path("/usr/bin/chromium")
SLOWER = 4  # the phone against this machine


def packed_book() -> Book:
    """Return the crane with twelve patterns on file."""
    book = wide_book()
    return replace(book, patterns=book.patterns[:PATTERNS])


def opening(page: Page, address: str) -> float:
    """Return the time from the address to the first view that is drawn [ms].

    Args:
        page: of the browser
        address: of the file
    """
    page.goto("about:blank")
    page.goto(address)
    script = """() => new Promise(done => requestAnimationFrame(() => setTimeout(() => {
        const paint = performance.getEntriesByName("first-contentful-paint")[0];
        const load = performance.getEntriesByType("navigation")[0];
        done(Math.max(paint ? paint.startTime : 0, load.loadEventEnd));
    })))"""
    return float(page.evaluate(script))


def openings(path: Path, rounds: int) -> list[float]:
    """Return how long a slow phone takes to open the file, each time anew [ms].

    Args:
        path: of the file
        rounds: how often
    """
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox", "--disable-gpu"])
        context = browser.new_context(viewport={"width": 360, "height": 800}, offline=True)
        page = context.new_page()
        session = context.new_cdp_session(page)
        session.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        taken = [opening(page, path.as_uri()) for _ in range(rounds)]
        browser.close()
    return taken


def main() -> int:
    """Print what was measured; return 0 [-]."""
    rounds = 3 if "--quick" in sys.argv else 15
    start, busy = time.perf_counter(), time.process_time()
    text = pack_html(packed_book(), invented_settings(), printed="2026-11-25")
    wall, busy = time.perf_counter() - start, time.process_time() - busy
    print(f"file of {PATTERNS} patterns: {wall:.1f} s, {busy:.1f} s of them at work (aim: under 10 s)")
    print(f"size: {len(text.encode('utf-8')) / 1000:.0f} kB (aim: under 1000 kB)")
    if not CHROMIUM.exists():
        print("opening: not measured, chromium is missing")
        return 0
    with TemporaryDirectory() as folder:
        path = Path(folder) / "crane.html"
        path.write_text(text, encoding="utf-8")
        taken = openings(path, rounds)
    print(
        f"opening at 1/{SLOWER} speed: median {statistics.median(taken):.0f} ms, slowest {max(taken):.0f} ms (aim: 500)"
    )
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
