"""Two people change Hazel 70 from 2 to 4 falls on one phone, with no server from the first screen to the last."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page, Playwright, expect

from becket.cli.demo_crew import keep_crew
from becket.guide.run import fold_run
from becket.guide.script import Script
from becket.web.house import House
from tests.phone.crew import CRANE, NAMED, Crew
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer, demo_folder

pytestmark = pytest.mark.browser
CHANGE = f"/c/{CRANE}/change/main:2/main:4"
KEPT = "(await (await m.outbox).counts()).kept"


def begin(page: Page, script: Script) -> Crew:
    """Begin a run from the page of its button: who leads, who helps, whose hands the phone is in."""
    page.locator("[data-change=button]").click()
    page.wait_for_url("**/run/start")
    for words in ("Otto Operator", "Rita Rigger", "Begin"):
        page.locator(".action", has_text=words).click()
    page.locator(".dots").wait_for()
    for one in "1111":
        page.locator(f'[data-key="{one}"]').click()
    page.wait_for_url("**/run/r-*")
    page.wait_for_selector("body[data-drawn]")
    return Crew(page, script)


def is_kept_offline(page: Page) -> None:
    """Wait until this phone needs no server for the run."""
    page.evaluate("() => navigator.serviceWorker.ready.then(() => undefined)")


def come_back(phone: Phone, server: PhoneServer, crew: Crew) -> Crew:
    """Switch the phone on again and open the run; no server answers."""
    address = crew.page.url
    phone.switch_on()
    page = phone.page()
    page.goto(address)
    page.wait_for_selector("body[data-drawn]")
    return Crew(page, crew.script, done=crew.done)


def send(page: Page) -> dict[str, object]:
    """Deliver as the phone does when the signal is back; return what is left and how it went."""
    body = "const { deliver, counts } = await m.outbox; await deliver(); await deliver();"
    return dict(ask(page, body + "const { kept, refused, state } = await counts(); return { kept, refused, state };"))


@pytest.fixture
def uncounted(tmp_path: Path) -> Iterator[tuple[PhoneServer, Script]]:
    """Yield a server on whose crane nobody has counted yet, and the script of a count."""
    server = PhoneServer(demo_folder(tmp_path / "data", CRANE))
    keep_crew(server.folder)
    house = House.open(server.folder)
    script = house.count_script_for(house.crane(CRANE))[1]
    house.close()
    yield server.start(), script
    server.kill()


def run_of(crew: Crew) -> str:
    """Return the id of the run on the phone."""
    return crew.page.url.rsplit("/", 1)[-1]


def run_events(server: PhoneServer) -> list[str]:
    """Return the keys of all events of changes that the server has kept."""
    return [kept.event.key for kept in stored(server.folder) if (kept.event.run or "") not in ("", "r-before")]


def test_the_whole_change_without_server(phone: Phone, ready: tuple[PhoneServer, Script]) -> None:
    """A wrong sheave, a count that differs, two flat batteries on the way: sent later, once each; closed, 4 on."""
    server, script = ready
    page = phone.enter(server, CHANGE)
    crew = begin(page, script)
    is_kept_offline(page)
    server.kill()
    thread = next(item.id for item in script.items if item.do.startswith("Thread head 3"))
    crew.other[thread] = {"sheave": 5}
    crew.play_to(thread, "pad")
    phone.kill()
    crew.other = {thread: {"sheave": 5}}
    crew = come_back(phone, server, crew)
    assert (crew.screen, crew.item().id) == ("step", thread)
    crew.other[thread] = {"sheave": 5}
    crew.play(lambda one: one.screen == "wrong")
    assert crew.title.startswith("You entered head 5.")
    head, ropes = next(group.items for group in script.groups if group.compare == "falls")
    crew.other[head] = {"sheaves": [2, 3], "ends_on": "block"}
    crew.play(lambda one: head in one.done)
    phone.kill()
    crew = come_back(phone, server, crew)
    crew.play(lambda one: one.screen == "differ")
    assert crew.page.locator(".differ-value").all_inner_texts() == ["4", "3"]
    assert crew.title == "The counts differ."
    crew.done -= {head, ropes}
    crew.play()
    assert crew.title == "4 falls."
    run = run_of(crew)
    on_phone = ask(crew.page, f"return {KEPT}")
    own = ask(crew.page, "return (await (await m.view).eventsOfRun(arg)).map((one) => one.key)", run)
    assert len(own) - on_phone <= 1, "all but the start was entered without a server"
    server.start()
    crew.page.goto(server.new_link())  # a browser that was killed may have lost its session; what was entered it has
    crew.page.wait_for_url(lambda url: "/open/" not in url)
    phone.go(crew.page, server, f"/run/{run}")
    assert send(crew.page) == {"kept": 0, "refused": 0, "state": "sent"}
    keys = run_events(server)
    assert sorted(keys) == sorted(own), "each once, none lost"
    began = next(one.event for one in stored(server.folder) if one.event.run == run)
    assert began.entered["why"] == "E;none;M-1;School, roof trus…"
    events = [kept.event for kept in stored(server.folder) if kept.event.key in keys]
    state = fold_run(script, events)
    assert (state.status, state.result, state.one_device, state.missing) == ("closed", "main:4", True, ())
    assert [one.agreed for one in state.rounds_kept if one.group == "falls"] == [False, True]
    assert {role: one.by for role, one in state.signed.items()} == NAMED
    assert [one.values["sheave"] for one in state.items[thread].attempts] == [5]
    phone.go(crew.page, server, f"/c/{CRANE}/now")
    assert crew.page.locator("[data-now=falls]").inner_text() == "4"


def test_stopped_and_gone_on_at_the_crane(phone: Phone, ready: tuple[PhoneServer, Script]) -> None:
    """STOP says what must hold; coming back asks before it tells; not as kept: the pause starts again."""
    server, script = ready
    crew = begin(phone.enter(server, CHANGE), script)
    crew.play_to("s31", "step")
    crew.tap(".stop")
    assert (crew.screen, crew.title) == ("stop", "Stop here?")
    assert crew.page.locator(".leave li").all_inner_texts() == list(script.item("s31").leave)
    crew.action()
    crew.keys(['[data-key="Suse Supervisor"]'])
    crew.action()
    assert (crew.screen, crew.title) == ("stopped", "RE-REEVING OPEN. DO NOT HOIST.")
    crew.page.reload()
    crew.page.wait_for_selector("body[data-drawn]")
    crew.look().action()
    kept = script.item("s31").resume
    assert kept is not None
    assert crew.title.startswith("You stopped at step 31, 0 min ago.")
    crew.action()
    for key in (str(int(str(kept["keepers_out"])) - 1), str(kept["last_sheave"]), str(kept["block"])):
        assert not crew.page.get_by_text("Kept:").count()
        crew.keys([f'[data-key="{key}"]'])
        crew.action()
    assert (crew.screen, crew.title) == ("resumed", "Not as kept.")
    assert crew.page.get_by_text("Kept: 2 keepers out. You saw 1.").count()
    crew.action()
    assert crew.item().id == "p2.1", "the last pause starts again from its first item"
    assert crew.page.get_by_text("A pause starts again from its first item.").count()
    crew.play_to("s31", "step")


def test_a_pause_left_starts_again(phone: Phone, ready: tuple[PhoneServer, Script]) -> None:
    """A reload in the middle of a pause breaks it off; the record has it; a step in the middle stays where it was."""
    server, script = ready
    crew = begin(phone.enter(server, CHANGE), script)
    crew.play_to("p1.4", "pad")
    crew.page.reload()
    crew.page.wait_for_selector("body[data-drawn]")
    assert crew.look().item().id == "p1.1"
    assert crew.page.get_by_text("A pause starts again from its first item.").count()
    kinds = ask(crew.page, "return (await (await m.view).eventsOfRun(arg)).map((one) => one.kind)", run_of(crew))
    assert kinds.count("interrupted") == 1
    crew.play_to("s16", "step")
    crew.page.reload()
    crew.page.wait_for_selector("body[data-drawn]")
    assert crew.look().item().id == "s16"


def test_differ_twice_then_by_hand_on_a_tablet(
    play: Playwright, tmp_path: Path, ready: tuple[PhoneServer, Script]
) -> None:
    """At 1280 x 800 with touch: the same screens, real taps; after two differences the rope is followed by hand."""
    server, script = ready
    tablet = Phone(play, tmp_path / "tablet", (1280, 800), touch=True)
    crew = begin(tablet.enter(server, CHANGE), script)
    first, second = script.groups[0].items
    for wanted in ("differ", "follow"):
        crew.other[second] = {"counterweight": 11, "outriggers": "full", "level": "within it"}
        crew.play(lambda one: one.screen in ("differ", "follow"))
        assert crew.screen == wanted
        crew.done -= {first, second}
        if wanted == "differ":
            assert crew.title == "The counts differ."
            crew.fingers = True
            crew.action()
            crew.fingers = False
    assert crew.title == "Differ twice."
    assert [one.strip() for one in crew.page.locator(".run-foot button").all_inner_texts()] == [
        "Followed to the dead end",
        "Stop the change",
    ]
    crew.action()
    assert crew.screen == "differ", "new counts, both"
    crew.action()
    crew.fingers = True
    crew.play(lambda one: one.screen == "agree")
    assert crew.title == "The same: Counterweight, outriggers, level"
    tablet.switch_off()
    assert tablet.said == []


def test_count_now_and_gone_on_from_paper(phone: Phone, uncounted: tuple[PhoneServer, Script]) -> None:
    """What is rigged, counted by two from Now; stopped on the way and gone on from paper, which the record has."""
    server, script = uncounted
    crew = begin(phone.enter(server, f"/c/{CRANE}/now"), script)
    crew.state = "main:2"
    crew.play(lambda one: one.screen in ("step", "pad", "handover"))
    assert crew.page.title() == "Count"
    crew.tap(".stop")
    crew.action()
    crew.keys(['[data-key="Suse Supervisor"]'])
    crew.action()
    crew.tap(".action.second")
    crew.action()
    crew.keys(['[data-key="3"]'])
    crew.action()
    crew.keys(['[data-key="Rita Rigger"]'])
    crew.action()
    for name, found in (("keepers_out", "0"), ("last_sheave", "none"), ("block", "hangs")):
        crew.keys([f'[data-field="{name}"] [data-key="{found}"]'])
        crew.action()
    crew.play()
    assert crew.title == "2 falls."
    kinds = ask(crew.page, "return (await (await m.view).eventsOfRun(arg)).map((one) => one.kind)", run_of(crew))
    assert kinds.count("went_on_from_paper") == kinds.count("resumed") == 1


def test_office_only_reads(play: Playwright, tmp_path: Path, ready: tuple[PhoneServer, Script]) -> None:
    """A wide screen without touch shows the run and has nothing to enter; nothing to begin either."""
    server, _ = ready
    desk = Phone(play, tmp_path / "desk", (1280, 800), touch=False)
    page = desk.enter(server, CHANGE)
    page.locator("[data-change=button]").click()
    page.wait_for_url("**/run/start")
    expect(page.locator("#screen")).to_contain_text("Office view: read only. Steps are entered at the crane.")
    assert page.locator("main button, .foot button").count() == 0
    desk.switch_off()
    assert desk.said == []
