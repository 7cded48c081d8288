"""What every test that looks at pages shares: one driver of browsers, for there can be only one in a process."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Playwright, expect, sync_playwright

expect.set_options(timeout=30_000)  # as long as any other wait of a page: how busy the machine is decides nothing


@pytest.fixture(scope="session")
def play() -> Iterator[Playwright]:
    """Yield the driver of the browsers; where Chromium is missing the tests fail."""
    with sync_playwright() as found:
        yield found
