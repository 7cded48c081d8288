"""Several phones at one house at once: deliveries and questions in threads of their own."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import replace
from threading import Event as Flag
from time import sleep

import pytest

from becket.guide.event import Event, event_as_dict
from becket.guide.script import script_text
from becket.records.kept import News
from becket.records.verify import verify
from becket.web.feed import feed_events, news_after
from becket.web.house import House
from becket.web.receive import receive
from tests.guide.play import PEOPLE, Play
from tests.guide.small import small_change
from tests.web.asking import Phone

CRANES = ("hazel-70", "rowan-30")
RUNS = 3  # changes of each crane


def let_others_in(house: House, monkeypatch: pytest.MonkeyPatch) -> None:
    """Give every other thread its turn between what is read from the store and what is made of it."""
    real = house.store.news

    def slow(crane: str, after: int = 0, most: int | None = None) -> News:
        found = real(crane, after, most)
        sleep(0.001)
        return found

    monkeypatch.setattr(house.store, "news", slow)


def crew() -> list[Event]:
    play = Play(small_change(), run="crew")
    for person in PEOPLE.values():
        play.write("person_added", {"id": person, "name": person}, person=person)
    return [replace(event, crane="", run=None) for event in play.events]


def changes(crane: str, script: str) -> list[Event]:
    """Return whole changes of a crane, one after the other."""
    found = []
    for number in range(1, RUNS + 1):
        play = Play(small_change(), run=f"{crane}.{number}", tick=number * 100)
        found += play.start(script=script).upto(None).sign().events
    return [replace(event, crane=crane) for event in found]


def deliver(house: House, events: list[Event]) -> list[int]:
    """Deliver one at a time, each of them twice; return the numbers."""
    found = []
    for event in events:
        for _ in range(2):
            (answer,) = receive(house, {"events": [event_as_dict(event)]})["results"]
            assert answer["refused"] is None, answer
            found.append(answer["number"])
    return found


def ask(house: House, crane: str, is_over: Flag) -> set[str]:
    """Ask what the pages and the feed ask until all is delivered; return the keys that the feed told."""
    told: set[str] = set()
    after, is_last = 0, False
    while not is_last:
        is_last = is_over.wait(0.002)
        news = news_after(house.store, crane, after, 7)
        events = feed_events(news.kept, house.scripts(one.event for one in news.kept), after, house.hidden)
        told |= {one["key"] for one in events}
        is_last, after = is_last and news.is_all, news.head
        house.now(house.crane(crane))
        house.crew_records(house.crane(crane))
        house.log(crane).last_runs(3)
    return told


def test_phones_that_deliver_and_ask_at_the_same_time(phone: Phone, monkeypatch: pytest.MonkeyPatch) -> None:
    house = phone.house
    texts = {crane: script_text(replace(small_change(), crane=crane)) for crane in CRANES}
    script = {crane: house.store.keep_document("script", text) for crane, text in texts.items()}
    deliver(house, crew())
    events = {crane: changes(crane, script[crane]) for crane in CRANES}
    is_over = Flag()
    let_others_in(house, monkeypatch)
    with ThreadPoolExecutor(6) as pool:
        asking = [(crane, pool.submit(ask, house, crane, is_over)) for crane in CRANES * 2]
        try:
            numbers = [pool.submit(deliver, house, events[crane]) for crane in CRANES]
            given = [one.result() for one in numbers]
        finally:
            is_over.set()
        for crane, told in asking:
            assert told.result() == {one.key for one in (*crew(), *events[crane])}
    assert all(one[::2] == one[1::2] for one in given), "delivered again, an event keeps its number"
    every = sorted(number for one in given for number in one[::2])
    assert every == list(range(3, 3 + sum(map(len, events.values()))))
    assert verify(house.store).first_broken is None
    again = House.open(house.folder)
    try:
        for crane in CRANES:
            assert house.events(crane) == again.events(crane)
            assert house.now(house.crane(crane)) == again.now(again.crane(crane))
            assert len(house.log(crane).closed_runs()) == RUNS
    finally:
        again.close()
