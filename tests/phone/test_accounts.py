"""A shared server on real phones: sign in and back, signed out from afar with nothing lost; the pages measured."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from becket.web.account import Rights
from becket.web.entrance import Comes, Entrance
from becket.web.passwords import Passwords
from tests.phone.access import axe_faults, measured
from tests.phone.measuring import wait_until_kept
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder
from tests.phone.test_outbox import CRANE, deliver, enter_notes, there

pytestmark = pytest.mark.browser
PASSWORD = "four grey herons"
NOW = f"/c/{CRANE}/now"
KEPT_PAGES = """async () => {
    const keys = (await caches.keys()).map(async (name) => (await caches.open(name)).keys());
    return (await Promise.all(keys)).flat().map(({ url }) => new URL(url).pathname);
}"""


@pytest.fixture
def server(tmp_path: Path) -> Iterator[PhoneServer]:
    """Yield a shared server with a supervisor and an administrator."""
    folder = demo_folder(tmp_path / "data")
    entrance = Entrance(folder, Passwords())
    for name, role in (("Ada Quill", "supervisor"), ("Cy Moor", "administrator")):
        account = entrance.accounts.add(name, Rights(role=role, cranes=None), "the test")
        entrance.accept(entrance.invitations.make(account, "the test"), PASSWORD, Comes(address="", device=""))
    found = PhoneServer(folder, more=("--shared",))
    yield found.start()
    found.stop()


def sign_in(page: Page, name: str) -> None:
    """Fill in the form that is shown, and wait for the page behind it."""
    page.fill("#name", name)
    page.fill("#password", PASSWORD)
    page.click("button.action")
    page.wait_for_selector("body[data-ready]:not([data-page=sign-in])")


def test_signed_out_everywhere_from_another_phone_keeps_everything(
    phone: Phone, play: Playwright, tmp_path: Path, server: PhoneServer
) -> None:
    assert server.link.endswith("/sign-in")
    page = phone.page()
    phone.go(page, server, NOW)
    assert faults(page) == []
    sign_in(page, "Ada Quill")
    assert page.url == server.address + NOW
    first = enter_notes(page, 1)
    assert deliver(page)["kept"] == 0
    assert there(server, first) == first

    other = Phone(play, tmp_path / "other")
    elsewhere = other.page()
    other.go(elsewhere, server, "/account")
    sign_in(elsewhere, "Ada Quill")
    assert faults(elsewhere) == []
    elsewhere.click("text=Sign out everywhere")
    elsewhere.wait_for_selector("body[data-page=sign-in][data-ready]")
    other.switch_off()
    assert other.said == []

    kept = enter_notes(page, 2)
    assert deliver(page)["state"] == "signed_out"
    expect(page.locator("[data-strap=signal]")).to_have_text("Sign in · 2 kept")
    page.click("[data-strap=signal]")
    page.wait_for_selector("body[data-page=sign-in][data-ready]")
    assert page.url == f"{server.address}/sign-in?to=%2Fc%2F{CRANE}%2Fnow"
    sign_in(page, "Ada Quill")
    assert page.url == server.address + NOW
    assert deliver(page)["kept"] == 0
    assert there(server, kept) == kept


def test_signing_out_leaves_what_is_kept_and_no_page_of_an_account(phone: Phone, server: PhoneServer) -> None:
    page = phone.page()
    phone.go(page, server, "/accounts")
    sign_in(page, "Cy Moor")
    assert page.url == server.address + "/accounts"
    assert faults(page) == []
    phone.go(page, server, NOW)
    assert page.locator("[data-change=button]").count() == 0  # who keeps accounts starts no count
    expect(page.locator("[data-account=read-only]")).to_contain_text("Cy Moor is signed in as Administrator")
    wait_until_kept(page, NOW)
    phone.context_now().set_offline(True)
    kept = enter_notes(page, 1)
    phone.context_now().set_offline(False)
    phone.go(page, server, "/account")
    page.click("text=Sign out on this phone")
    page.wait_for_selector("body[data-page=sign-in][data-ready]")
    found = page.evaluate(KEPT_PAGES)
    assert NOW in found
    assert not [one for one in found if one.startswith(("/account", "/sign-", "/invited"))]
    assert there(server, kept) == []
    sign_in(page, "Cy Moor")
    phone.go(page, server, "/kept")
    assert (deliver(page)["kept"], deliver(page)["refused"]) == (1, 0)  # an administrator brings no entry; it stays
    expect(page.locator("[data-strap=signal]")).to_have_text("1 kept · not yours")
    assert "may not do this" in page.locator("main").inner_text()
    phone.go(page, server, "/account")
    page.click("text=Sign out on this phone")
    page.wait_for_selector("body[data-page=sign-in][data-ready]")
    sign_in(page, "Ada Quill")
    assert (deliver(page)["kept"], deliver(page)["refused"]) == (0, 0)
    assert there(server, kept) == kept


def faults(page: Page) -> list[str]:
    """Return what is measured of a page and found by axe."""
    return [*measured(page), *axe_faults(page)]
