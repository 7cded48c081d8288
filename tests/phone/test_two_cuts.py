"""The network is cut between each of two phones and the server, in every order: each entry once, records equal."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, Playwright

from becket.guide.event import event_as_dict
from becket.guide.run import fold_run
from becket.guide.script import Item, Script
from tests.guide.play import right_values
from tests.phone.crew import CRANE, NAMED
from tests.phone.modules import ask, stored
from tests.phone.phone import Phone
from tests.phone.server import PhoneServer
from tests.phone.test_change import uncounted

__all__ = ["uncounted"]
pytestmark = pytest.mark.browser
# the request is lost; the server takes it and its answer is lost
CUTS = ("open", "request", "answer")
CUT = """
globalThis.cut = "open";
const real = globalThis.fetch;
globalThis.fetch = async (...asked) => {
    if (globalThis.cut === "request") throw new TypeError("cut");
    const reply = await real(...asked);
    if (globalThis.cut === "answer") throw new TypeError("cut");
    return reply;
};"""
WRITE = """for (const { kind, entered, ...how } of arg) {
    const event = await (await m.view).newEvent(kind, { crane: "hazel-70", shown: {}, ...how, entered });
    await (await m.outbox).put(event);
}
await (await m.outbox).deliver();"""
DELIVER = "await (await m.outbox).deliver(); return (await (await m.outbox).counts()).kept;"
READ = "return (await (await m.view).eventsOfRun(arg)).map(({ number, received, hash, own, ...event }) => event)"


class Side:
    """One phone, in the hands of one person."""

    def __init__(self, page: Page, role: str) -> None:
        self.page, self.role = page, role
        ask(page, DELIVER)
        ask(page, "await (await m.people).setHolder(arg)", NAMED[role])

    def write(self, run: str, *written: tuple[str, dict[str, object]]) -> None:
        """Keep events of this phone's person, then try to deliver them."""
        how = {"run": run, "role": self.role, "person": NAMED[self.role]}
        ask(self.page, WRITE, [{"kind": kind, "entered": entered, **how} for kind, entered in written])

    def cut(self, how: str) -> None:
        """Cut the network of this phone, or put it back."""
        self.page.evaluate("(how) => { globalThis.cut = how; }", how)

    def deliver(self) -> int:
        """Deliver and fetch; return how much is still kept."""
        return int(ask(self.page, DELIVER))

    def events(self, run: str) -> list[dict[str, Any]]:
        """Return what this phone shows of the run."""
        return list(ask(self.page, READ, run))


@pytest.fixture
def sides(
    play: Playwright, tmp_path: Path, uncounted: tuple[PhoneServer, Script]
) -> Iterator[tuple[PhoneServer, Script, Side, Side]]:
    """Yield the server, the script of a count, the phone of the operator and that of the rigger."""
    server, script = uncounted
    phones = [Phone(play, tmp_path / role) for role in NAMED]
    for phone in phones:
        phone.add_script(CUT)
    one, other = (
        Side(phone.enter(server, f"/c/{CRANE}/record"), role) for phone, role in zip(phones, NAMED, strict=True)
    )
    yield server, script, one, other
    for phone in phones:
        phone.switch_off()
        assert phone.said == []


def test_every_order_of_cuts(sides: tuple[PhoneServer, Script, Side, Side]) -> None:
    """Who is cut and how: all of them, one run each; who enters first and who is back first changes with the run."""
    server, script, *both = sides
    kept = ask(both[0].page, "return (await (await fetch(`/api/kept/${arg}`)).json()).scripts", CRANE)
    script_id = next(one["id"] for one in kept if one["after"] is None)
    for number, (one, other) in enumerate(product(CUTS, CUTS)):
        schedule = Schedule(cuts=(one, other), enters=both[number % 2], back=both[number // 2 % 2])
        play_cut(server, script, (f"r-{number}", script_id), both, schedule)


@dataclass(frozen=True, kw_only=True)
class Schedule:
    """How each phone is cut off, who enters first, who is back first."""

    cuts: tuple[str, str]
    enters: Side
    back: Side


def play_cut(
    server: PhoneServer, script: Script, names: tuple[str, str], sides: list[Side], schedule: Schedule
) -> None:
    """Play one run up to its first compared group; both phones are cut off before the last two counts of it."""
    (run, script_id), (operator, rigger) = names, sides
    group = next(one for one in script.groups if one.compare == "falls")
    first = next(place for place, item in enumerate(script.items) if item.id in group.items)
    items = [script.item(one) for one in group.items]
    start = {"kind": "count", "script": script_id, "book": script.book, "before": None, "after": None, "why": ""}
    operator.write(
        run,
        ("run_started", {**start, **NAMED, "lot": 0}),
        *(entry(script, item) for item in script.items[:first]),
        entry(script, items[0]),
    )
    rigger.deliver()
    rigger.write(run, entry(script, items[1]))
    operator.deliver()
    for side, how in zip(sides, schedule.cuts, strict=True):
        side.cut(how)
    last = {operator.role: items[2], rigger.role: items[3]}
    for side in in_turn(sides, schedule.enters):
        side.write(run, entry(script, last[side.role]))
        assert all(is_hidden(one, run, items) for one in sides), schedule
    for side in in_turn(sides, schedule.back):
        side.cut("open")
        side.deliver()
    assert [side.deliver() for side in in_turn(sides, schedule.back)] == [0, 0]
    kept = [one.event for one in stored(server.folder) if one.event.run == run]
    on_file = sorted((event_as_dict(one) for one in kept), key=lambda one: (one["tick"], one["key"]))
    assert operator.events(run) == rigger.events(run) == on_file, schedule
    assert len({one.key for one in kept}) == len(kept) == 1 + first + len(items)
    state = fold_run(script, kept)
    assert [(one.agreed, len(one.entries)) for one in state.rounds_kept] == [(True, len(items))], schedule
    assert (state.out_of_turn, state.one_device) == ((), False)


def in_turn(sides: list[Side], first: Side) -> list[Side]:
    """Return both, one of them first."""
    return [first, *(side for side in sides if side is not first)]


def entry(script: Script, item: Item) -> tuple[str, dict[str, object]]:
    """Return what is right at an item, as it is kept."""
    return "entered", {"item": item.id, "round": 1, "values": right_values(script, item, "main:2")}


def is_hidden(side: Side, run: str, items: list[Item]) -> bool:
    """Return whether a phone shows no count of the other person while its own are not all in."""
    counts = [one for one in side.events(run) if one["entered"].get("item") in {item.id for item in items}]
    own = [one for one in counts if one["role"] == side.role]
    shown = [one for one in counts if one["role"] != side.role and "values" in one["entered"]]
    return len(own) == len(items) // 2 or not shown
