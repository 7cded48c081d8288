"""The fold of the phone gives what the fold of the server gives, for every event that a crew can make."""

from __future__ import annotations

import json
from collections.abc import Iterator
from importlib.resources import files
from random import Random
from typing import Any

import pytest
from playwright.sync_api import Page, Playwright, Route

from becket.guide.crane_now import crane_now, crane_now_as_dict
from becket.guide.event import Event, event_as_dict
from becket.guide.run import fold_run, run_as_dict
from becket.guide.run_words import TEXTS
from becket.guide.script import Script, script_as_dict
from becket.guide.sealed import sealed_keys
from tests.guide.play import SCRIPT, Play
from tests.guide.sample import hazel_change, hazel_count
from tests.guide.small import small_change
from tests.guide.wild import delivered, wild_run

CHROMIUM = "/usr/bin/chromium-headless-shell"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"]
RUNS = 300  # wild runs of the small change; a third as many of a count

_ALL = """async ([scripts, cases]) => {
    const fold = await import("/fold.js");
    return JSON.stringify(cases.map(([name, events]) => ({
        run: fold.foldRun(scripts[name], events),
        sealed: fold.sealedKeys(scripts[name], events),
    })));
}"""
_CRANE = """async ([scripts, cases]) => {
    const fold = await import("/fold.js");
    return JSON.stringify(cases.map((events) => fold.craneNow(events, scripts)));
}"""


@pytest.fixture(scope="module")
def page(play: Playwright) -> Iterator[Page]:
    """Yield an empty page that may load the modules of the folder static, and nothing else."""
    browser = play.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
    opened = browser.new_page()
    opened.route("**/*", _serve)
    opened.goto("http://phone.invalid/")
    yield opened
    browser.close()


def _serve(route: Route) -> None:
    name = route.request.url.rpartition("/")[2]
    if not name.endswith(".js"):
        route.fulfill(body="<!doctype html><title>fold</title>", content_type="text/html")
        return
    text = files("becket.web").joinpath("static", name).read_text(encoding="utf-8")
    route.fulfill(body=text, content_type="text/javascript")


def _plain(events: tuple[Event, ...]) -> list[dict[str, object]]:
    return [event_as_dict(event) for event in events]


def _asked(page: Page, program: str, scripts: dict[str, Script], cases: list[Any]) -> list[Any]:
    plain = {name: script_as_dict(script) for name, script in scripts.items()}
    found: list[Any] = json.loads(page.evaluate(program, [plain, cases]))
    return found


@pytest.mark.browser
def test_the_phone_and_the_server_find_the_same_state(page: Page) -> None:
    scripts = {"small": small_change(), "count": hazel_count(), "hazel": hazel_change()}
    runs = [("small", wild_run(scripts["small"], seed)) for seed in range(RUNS)]
    runs += [("count", wild_run(scripts["count"], seed, length=20)) for seed in range(RUNS // 3)]
    runs += [("hazel", tuple(Play(scripts["hazel"], lot=lot).whole().events)) for lot in range(2)]
    cut = [events if place % 2 else events[: 8 + place % 40] for place, (_, events) in enumerate(runs)]
    cases = [(name, delivered(events, place)) for place, ((name, _), events) in enumerate(zip(runs, cut, strict=True))]
    found = _asked(page, _ALL, scripts, [[name, _plain(events)] for name, events in cases])
    for (name, events), js in zip(cases, found, strict=True):
        assert js["run"] == run_as_dict(fold_run(scripts[name], events))
        assert js["sealed"] == sorted(sealed_keys(scripts[name], events))
    closed = [js["run"]["status"] == "closed" for js in found]
    assert 0.1 < sum(closed) / len(closed) < 0.9  # runs that close and runs that do not are both compared
    screens = {js["run"]["screen"] for js in found}
    assert screens >= {"item", "differ", "follow_by_hand", "waiting", "stopped", "closed"}


@pytest.mark.browser
def test_the_phone_and_the_server_find_the_same_of_a_crane(page: Page) -> None:
    script = small_change()
    cases = [_crane_events(script, seed) for seed in range(60)]
    found = _asked(page, _CRANE, {SCRIPT: script}, [_plain(events) for events in cases])
    for events, js in zip(cases, found, strict=True):
        assert js == crane_now_as_dict(crane_now(events, {SCRIPT: script}))
    assert {js["locked"] is None for js in found} == {True, False}
    assert {js["state"] for js in found} == {None, "main:4"}


@pytest.mark.browser
def test_the_phone_says_the_words_of_the_server(page: Page) -> None:
    assert page.evaluate("async () => (await import('/fold-words.js')).WORDS") == dict(TEXTS)


def _crane_events(script: Script, seed: int) -> tuple[Event, ...]:
    """Events of a crane with two runs, trouble and inspections between them."""
    chance = Random(seed)
    play = Play(script, run="run-2", tick=200)
    for _ in range(chance.randrange(3)):
        play.write("trouble_entered", {"what": chance.choice(("wrong reeve", "shock")), "note": "seen"})
        fit = {
            "by_whom": chance.choice(("Ada Able", " ")),
            "found": "nothing bent",
            "fit": chance.choice((True, False)),
        }
        if chance.random() < 0.8:
            play.write("inspection_entered", fit)
    second = play.start().upto(chance.choice(("f2", None, None)))
    first = wild_run(script, seed, length=30, run="run-1")
    return delivered((*first, *second.sign().events), seed)
