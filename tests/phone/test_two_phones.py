"""Operator and rigger, each with a phone of their own, on one change."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright

from becket.guide.run import fold_run
from becket.guide.script import Script
from tests.phone.crew import CRANE, DIGITS, NAMED, Crew
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer
from tests.phone.test_change import CHANGE, begin, run_of

pytestmark = pytest.mark.browser
_WENT_ON = """async () => {
    const end = performance.now() + 5000;
    while (!document.querySelector(".went-on") && performance.now() < end) {
        await new Promise((done) => setTimeout(done, 5));
    }
    return Boolean(document.querySelector(".went-on"));
}"""
KEYS = "return (await (await m.view).eventsOfRun(arg)).map((one) => one.key).sort()"
DELIVER = "await (await m.outbox).deliver(); await (await m.outbox).deliver();"


@dataclass
class Two:
    """A server and two phones: that of the operator, that of the rigger."""

    server: PhoneServer
    script: Script
    operator: Phone
    rigger: Phone


@pytest.fixture
def two(play: Playwright, tmp_path: Path, ready: tuple[PhoneServer, Script]) -> Iterator[Two]:
    """Yield two phones with storage of their own; a fault on a console fails the test."""
    one, other = Phone(play, tmp_path / "operator"), Phone(play, tmp_path / "rigger")
    yield Two(*ready, one, other)
    for phone in (one, other):
        phone.switch_off()
        assert phone.said == []


def digits(page: Page, role: str) -> None:
    """Type the four digits of a role."""
    for one in DIGITS[NAMED[role]]:
        page.locator(f'[data-key="{one}"]').click()


def join(two: Two, look: Callable[[Page], object] = lambda page: None) -> Crew:
    """Join the run that is open, from Now on the rigger's phone; return who plays there."""
    page = two.rigger.enter(two.server, f"/c/{CRANE}/now")
    page.locator(".action", has_text="Go on").first.click()
    page.wait_for_selector("body[data-screen=join]")
    look(page)
    page.locator(".action", has_text="Rita Rigger").click()
    digits(page, "rigger")
    page.wait_for_selector("body[data-screen]:not([data-screen=join])")
    ask(page, DELIVER)
    return Crew(page, two.script)


def catch_up(crew: Crew) -> None:
    """Look at the server now, and show what went on elsewhere; the screen had stayed as it was."""
    ask(crew.page, DELIVER)
    assert crew.page.evaluate(_WENT_ON), crew.screen
    crew.tap(".went-on .turn")


def play_on_both(operator: Crew, rigger: Crew) -> None:
    """The operator's phone leads; whenever it waits, the rigger's goes on as far as it can."""
    turns = 0
    while "closed" not in (operator.screen, rigger.screen):
        turns += 1
        assert turns < 60, (operator.now, rigger.now)
        operator.play(lambda one: one.screen in ("waiting", "sign"))
        if operator.screen == "sign":
            sign_on_both(operator, rigger)
            return
        ask(operator.page, DELIVER)
        catch_up(rigger)
        rigger.play(lambda one: one.screen not in ("handover", "alone", "blind", "agree"))
        ask(rigger.page, DELIVER)
        catch_up(operator)


def sign_on_both(operator: Crew, rigger: Crew) -> None:
    """Each signs own values on their own phone."""
    ask(operator.page, DELIVER)
    catch_up(rigger)
    for crew, role in ((operator, "operator"), (rigger, "rigger")):
        assert crew.screen == "sign"
        assert f"the {role}" in crew.title, crew.title
        crew.give_digits()
        crew.action()
        ask(crew.page, DELIVER)
        if role == "operator":
            catch_up(rigger)
    assert rigger.screen == "closed"
    assert operator.page.evaluate(_WENT_ON), "the phone looks by itself, every 3 s"
    operator.tap(".went-on .turn")


def test_a_change_on_two_phones(two: Two) -> None:
    """Each counts on their own phone and says no number; the record is equal on both and says which phone gave what."""
    operator = begin(two.operator.enter(two.server, CHANGE), two.script)
    ask(operator.page, DELIVER)
    rigger = join(two)
    ask(operator.page, DELIVER)
    play_on_both(operator, rigger)
    assert (operator.title, rigger.title) == ("4 falls.", "4 falls.")
    run = run_of(operator)
    kept = [one.event for one in stored(two.server.folder) if one.event.run == run]
    keys = sorted(one.key for one in kept)
    assert len(keys) == len(set(keys))
    assert ask(operator.page, KEYS, run) == ask(rigger.page, KEYS, run) == keys
    state = fold_run(two.script, kept)
    assert (state.status, state.result, state.one_device, state.out_of_turn) == ("closed", "main:4", False, ())
    for kept_round in state.rounds_kept:
        sides = {one.role: one.device for one in kept_round.entries}
        assert len(set(sides.values())) == len(sides), "each counted on their own phone"
    two.operator.go(operator.page, two.server, f"/c/{CRANE}/record/{run}")
    two.rigger.go(rigger.page, two.server, f"/c/{CRANE}/record/{run}")
    one, other = (crew.page.locator("main").inner_text() for crew in (operator, rigger))
    assert one == other
    devices = {event.device for event in kept}
    assert len(devices) == 2
    assert all(device in one for device in devices), "the record names both phones"
