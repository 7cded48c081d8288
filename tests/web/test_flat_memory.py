"""What the server holds does not grow with what came in."""

from __future__ import annotations

import gc
import tracemalloc
from dataclasses import replace

from becket.guide.event import event_as_dict
from becket.guide.script import script_text
from becket.web.feed import feed_events, news_after
from becket.web.house import House
from becket.web.receive import receive
from tests.guide.play import CRANE, PEOPLE, Play
from tests.guide.small import small_change
from tests.web.asking import Phone

OF_A_RUN = 6000  # bytes that may stay of a run that was closed; its events alone take over 30 000


def taken_in(house: House, script: str, first: int, last: int) -> int:
    """Bring whole changes in, ask for each; return how many events came."""
    count = 0
    for number in range(first, last + 1):
        play = Play(small_change(), run=f"run-{number}", tick=number * 100)
        events = play.start(script=script).upto(None).sign().events
        answer = receive(house, {"events": [event_as_dict(one) for one in events]})
        assert [one["refused"] for one in answer["results"]] == [None] * len(events)
        head = answer["head"]
        news = news_after(house.store, CRANE, head - 3)
        feed_events(news.kept, house.scripts(one.event for one in news.kept), head - 3, house.hidden)
        house.now(house.crane(CRANE))
        count += len(events)
    return count


def held() -> int:
    """Return how much is held in memory now [bytes]."""
    gc.collect()
    return tracemalloc.get_traced_memory()[0]


def test_of_a_closed_run_next_to_nothing_stays_in_memory(phone: Phone) -> None:
    house = phone.house
    script = house.store.keep_document("script", script_text(replace(small_change(), crane=CRANE)))
    crew = Play(small_change(), run="crew")
    for person in PEOPLE.values():
        crew.write("person_added", {"id": person, "name": person}, person=person)
    people = [event_as_dict(replace(one, crane="", run=None)) for one in crew.events]
    assert all(one["number"] for one in receive(house, {"events": people})["results"])
    taken_in(house, script, 1, 10)
    tracemalloc.start()
    try:
        before = held()
        count = taken_in(house, script, 11, 40)
        growth = (held() - before) / 30
    finally:
        tracemalloc.stop()
    assert count == 30 * 19
    assert growth < OF_A_RUN, growth
    assert len(house.events(CRANE)) == 2 + 19
