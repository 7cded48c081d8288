"""Every page and every screen of a run: for eyes, gloves, keys, in both lights, with large text, at 360 px."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, Playwright

from becket.cli.demo_crew import keep_crew
from becket.guide.script import Script
from tests.phone.access import axe_faults, keyboard_faults, measured, moving
from tests.phone.crew import CRANE, Crew, make_ready
from tests.phone.modules import ask
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder
from tests.phone.test_change import begin

pytestmark = [pytest.mark.browser, pytest.mark.xdist_group("test_access")]  # one server for all
BASE = f"/c/{CRANE}"
PAGES = (
    *("/", "/who", "/settings", "/files", "/kept", "/link"),
    *(f"/pages?crane={CRANE}", f"/who?crane={CRANE}", f"/settings?crane={CRANE}"),
    *(f"{BASE}/{page}" for page in ("now", "week", "falls", "falls/1", "pattern", "pattern/main:4", "pattern/main:5")),
    *(f"{BASE}/{page}" for page in ("pattern/main:5/confirm", "change", "change/main:2/main:4")),
    *(f"{BASE}/{page}" for page in ("change/main:4/main:5", "record", "record/r-before", "trouble")),
    *("/c/rowan-30/now", "/c/rowan-30/record", "/c/none/now"),
)
LOOK = """([theme, text]) => {
    localStorage.setItem("look", JSON.stringify({ theme, text }));
    document.documentElement.dataset.theme = theme;
    document.documentElement.dataset.text = text;
}"""
SPOIL = """() => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(`.spoilt{font-size:12px;color:#ddd;background:#fff;width:30px;height:30px;padding:0;
        min-height:0;outline:none!important}.spoilt-wide{width:700px}`);
    document.adoptedStyleSheets = [sheet];
    const odd = [["button", "spoilt", "x"], ["button", "spoilt", ""], ["p", "spoilt-wide", "y"]];
    odd.push(["button", "stop", "one two three four five"]);
    for (const [tag, name, text] of odd) {
        const made = document.createElement(tag);
        made.className = name;
        made.textContent = text;
        document.querySelector("main").append(made);
    }
}"""
LOOKS = (("sun", "normal"), ("night", "large"))
NARROW = "px in a picture"
EXCEPTIONS: tuple[tuple[str, str, str], ...] = (
    # place, part of the fault, reason
    (
        "/pattern/main:5 ",
        NARROW,
        "a picture with a hatched edge on both sides and room for the name of the becket is wider than 360 px and is "
        "scaled down to 85 %; path, sheaves and dead end stand in words below it",
    ),
)


def left(faults: list[str]) -> list[str]:
    """Return the faults that no named exception explains."""
    return [one for one in faults if not any(place in one and part in one for place, part, _ in EXCEPTIONS)]


@pytest.fixture(scope="module")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[PhoneServer]:
    """Yield a server with a crew, a closed count of 2 falls, and nothing open."""
    found = PhoneServer(demo_folder(tmp_path_factory.mktemp("access") / "data"))
    keep_crew(found.folder)
    yield found
    found.stop()


@pytest.fixture(scope="module")
def script(server: PhoneServer) -> Script:
    """Return the script of the change from 2 to 4 falls; 2 falls were counted before; the server runs from now on."""
    _, found = make_ready(server.folder)
    server.start()
    return found


@pytest.fixture(scope="module")
def phone(play: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """Yield one phone for all pages; somebody holds it; it asks for less motion."""
    found = Phone(play, tmp_path_factory.mktemp("access-phone"))
    yield found
    found.switch_off()


@pytest.fixture(scope="module")
def page(phone: Phone, server: PhoneServer, script: Script) -> Page:
    """Return its tab, in the rigger's hands, at a server that runs."""
    assert script.after == "main:4"
    tab = phone.enter(server, f"{BASE}/now")
    tab.emulate_media(reduced_motion="reduce")
    ask(tab, "await (await m.outbox).deliver(); await (await m.people).setHolder(arg)", "demo-rigger")
    return tab


def look(page: Page, theme: str, text: str) -> None:
    """Choose light and size of text, as Settings does."""
    page.evaluate(LOOK, [theme, text])


def said_of(page: Page, where: str) -> list[str]:
    """Return every fault of what stands on the phone in both lights, with the place."""
    faults = []
    for theme, text in LOOKS:
        look(page, theme, text)
        found = [*measured(page), *axe_faults(page, again=(theme, text) != LOOKS[0])]
        faults += left([f"{where} {theme} {text}: {one}" for one in found])
    return faults


def test_every_page(page: Page, phone: Phone, server: PhoneServer) -> None:
    """axe, targets, sizes, contrast, nothing cut off or sideways, nothing that moves by itself, in both lights."""
    faults = []
    for path in PAGES:
        phone.go(page, server, path)
        page.evaluate("() => document.querySelectorAll('details').forEach((one) => { one.open = true; })")
        faults += said_of(page, path)
        faults += [f"{path}: something moves by itself"] if moving(page) else []
    assert not faults, "\n" + "\n".join(faults)


def test_the_measures_find_what_is_wrong(page: Page, phone: Phone, server: PhoneServer) -> None:
    """A control: small text, a small target, weak contrast, a page too wide, a hidden focus, a missing name."""
    phone.go(page, server, f"{BASE}/trouble")
    page.evaluate(SPOIL)
    found = "\n".join([*measured(page), *axe_faults(page), *keyboard_faults(page)])
    for fault in (
        "text 12.0 px",
        "target 30 x 30",
        "contrast 1.",
        "sideways: page",
        "no focus ring: button",
        "cut off below: button stop",
    ):
        assert fault in found, (fault, found)
    assert "axe button-name" in found


def test_every_action_is_reached_by_keys(page: Page, phone: Phone, server: PhoneServer) -> None:
    """Tab reaches every action of every page, and the place of the focus is seen."""
    look(page, "sun", "normal")
    faults = []
    for path in PAGES:
        phone.go(page, server, path)
        faults += [f"{path}: {one}" for one in keyboard_faults(page)]
    assert not faults, "\n" + "\n".join(faults)


def test_a_pattern_is_read_with_keys_alone(page: Page, phone: Phone, server: PhoneServer) -> None:
    """Enter and space tap a key."""
    phone.go(page, server, f"{BASE}/pattern/main:5/confirm")
    for sheave, stroke in (("head 2", "Enter"), ("block 1", "Space")):
        page.get_by_role("button", name=sheave, exact=True).focus()
        page.keyboard.press(stroke)
    assert page.locator("#confirm-path li").all_inner_texts() == ["head 2", "block 1"]
    faults = said_of(page, "taps")
    assert not faults, faults


def test_every_screen_of_a_change(page: Page, phone: Phone, server: PhoneServer, script: Script) -> None:
    """Each kind of screen and of pad once, in both lights, as it stands when two people play the change."""
    look(page, "sun", "normal")
    phone.go(page, server, f"{BASE}/record")
    ask(page, "await (await m.people).setHolder(null)")
    phone.go(page, server, f"{BASE}/change/main:2/main:4")
    seen: set[str] = set()
    faults: list[str] = []

    def look_at(crew: Crew) -> bool:
        name = screen_name(crew)
        if name not in seen:
            seen.add(name)
            faults.extend(said_of(page, name))
            look(page, *LOOKS[0])
        return False

    crew = begin(page, script).play(look_at)
    look_at(crew)
    assert {one.split()[0] for one in seen} >= {"step", "pad", "alone", "blind", "handover", "agree", "sign", "closed"}
    assert not faults, "\n" + "\n".join(faults)


def screen_name(crew: Crew) -> str:
    """Return what kind of screen stands: its name, the kinds of its fields, whether it has a picture."""
    if crew.screen not in ("pad", "step", "blind"):
        return crew.screen
    item = crew.item()
    if crew.screen == "step":
        return f"step {item.picture.split('-')[0]}" if item.picture else "step"
    kinds = {field.name: field.kind for field in item.fields}
    return " ".join([crew.screen, *(kinds[name] for name in crew.now["fields"])])
