"""Every form of a page, sent by a real browser: what a browser says of itself is not what a test would say for it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright

from tests.phone.server import PhoneServer, demo_folder
from tests.web.pages.test_look import CHROMIUM, FLAGS, enter

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("test_forms")]  # one server for all


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PhoneServer]:
    """Yield a server with the demo's cranes."""
    found = PhoneServer(demo_folder(tmp_path_factory.mktemp("forms") / "data"))
    yield found.start()
    found.stop()


@pytest.fixture(scope="module")
def page(play: Playwright, server: PhoneServer) -> Iterator[Page]:
    """Yield a tab of a phone that is open."""
    browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    tab = browser.new_context(viewport={"width": 360, "height": 800}, service_workers="block").new_page()
    enter(tab, server)
    yield tab
    browser.close()


def send(page: Page) -> str:
    """Send the form of the page; return what the next page says."""
    with page.expect_navigation():
        page.locator("main form [type=submit]").first.click()
    return page.locator("main").inner_text()


def test_a_new_link(page: Page, server: PhoneServer) -> None:
    page.goto(server.address + "/link")
    assert "/open/" in send(page)


def test_a_book_comes_in_and_a_slip_is_told_by_line(page: Page, server: PhoneServer, tmp_path: Path) -> None:
    good = (server.folder / "rowan-30.crane.yaml").read_text(encoding="utf-8").replace("Rowan 30", "Rowan 31")
    slip = good.replace("rated:", "rate:", 1)
    line = slip[: slip.index("rate:")].count("\n") + 1
    for name, text, told in (("rowan-31", good, "is on file"), ("rowan-32", slip, f"line {line} ")):
        path = tmp_path / f"{name}.crane.yaml"
        path.write_text(text, encoding="utf-8")
        page.goto(server.address + "/files")
        page.locator("main form [type=file]").set_input_files(path)
        assert told in send(page)
        assert (server.folder / path.name).exists() == (text == good)


def test_the_settings_without_a_program(play: Playwright, server: PhoneServer) -> None:
    browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    tab = browser.new_context(java_script_enabled=False, service_workers="block").new_page()
    enter(tab, server)
    tab.goto(server.address + "/settings")
    tab.locator("label", has=tab.locator("[name=theme][value=night]")).click()
    send(tab)
    assert tab.locator("[name=theme][value=night]").is_checked()
    browser.close()
