"""One invented crane with its finder and its file, worked out once for all tests of the pack."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright

from becket.book.crane import Book
from becket.pack.finder import FilledGrid, fill_grid
from becket.pack.grid import grids_of
from becket.pack.html import pack_html
from tests.crane import invented_book, invented_settings

PRINTED = "2026-11-25"
CHROMIUM = "/usr/bin/chromium"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]


@pytest.fixture(scope="session")
def book() -> Book:
    """Return the invented crane with two charts and two boom lengths, which are enough here."""
    whole = invented_book()
    full, rear, _ = whole.charts
    return replace(whole, charts=(replace(full, rows=full.rows[:2]), rear))


@pytest.fixture(scope="session")
def finder(book: Book) -> tuple[FilledGrid, ...]:
    """Return every grid of the crane with its answers."""
    return tuple(fill_grid(book, invented_settings(), grid) for grid in grids_of(book))


@pytest.fixture(scope="session")
def text(book: Book) -> str:
    """Return the file of the crane."""
    return pack_html(book, invented_settings(), printed=PRINTED)


@pytest.fixture(scope="session")
def place(text: str, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return where the file of the crane lies."""
    path = tmp_path_factory.mktemp("pack") / "tallow.html"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def chromium(play: Playwright) -> Iterator[Browser]:
    """Yield Debian's chromium; where it is missing the tests that look at pages fail."""
    browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    yield browser
    browser.close()


@pytest.fixture
def page(chromium: Browser, place: Path) -> Iterator[Page]:
    """Yield the file of the crane, opened on a phone 360 px wide with the network off; a word on the console fails."""
    context = chromium.new_context(viewport={"width": 360, "height": 800}, offline=True)
    opened = context.new_page()
    said: list[str] = []
    opened.on("console", lambda message: said.append(message.text))
    opened.on("pageerror", lambda error: said.append(str(error)))
    opened.on("request", lambda request: said.append(request.url) if not request.url.startswith("file:") else None)
    opened.goto(place.as_uri())
    yield opened
    context.close()
    assert said == []
