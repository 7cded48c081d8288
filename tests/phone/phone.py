"""A phone: Chromium at 360 x 800 with a profile of its own, that can be killed and switched on again.

In:    a folder for the profile.
Out:   pages; what the browser said of itself.
Never: a browser that outlives its test; a fault on the console that nobody sees.
"""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Page, Playwright

from tests.phone.server import PhoneServer

CHROMIUM = "/usr/bin/chromium-headless-shell"  # the same browser without windows: starts in a third of the time
FLAGS = [
    *("--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"),
    *("--disable-component-update", "--disable-sync"),
]
PATIENCE = 90_000  # ms; a second or two is usual, many times that where the machine is busy
NO_SERVER = ("net::ERR_", "Failed to load resource", "no service worker")  # said while no server answers


class Phone:
    """A browser with its storage. ``said``: faults on the console and errors of pages."""

    def __init__(
        self, play: Playwright, profile: Path, size: tuple[int, int] = (360, 800), touch: bool | None = None
    ) -> None:
        self.play, self.profile, self.size, self.touch = play, profile, size, touch
        self.said: list[str] = []
        self.context: BrowserContext | None = None
        self._scripts: list[str] = []
        self.switch_on()

    def switch_on(self, **more: Any) -> None:
        """Start the browser on its profile."""
        for stale in self.profile.glob("Singleton*"):
            stale.unlink()
        width, height = self.size
        self.context = self.play.chromium.launch_persistent_context(
            self.profile,
            executable_path=CHROMIUM,
            args=FLAGS,
            viewport={"width": width, "height": height},
            has_touch=width < 600 if self.touch is None else self.touch,
            **more,
        )
        self.context.set_default_timeout(PATIENCE)
        for script in self._scripts:
            self.context.add_init_script(script)
        self.context.on("page", self._listen)
        for page in self.context.pages:
            self._listen(page)

    def add_script(self, script: str) -> None:
        """Run JavaScript before each page's own, from now on and after the browser was switched on again.

        Args:
            script: statements
        """
        self._scripts.append(script)
        self.context_now().add_init_script(script)

    def context_now(self) -> BrowserContext:
        """Return the running browser [-]."""
        assert self.context is not None, "the phone is switched off"
        return self.context

    def page(self) -> Page:
        """Return a new tab [-]."""
        return self.context_now().new_page()

    def enter(self, server: PhoneServer, path: str = "/") -> Page:
        """Return a tab in which a link of the server was opened, then a page of it [-].

        Args:
            server: running
            path: of the page
        """
        page = self.page()
        page.goto(server.new_link())
        page.wait_for_url(lambda url: "/open/" not in url)  # the page of the link goes on by itself
        self.go(page, server, path)
        return page

    def go(self, page: Page, server: PhoneServer, path: str) -> None:
        """Open a page and wait until its own code runs.

        Args:
            page: a tab
            server: whose page
            path: of the page
        """
        page.goto(server.address + path)
        page.wait_for_selector("body[data-ready]")

    def switch_off(self) -> None:
        """Close the browser as a person does."""
        if self.context is not None:
            self.context.close()
            self.context = None

    def kill(self) -> None:
        """End the browser as a flat battery does: every process of this profile, at once."""
        for pid in self._processes():
            os.kill(pid, signal.SIGKILL)
        end = time.monotonic() + 20
        while self._processes() and time.monotonic() < end:
            time.sleep(0.02)
        self.context = None

    def _processes(self) -> list[int]:
        mark, found = f"--user-data-dir={self.profile}".encode(), []
        for entry in Path("/proc").iterdir():
            if entry.name.isdigit() and int(entry.name) != os.getpid():
                try:
                    words, state = (entry / "cmdline").read_bytes().split(b"\0"), (entry / "stat").read_text()
                except OSError:
                    continue
                if mark in words and state.rpartition(")")[2].split()[0] != "Z":
                    found.append(int(entry.name))
        return found

    def _listen(self, page: Page) -> None:
        page.on("pageerror", lambda error: self.said.append(str(error)))
        page.on("console", lambda said: self._hear(said.type, said.text))

    def _hear(self, kind: str, text: str) -> None:
        if kind == "error" and not any(known in text for known in NO_SERVER):
            self.said.append(text)
