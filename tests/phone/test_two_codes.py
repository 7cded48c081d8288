"""Two phones with no signal tell each other a count by code: the hash first, the value only after both are hidden."""

from __future__ import annotations

import base64
import json
import os
from pathlib import Path

import cv2
import numpy as np
import pytest
from playwright.sync_api import Page

from becket.guide.run import fold_run
from becket.guide.script import Script
from tests.phone.access import axe_faults, measured
from tests.phone.crew import NAMED, Crew
from tests.phone.modules import ask, stored
from tests.phone.test_access import LOOK, LOOKS
from tests.phone.test_blind import everywhere
from tests.phone.test_change import CHANGE, begin, is_kept_offline, run_of
from tests.phone.test_two_phones import DELIVER, KEYS, Two, digits, join, two

__all__ = ["two"]
PICTURES = Path(os.environ["TWO_PICTURES"]) if "TWO_PICTURES" in os.environ else None
pytestmark = pytest.mark.browser
SCANNER = """globalThis.BarcodeDetector = class {
    async detect() { const text = globalThis.shownToCamera; return text ? [{ rawValue: text }] : []; }
};
if (navigator.mediaDevices) navigator.mediaDevices.getUserMedia = async () => {
    const canvas = Object.assign(document.createElement("canvas"), { width: 64, height: 64 });
    canvas.getContext("2d").fillRect(0, 0, 64, 64);
    return canvas.captureStream(10);
};"""
PHOTO = """async () => {
    const code = document.querySelector(".qr").cloneNode(true);
    const side = 8 * code.viewBox.baseVal.width;  // sharp: a screenshot of 360 px has fewer points than a phone
    ["width", "height"].forEach((name) => code.setAttribute(name, side));
    const picture = new Image();
    const text = new XMLSerializer().serializeToString(code);
    picture.src = URL.createObjectURL(new Blob([text], { type: "image/svg+xml" }));
    await picture.decode();
    const canvas = Object.assign(document.createElement("canvas"), { width: side, height: side });
    canvas.getContext("2d").drawImage(picture, 0, 0);
    return canvas.toDataURL("image/png");
}"""
HEIGHTS = {"operator": 4.077, "rigger": 4.083}  # heights that stand nowhere else
OTHER = "On the other phone"
STATE = """const { eventsOfRun, scriptOf } = await m.view;
const events = await eventsOfRun(arg);
const script = await scriptOf(events.find((one) => one.kind === "run_started").entered.script);
const { at, screen } = (await m.fold).foldRun(script, events);
return { at, screen };"""
ODD_CODES = {
    "nothing": "no code of becket",
    "http://elsewhere.invalid/run/join#h.AAAA": "no code of becket",
}


def seen_code(page: Page) -> str:
    """Return the text of the code on the screen, read from its picture by another program."""
    page.locator(".qr").wait_for()
    png = base64.b64decode(page.evaluate(PHOTO).partition(",")[2])
    shot = cv2.imdecode(np.frombuffer(png, np.uint8), cv2.IMREAD_GRAYSCALE)
    assert shot is not None
    for points in (3, 4, 5):  # as a camera does: from other distances and turned, until it reads it
        near = np.kron(shot[4::8, 4::8], np.ones((points, points), np.uint8))
        for turned in (0, 10, 45, 5, 2):
            side = 2 * near.shape[0]
            turn = cv2.getRotationMatrix2D((near.shape[0] / 2, near.shape[0] / 2), turned, 1)
            turn[:, 2] += near.shape[0] / 2
            text = cv2.QRCodeDetector().detectAndDecode(cv2.warpAffine(near, turn, (side, side), borderValue=(255,)))[0]
            if text:
                return str(text)
    raise AssertionError("nobody can read this code")


def paste(page: Page, text: str) -> None:
    """Give the text of a code to the page as a person does whose browser reads none."""
    page.locator("[data-two=text]").fill(text)
    page.locator(".action", has_text="Take it").click()


def hold_before_camera(page: Page, text: str) -> None:
    """Show a code to the camera of a phone."""
    page.locator("video").wait_for()
    page.evaluate("(text) => { globalThis.shownToCamera = text; }", text)


def looks(page: Page, name: str) -> list[str]:
    """Return the faults of the screen that stands, in every light; keep pictures where a folder is named."""
    faults = []
    for theme, text in LOOKS:
        page.evaluate(LOOK, [theme, text])
        found = [*measured(page), *axe_faults(page, again=(theme, text) != LOOKS[0])]
        faults += [f"{name} {theme} {text}: {one}" for one in found]
        if PICTURES is not None:
            page.screenshot(path=PICTURES / f"{name}-{theme}-{text}.png")
    page.evaluate(LOOK, LOOKS[0])
    return faults


def tap(page: Page, words: str) -> None:
    """Tap what says some words."""
    page.locator(".action", has_text=words).first.click()


def play_to_height(crew: Crew, script: Script) -> str:
    """Play on one phone with no server, handing it over, until the operator has measured the hook; return whose."""
    group = next(one for one in script.groups if one.name == "hook height")
    mine = next(item for item in group.items if script.item(item).who == "operator")
    crew.other[mine] = {"height": HEIGHTS["operator"]}

    def is_there(one: Crew) -> bool:
        if one.screen == "handover" and "rigger" in one.title and one.page.locator(".action", has_text=OTHER).count():
            state = ask(one.page, STATE, one.page.url.rsplit("/", 1)[-1])
            if state["at"] in group.items:
                one.tap(".run-foot .action.second")
        return mine in one.done and one.screen == "waiting"

    crew.play(is_there)
    return next(item for item in group.items if item != mine)


def changed(code: str) -> str:
    """Return the code of an entry with another value in it."""
    packed = code.removeprefix("#e.")
    plain = json.loads(base64.urlsafe_b64decode(packed + "=" * (-len(packed) % 4)))
    plain[-1]["values"] = {"height": HEIGHTS["operator"]}
    return "#e." + base64.urlsafe_b64encode(json.dumps(plain).encode()).decode().rstrip("=")


def holds(page: Page, role: str) -> bool:
    """Return whether a phone holds what a role measured in the clear, or a code with a value, anywhere."""
    texts = everywhere(page)
    assert any("sealed" in text for text in texts), "the entries themselves are there, hidden"
    return any(str(HEIGHTS[role]) in text or "#e." in text for text in texts)


def test_a_count_passes_by_code(two: Two) -> None:
    """Each measures on their own phone; no server; the value passes once both are hidden; each once at the server."""
    two.rigger.add_script(SCANNER)
    operator = begin(two.operator.enter(two.server, CHANGE), two.script)
    ask(operator.page, DELIVER)
    faults: list[str] = []
    rigger = join(two, lambda page: faults.extend(looks(page, "join")))
    ask(operator.page, DELIVER)
    for crew in (operator, rigger):
        is_kept_offline(crew.page)
    two.server.kill()
    item = two.script.item(play_to_height(operator, two.script))
    assert operator.title == "Waiting for the other count. Say no number."
    a, b, run = operator.page, rigger.page, run_of(operator)
    faults += looks(a, "waiting")
    tap(a, "No signal: by code")
    invitation = seen_code(a)
    faults += looks(a, "invite")
    b.goto(two.server.address + "/run/join")
    b.locator("video").wait_for()
    faults += looks(b, "read")
    hold_before_camera(b, invitation)
    b.wait_for_url(f"**/run/{run}")
    b.wait_for_selector("body[data-screen=invited]")
    faults += looks(b, "invited")
    digits(b, "rigger")
    b.locator("[data-field]").first.wait_for()
    rigger = Crew(b, two.script)
    rigger.fill(item.fields, {"height": HEIGHTS["rigger"]})
    rigger.action()
    proof = seen_code(b)
    faults += looks(b, "seal")
    assert [holds(page, role) for page in (a, b) for role in HEIGHTS] == [False] * 4
    tap(a, "Read the other phone's code")
    for odd, said in ODD_CODES.items():
        paste(a, odd)
        a.locator(".say", has_text=said).wait_for()
    paste(a, proof)
    own = seen_code(a)
    assert own != proof
    assert not holds(a, "rigger"), "both are hidden: this phone may open its own, not the other one"
    assert not holds(b, "operator")
    tap(b, "Read the other phone's code")
    hold_before_camera(b, own)
    b.get_by_text("Both are hidden").wait_for()
    value = seen_code(b)
    faults += looks(b, "value")
    tap(a, "Read the other phone's code")
    faults += looks(a, "paste")
    paste(a, changed(value[value.index("#") :]))
    a.locator(".say", has_text="not the count that was hidden").wait_for()
    assert (holds(a, "rigger"), holds(b, "operator")) == (False, False)
    paste(a, value)
    a.wait_for_function("() => ['agree', 'differ'].includes(document.body.dataset.screen)")
    tap(b, "It was read")
    b.wait_for_selector("body:not([data-screen=invited])")
    assert not faults, "\n" + "\n".join(faults)
    two.server.start()
    for page in (b, a, b):  # whoever is first: the start and the count are there already, under the same keys
        ask(page, DELIVER)
    kept = [one.event for one in stored(two.server.folder) if one.event.run == run]
    assert ask(a, KEYS, run) == ask(b, KEYS, run) == sorted(one.key for one in kept)
    for page in (a, b):
        assert ask(page, "return (await (await m.outbox).counts()).refused") == 0
    found = next(one for one in fold_run(two.script, kept).rounds_kept if one.group == "hook height")
    assert {one.role: one.by for one in found.entries} == NAMED
    assert {one.role: one.values["height"] for one in found.entries} == HEIGHTS
    assert len({one.device for one in found.entries}) == 2
