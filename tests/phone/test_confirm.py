"""A second person reads a page of the manual on the phone: typed path never there, works with no server."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from becket.cli.demo_crew import keep_crew
from tests.phone.crew import CRANE
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder

pytestmark = pytest.mark.browser
FIVE = f"/c/{CRANE}/pattern/main:5/confirm"
TYPED = "head 2, block 1, head 3, block 3, head 4"
RIGHT = ["head 2", "block 1", "head 3", "block 3", "head 4"]


@pytest.fixture
def ready(tmp_path: Path) -> Iterator[PhoneServer]:
    """Yield a server with a crew on its list."""
    folder = demo_folder(tmp_path / "data", CRANE)
    keep_crew(folder)
    server = PhoneServer(folder)
    yield server.start()
    server.stop()


def hold(phone: Phone, server: PhoneServer, person: str) -> Page:
    """Return a tab whose phone is in a person's hands, on the page of the reading."""
    page = phone.enter(server, f"/c/{CRANE}/now")
    ask(page, "await (await m.outbox).deliver(); await (await m.people).setHolder(arg)", person)
    phone.go(page, server, FIVE)
    return page


def tap(page: Page, passes: list[str], end: str | None = None) -> None:
    """Tap passes, then the end."""
    for one in passes:
        place, sheave = one.split()
        page.locator(f"[data-place={place}][data-sheave='{sheave}']").tap()
    if end:
        page.locator(f"[data-end='{end}']").tap()


def sign(page: Page, digits: str) -> None:
    """Enter what was read, with four digits."""
    page.locator("#confirm-foot .action").tap()
    for one in digits:
        page.locator(f"[data-key='{one}']").tap()


def test_the_same_reading_is_sealed_in_the_book(phone: Phone, ready: PhoneServer) -> None:
    """The page never holds the typed path; wrong digits enter nothing; the book then has the seal."""
    page = hold(phone, ready, "demo-rigger")
    assert TYPED not in page.content()
    tap(page, RIGHT, "block")
    assert page.locator("#confirm-path li").all_inner_texts() == [*RIGHT, "dead end block"]
    sign(page, "9999")
    page.get_by_text("Not the digits of Rita Rigger. Nothing is entered.").wait_for()
    for one in "2222":
        page.locator(f"[data-key='{one}']").tap()
    page.get_by_text("Same as typed. Sealed.").wait_for()
    book = (ready.folder / f"{CRANE}.crane.yaml").read_text()
    line = next(one for one in book.splitlines() if "falls: 5" in one)
    assert "confirmed: {by: Rita Rigger" in line


def test_another_reading_shows_both_and_keeps_neither(phone: Phone, ready: PhoneServer) -> None:
    """The first difference is framed; nothing is sealed."""
    page = hold(phone, ready, "demo-rigger")
    tap(page, ["head 2", "block 1", "head 4", "block 3", "head 3"], "block")
    sign(page, "2222")
    page.get_by_text("Not the same as typed").wait_for()
    plate = page.locator(".plate.this").inner_text()
    assert plate == "Pass 3: typed head 3, you read head 4. Look at the page together. Neither is kept."
    assert page.locator(".readings li.first").all_inner_texts() == ["head 3", "head 4"]
    line = next(o for o in (ready.folder / f"{CRANE}.crane.yaml").read_text().splitlines() if "falls: 5" in o)
    assert "confirmed" not in line


def test_impossible_taps_are_taken_and_named(phone: Phone, ready: PhoneServer) -> None:
    """A path from head to head stays as tapped and is called odd; taken back one by one."""
    page = hold(phone, ready, "demo-rigger")
    tap(page, ["head 2", "head 4", "block 1", "head 2"])
    odd = page.locator("#confirm-path .odd").all_inner_texts()
    assert odd == [
        "head 2, head 4: the rope goes from head to head. Page really so?",
        "head 2 a second time. Page really so?",
    ]
    page.locator("#confirm-foot .action").tap()
    assert "The path has no end." in page.locator("#confirm-said").inner_text()
    for _ in range(3):
        page.get_by_role("button", name="Take back one").tap()
    assert page.locator("#confirm-path li").all_inner_texts() == ["head 2"]
    tap(page, [], "head left")
    said = page.locator("#confirm-path .odd").inner_text()
    assert said == "head 2, dead end head left: the rope ends beside the head it comes from. Page really so?"


def test_read_with_no_server_and_compared_when_it_answers(phone: Phone, ready: PhoneServer) -> None:
    """The reading is kept; the answer comes by itself later."""
    page = hold(phone, ready, "demo-rigger")
    page.evaluate("() => navigator.serviceWorker.ready.then(() => undefined)")
    ready.stop()
    tap(page, RIGHT, "block")
    sign(page, "2222")
    page.get_by_text("Kept on this phone. The server compares it when there is signal.").wait_for()
    ready.start()
    page.evaluate("() => dispatchEvent(new Event('online'))")
    page.get_by_text("Same as typed. Sealed.").wait_for()
    kinds = [one.event.kind for one in stored(ready.folder)]
    assert (kinds.count("pattern_read"), kinds.count("pattern_compared")) == (1, 1)


def test_the_typist_is_not_asked(phone: Phone, ready: PhoneServer) -> None:
    """Who typed a pattern gets no keys."""
    path = ready.folder / f"{CRANE}.crane.yaml"
    path.write_text(path.read_text().replace("by: AK", "by: rita rigger"))
    page = hold(phone, ready, "demo-rigger")
    page.get_by_text("You typed this. Another person confirms it.").wait_for()
    assert page.locator("#confirm-taps").is_hidden()
    assert page.locator("#confirm-foot").is_hidden()
