"""What stands on the screens of a run beside what is asked: the photo button, and that the book has changed since."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

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


PUT = """
    const { newEvent } = await m.view;
    const of = { crane: arg.crane, role: "operator", person: "demo-operator" };
    await (await m.outbox).put(await newEvent(arg.kind, { ...of, entered: arg.entered }));
"""
WRONG = {"crane": CRANE, "kind": "trouble_entered", "entered": {"what": "wrong reeve", "note": "half threaded"}}
FIT = {
    "crane": CRANE,
    "kind": "inspection_entered",
    "entered": {"by_whom": "Cy Marsh", "found": "no mark", "fit": True},
}


def test_a_lock_out_stands_on_the_open_run_and_an_inspection_gives_it_up(
    phone: Phone, ready: tuple[PhoneServer, Script]
) -> None:
    """With the page open, after a reload, on each next screen but the counts; Now then asks for a count."""
    server, script = ready
    page = phone.enter(server, CHANGE)
    crew = begin(page, script)
    crew.play(lambda one: one.screen == "step")
    notice = page.locator(".lock-notice")
    assert notice.count() == 0
    other = phone.enter(server, f"/c/{CRANE}/now")
    ask(other, PUT, WRONG)
    page.bring_to_front()
    page.evaluate("() => dispatchEvent(new Event('online'))")
    expect(notice).to_have_text(re.compile("^LOCKED OUT: wrong reeve. Stop."))
    page.reload()
    page.wait_for_selector("body[data-drawn]")
    expect(notice).to_have_text(re.compile("^LOCKED OUT: wrong reeve. Stop."))
    seen: dict[str, set[int]] = {}
    crew.look()

    def look(one: Crew) -> bool:
        seen.setdefault(one.screen, set()).add(notice.count())
        return "blind" in seen

    crew.play(look)
    assert seen["blind"] == {0}, seen
    assert seen["step"] == {1}, seen
    ask(other, PUT, FIT)
    page.reload()
    page.wait_for_selector("body[data-drawn]")
    crew.look()
    if crew.screen in COUNT:
        crew.play(lambda one: one.screen not in COUNT)
    expect(notice).to_have_text("An inspection has given this up. Stop here. Open Now and count what is rigged.")
    phone.go(other, server, f"/c/{CRANE}/now")
    expect(other.locator("[data-now=unknown]")).to_contain_text("Not known what is rigged.")
