"""What stands on the screens of a run beside what is asked: the photo button, and that the book has changed since."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Page

from becket.guide.script import Script
from tests.phone.crew import CRANE, Crew
from tests.phone.modules import ask
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer
from tests.phone.test_change import CHANGE, begin

pytestmark = pytest.mark.browser
COUNT = ("handover", "alone", "blind", "agree")
TOLD = """
    for (const end = Date.now() + 90_000; Date.now() < end; ) {
        await (await m.outbox).deliver();
        const { book } = (await (await m.db).readMeta("feed:hazel-70")) ?? {};
        if (book && book !== arg) return true;
    }
    return false;
"""
DELIVER = "await (await m.outbox).deliver()"


def change_book(folder: Path) -> None:
    """Give the book another fingerprint: its figures stay."""
    book = folder / f"{CRANE}.crane.yaml"
    book.write_text(book.read_text(encoding="utf-8") + "\n# looked through again\n", encoding="utf-8")


def notices(page: Page) -> tuple[int, int]:
    """Return how many photo buttons and how many notices of a changed book stand on the screen."""
    return page.locator("[data-photo]").count(), page.locator(".book-changed").count()


def test_photo_button_and_changed_book_from_step_to_record(phone: Phone, ready: tuple[PhoneServer, Script]) -> None:
    """The book changes after the run began: steps and signatures say so, no count does; the run keeps its steps."""
    server, script = ready
    page = phone.enter(server, CHANGE)
    crew = begin(page, script)
    ask(page, DELIVER)
    page.reload()
    page.wait_for_selector("body[data-drawn]")
    assert page.locator(".book-changed").count() == 0
    change_book(server.folder)
    assert ask(page, TOLD, script.book), "the feed says that the server has another book"
    page.reload()  # the notice comes with the next screen that is read anew, never under the finger
    page.wait_for_selector("body[data-drawn]")
    crew.look()
    seen: dict[str, set[tuple[int, int]]] = {}

    def look(one: Crew) -> bool:
        seen.setdefault(one.screen, set()).add(notices(page))
        return False

    crew.action()
    crew.play(look)
    look(crew)
    assert page.locator(".book-changed").count() == 0, "the record is closed: nothing is gone on with"
    assert all(seen[name] == {(0, 0)} for name in COUNT), seen
    assert seen["step"] == seen["sign"] == {(1, 1)}, seen
    assert seen["closed"] == {(1, 0)}, seen
