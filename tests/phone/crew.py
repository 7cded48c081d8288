"""Two people at a crane who play a run on a phone, screen by screen, with their fingers.

In:    a tab on the page of a run; the script, read as a person reads the crane.
Out:   every screen answered; what each screen said.
Never: a value that the page offered; a wait by the clock.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

from becket.book.tackle import State
from becket.cli.demo_crew import crew, keep_crew
from becket.guide.script import Field, Item, Script
from becket.web.house import House
from tests.guide.play import PEOPLE, Play, right_values

CRANE = "hazel-70"
NAMED = {"operator": "demo-operator", "rigger": "demo-rigger"}
DIGITS = {one["id"]: one["digits"] for one in crew()}
RUNS_FROM, RUNS_TO = State(block="main", falls=2), State(block="main", falls=4)
_PLAY = """async ({ keys, taps }) => {
    const body = document.body.dataset;
    const find = (place) => document.querySelector(place) ?? (() => { throw new Error(`no ${place}`); })();
    keys.forEach((place) => find(place).click());
    if (taps) {
        const old = body.drawn;
        if (taps !== "keys") find(taps).click();
        const end = performance.now() + 90000;
        while ((body.drawn === old && taps !== "keys") || body.busy === "true") {
            if (performance.now() > end) throw new Error(`still ${body.screen}`);
            await new Promise((done) => setTimeout(done, 2));
        }
    }
    const texts = (place) => [...document.querySelectorAll(place)].map((one) => one.innerText.trim());
    return {
        screen: body.screen, item: body.item, title: texts("#screen h1")[0] ?? "", role: texts(".role")[0] ?? "",
        fields: [...document.querySelectorAll("[data-field]")].map((one) => one.dataset.field),
        prompts: texts("[data-field] h1, [data-field] h2"), digits: document.querySelectorAll(".dots").length,
    };
}"""
_DRAWN = "(old) => document.body.dataset.drawn !== old && document.body.dataset.busy !== 'true'"
Values = Mapping[str, object]


def make_ready(folder: Path) -> tuple[str, Script]:
    """Put a crew and a closed count of 2 falls into a folder; return id and script of the change to 4 [-].

    Args:
        folder: of the server
    """
    keep_crew(folder)
    house = House.open(folder)
    crane = house.crane(CRANE)
    name, counted = house.count_script_for(crane)
    play = Play(counted, state="main:2", run="r-before").start(script=name, **NAMED).upto(None).sign()
    own = {PEOPLE[role]: NAMED[role] for role in PEOPLE}
    events = [replace(one, person=own[one.person or ""]) for one in play.events]
    house.store.append(events, datetime.now(UTC).isoformat(timespec="milliseconds"))
    found = house.script_for(crane, RUNS_FROM, RUNS_TO)
    house.close()
    assert isinstance(found, tuple), found
    return found


@dataclass
class Crew:
    """Two people and one phone. ``seen``: the screens that stood, in order."""

    page: Page
    script: Script
    state: str | None = None  # that is rigged, for a count
    fingers: bool = False  # real taps, slower; else each key is clicked by its page
    done: set[str] = field(default_factory=set)
    seen: list[str] = field(default_factory=list)
    other: dict[str, Values] = field(default_factory=dict)  # item -> what is entered instead of what is right, once
    now: dict[str, Any] = field(default_factory=dict)  # what stands on the phone

    def __post_init__(self) -> None:
        self.look()

    @property
    def screen(self) -> str:
        """Return the name of the screen that stands [-]."""
        return str(self.now["screen"])

    @property
    def title(self) -> str:
        """Return the largest words of the screen [-]."""
        return str(self.now["title"])

    def look(self) -> Crew:
        """Look at what stands on the phone."""
        self.now = self.page.evaluate(_PLAY, {"keys": [], "taps": ""})
        return self

    def play(self, until: Callable[[Crew], bool] = lambda crew: False) -> Crew:
        """Answer screen after screen until one stands that is wanted, or the run is closed."""
        while self.screen != "closed" and not until(self):
            self.answer()
        return self

    def play_to(self, item: str, screen: str) -> Crew:
        """Answer screen after screen until an item stands on a screen."""
        return self.play(lambda crew: crew.screen == screen and crew.item().id == item)

    def answer(self) -> None:
        """Answer the screen that stands, as a careful person does."""
        self.seen.append(self.screen)
        answers = {"handover": self.give_digits, "sign": self._sign, "blind": self._enter, "pad": self._enter}
        answers.get(self.screen, self._go_on)()

    def item(self) -> Item:
        """Return the item that is asked: by its id where the page has it, by who and what on a blind screen [-]."""
        if self.now["item"]:
            return self.script.item(self.now["item"])
        who, asked = self.now["role"].split()[0].lower(), set(self.now["prompts"])
        open_ones = (one for one in self.script.items if one.blind and one.id not in self.done and one.who == who)
        return next(one for one in open_ones if asked & {f.prompt for f in one.fields})

    def action(self) -> None:
        """Tap the action of the screen."""
        self.tap(".run-foot .action")

    def tap(self, place: str) -> None:
        """Tap, and wait until the next screen stands."""
        if not self.fingers:
            self.now = self.page.evaluate(_PLAY, {"keys": [], "taps": place})
            return
        old = self.page.evaluate("() => document.body.dataset.drawn")
        self.page.locator(place).first.tap()
        self.page.wait_for_function(_DRAWN, arg=old)
        self.look()

    def keys(self, places: Sequence[str]) -> None:
        """Press keys; the screen stays."""
        if self.fingers:
            for place in places:
                self.page.locator(place).tap()
        else:
            self.page.evaluate(_PLAY, {"keys": list(places), "taps": ""})

    def give_digits(self, person: str | None = None, opens: bool = True) -> None:
        """Type four digits: those of whoever is asked, or of somebody else."""
        asked = re.search(r"operator|rigger", self.title)
        assert asked is not None, self.title
        *first, last = [f'[data-key="{one}"]' for one in DIGITS[person or NAMED[asked[0]]]]
        self.keys(first)
        if opens:
            self.tap(last)
            return
        self.keys([last])
        self.page.locator(".said.say").wait_for()
        self.look()

    def fill(self, asked: Sequence[Field], values: Values) -> None:
        """Enter values into the pads that stand, page by page, up to the last action."""
        left = list(asked)
        while left:
            there = [one for one in left if one.name in self.now["fields"]]
            assert there, (self.now, [one.name for one in left])
            self.keys([place for one in there for place in _places(one, values[one.name])])
            left = [one for one in left if one not in there]
            if left:
                self.action()

    def _enter(self) -> None:
        item = self.item()
        values = self.other.pop(item.id, None)
        self.fill(item.fields, values or right_values(self.script, item, self.state))
        if values is None or item.blind:
            self.done.add(item.id)
        self.action()

    def _go_on(self) -> None:
        if self.screen == "step" and not self.item().fields:
            self.done.add(self.item().id)
        self.action()

    def _sign(self) -> None:
        if self.now["digits"]:
            self.give_digits()
        else:
            self.action()


def _places(asked: Field, value: object) -> list[str]:
    """Return the keys that a person presses for a value, as places on the page."""
    return [f'[data-field="{asked.name}"] [data-key="{one}"]' for one in _keys(asked, value)]


def _keys(asked: Field, value: object) -> list[str]:
    """Return the keys that a person presses for a value."""
    if asked.kind in ("falls", "sheave") or (asked.kind == "count" and int(str(value)) <= 10):
        return [str(value)]
    if asked.kind == "sheaves":
        assert isinstance(value, list | tuple)
        return [str(one) for one in value] or ["none"]
    if asked.kind == "number":
        text = f"{value:g}"
        return (["−"] if text.startswith("-") else []) + list(text.lstrip("-"))
    if asked.kind == "time":
        return list(str(value).replace(":", ""))
    if asked.kind == "name":
        return ["Otto Operator"]
    return [str(value)]
