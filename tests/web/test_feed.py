"""What a phone learns of others' entries: after a number, nothing hidden, and what was opened since."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from becket.guide.event import Event
from becket.guide.script import Script
from becket.records.backup import back_up_file
from becket.records.kept import Kept
from becket.web import feed as feed_module
from becket.web.feed import MOST, HiddenKeys, feed_events, hidden_keys, news_after, stamp_of
from tests.web.asking import Phone
from tests.web.run_answered import START, Writer, answered, chained, moved, people_events
from tests.web.test_crane_files import BOOK, touch_later
from tests.web.test_receive import FOUR, TWO, deliver, script_at
from tests.web.test_store_watch import put_in_place


def feed(phone: Phone, after: int = 0, crane: str = "hazel-70") -> dict[str, Any]:
    """Return the feed of a crane after a number."""
    answer = phone.get(f"/api/feed/{crane}?after={after}")
    assert answer.status_code == 200, answer.text
    assert answer.headers["cache-control"] == "no-store"
    found: dict[str, Any] = answer.json()
    return found


def blind_entries(script: Script, events: list[Event], group: str) -> list[Event]:
    """Return the entries of a group of counts, in order."""
    items = {item.id for item in script.items if item.group == group}
    return [event for event in events if event.kind == "entered" and event.entered["item"] in items]


def test_a_count_is_hidden_until_the_other_is_in_and_then_given_again(phone: Phone) -> None:
    name, script = script_at(phone)
    events = answered(script, Writer(), name)
    pairs = [group for group in script.groups if len(group.items) == 2]
    assert len(pairs) >= 6
    for group in pairs:
        first, second = blind_entries(script, events, group.name)
        upto = events.index(second)
        kept = chained(events[: upto + 1], first=1)
        (hidden,) = [one for one in feed_events(kept[:upto], {name: script}, 0) if one["key"] == first.key]
        assert hidden["entered"] == {"item": first.entered["item"], "round": 1, "sealed": True}
        assert "hash" not in hidden
        assert set(hidden["shown"]) <= {"item", "round"}
        news = {one["key"]: one for one in feed_events(kept, {name: script}, upto)}
        assert set(news) == {first.key, second.key}
        assert news[first.key]["entered"] == first.entered


def test_over_the_network_too(phone: Phone) -> None:
    name, script = script_at(phone)
    events = [*people_events(), *answered(script, Writer(), name)]
    first, second = blind_entries(script, events, script.groups[0].name)
    deliver(phone, events[: events.index(second)])
    head = feed(phone)["head"]
    assert "sealed" in {one["key"]: one for one in feed(phone)["events"]}[first.key]["entered"]
    deliver(phone, events[: events.index(second) + 1])
    assert [one["key"] for one in feed(phone, after=head)["events"]] == [first.key, second.key]


def test_an_entry_of_a_run_whose_script_is_not_here_is_hidden(phone: Phone) -> None:
    name, script = script_at(phone)
    kept = chained(answered(script, Writer(), name), first=1)
    entries = {one.event.key for one in kept if one.event.kind == "entered"}
    assert hidden_keys(kept, {}) == entries


def test_no_answer_of_the_server_holds_the_value_of_a_hidden_count(phone: Phone) -> None:
    name, script = script_at(phone)
    events = [*people_events(), *answered(script, Writer(), name)]
    items = [item for item in script.items if item.group == script.groups[0].name]
    at = events.index(blind_entries(script, events, script.groups[0].name)[0])
    marked = Event(**{**vars(events[at]), "entered": {**events[at].entered, "values": {"mark": "ZEBRA-417"}}})
    deliver(phone, [*events[:at], marked])
    kept = phone.get("/api/kept/hazel-70").json()
    for path in ("/api/feed/hazel-70?after=0", "/api/kept/hazel-70", "/run/run-1", *kept["pages"]):
        assert "ZEBRA-417" not in phone.get(path).text, path
    assert "ZEBRA-417" in json.dumps([dict(one.event.entered) for one in phone.house.store.read("hazel-70")])
    assert len(items) == 2


def test_only_what_is_new_and_only_of_this_crane_and_the_firm(phone: Phone) -> None:
    deliver(phone, people_events())
    writer = Writer(device="d2")
    notes = [
        writer.write("noted", {"text": "x"}, crane=crane, run=None, key=f"n-{crane}")
        for crane in ("hazel-70", "rowan-30")
    ]
    deliver(phone, notes)
    assert [one["number"] for one in feed(phone)["events"]] == [1, 2, 3]
    assert [one["number"] for one in feed(phone, after=2)["events"]] == [3]
    assert [one["number"] for one in feed(phone, crane="rowan-30")["events"]] == [1, 2, 4]
    assert feed(phone, after=4)["events"] == []
    assert feed(phone)["head"] == 4


def test_no_hash_from_which_a_hidden_value_could_be_tried_out(phone: Phone) -> None:
    """The chain's hashes are on the record once it is open to everybody, never in a feed or in the list of pages."""
    deliver(phone, people_events())
    hashes = [one.hash for one in phone.house.store.read(None)]
    told = phone.get("/api/feed/hazel-70").text + phone.get("/api/kept/hazel-70").text
    assert len(hashes) == 2
    assert not [one for one in hashes if one in told]


@pytest.mark.parametrize("after", ["-1", "x", "1.5", "", "9" * 30, "٣"])
def test_what_is_no_number_is_refused(phone: Phone, after: str) -> None:
    answer = phone.get("/api/feed/hazel-70", params={"after": after})
    assert answer.status_code == 409
    assert "the number of an event" in answer.json()["refused"]


def test_a_crane_that_is_not_there_has_no_feed(phone: Phone) -> None:
    assert phone.get("/api/feed/none?after=0").status_code == 404


def test_a_run_keeps_its_script_when_the_book_changes_and_the_feed_says_that_it_did(phone: Phone) -> None:
    name, script = script_at(phone)
    events = [*people_events(), *answered(script, Writer(), name)]
    deliver(phone, events[:10])
    before = feed(phone)["book"]
    book = phone.house.folder / BOOK
    touch_later(book, book.read_text(encoding="utf-8") + "# looked at again\n")
    assert feed(phone)["book"] != before == script.book
    assert [one["refused"] for one in deliver(phone, events)["results"]] == [None] * len(events)
    assert phone.get(f"/script/{name}.json").json()["book"] == before
    assert phone.house.store.document(before) is not None
    other = phone.house.script_for(phone.house.crane("hazel-70"), TWO, FOUR)
    assert isinstance(other, tuple)
    assert other[0] != name


def test_a_script_is_for_good_and_another_document_is_not_given_as_one(phone: Phone) -> None:
    name, script = script_at(phone)
    answer = phone.get(f"/script/{name}.json")
    assert answer.headers["cache-control"] == "private, max-age=31536000, immutable"
    assert phone.get(f"/script/{script.book}.json").status_code == 404
    assert phone.get("/script/0000000000000000.json").status_code == 404


def test_what_is_hidden_is_remembered_and_the_same(phone: Phone, monkeypatch: pytest.MonkeyPatch) -> None:
    name, script = script_at(phone)
    kept = chained(answered(script, Writer(), name), first=1)
    remembered = HiddenKeys()
    gone_through: list[int] = []
    real = feed_module.hidden_keys

    def counted(some: Iterable[Kept], scripts: Mapping[str, Script]) -> frozenset[str]:
        found = tuple(some)
        gone_through.append(len(found))
        return real(found, scripts)

    monkeypatch.setattr(feed_module, "hidden_keys", counted)
    for upto in (len(kept), 60, 5, 60, len(kept), 5):
        assert remembered(kept[:upto], {name: script}) == real(kept[:upto], {name: script})
    assert gone_through == [len(kept), 60, 5]
    assert remembered(kept[:5], {}) == real(kept[:5], {}) != frozenset(), "its script came or went"
    other = chained([moved(one.event, 7) for one in kept], first=1)
    assert remembered(other[:60], {name: script}) == real(other[:60], {name: script})
    assert gone_through[-1] == 60, "another record of the same length is another record"


def test_a_feed_in_parts_tells_the_same_as_whole(phone: Phone) -> None:
    name, script = script_at(phone)
    other = [replace(one, crane="rowan-30", key=f"r-{one.key}", run="r") for one in answered(script, Writer(), name)]
    phone.house.store.append([*people_events(), *answered(script, Writer(), name), *other], START.isoformat())
    store, scripts = phone.house.store, {name: script}
    whole = news_after(store, "hazel-70", 0)
    assert whole.is_all
    for most in (1, 7, 112, 113):
        after, parts = 0, 0
        told: dict[str, Any] = {}
        while True:
            part = news_after(store, "hazel-70", after, most)
            told.update({one["key"]: one for one in feed_events(part.kept, scripts, after)})
            after, parts = part.head, parts + 1
            assert sum(one.number > after for one in part.kept) == 0
            if part.is_all:
                break
        assert list(told.values()) == feed_events(whole.kept, scripts, 0)
        assert after == whole.head == store.head().number
        assert parts == 112 // most + 1


def test_the_answer_says_that_there_is_more(phone: Phone) -> None:
    writer = Writer(device="d2")
    notes = [writer.write("noted", {"text": "x"}, run=None, person=None, key=f"n-{one}") for one in range(MOST + 1)]
    phone.house.store.append(notes, START.isoformat())
    first = phone.get("/api/feed/hazel-70?after=0")
    assert (first.headers["x-becket-more"], first.json()["head"], len(first.json()["events"])) == ("yes", MOST, MOST)
    second = phone.get(f"/api/feed/hazel-70?after={MOST}")
    assert "x-becket-more" not in second.headers
    assert [one["key"] for one in second.json()["events"]] == [f"n-{MOST}"]


def test_a_server_that_lost_what_the_phone_has_says_so(phone: Phone, tmp_path: Path) -> None:
    """An older copy was put back, and then as much came in again as there had been: the numbers alone tell nothing."""
    house = phone.house
    deliver(phone, people_events())
    back_up_file(house.store, tmp_path / "copy")
    first = [Writer().write("noted", {"text": str(one)}, run=None, key=f"n-{one}") for one in range(3)]
    deliver(phone, first)
    told = feed(phone)
    asked = {"after": told["head"], "stamp": told["stamp"]}
    again = phone.get("/api/feed/hazel-70", params=asked).json()
    assert (again["events"], again["head"], again["stamp"]) == ([], 5, told["stamp"])
    put_in_place(house, tmp_path / "copy")
    deliver(phone, [replace(one, key=f"other-{one.key}") for one in first] + [first[2]])
    lost = phone.get("/api/feed/hazel-70", params=asked).json()
    assert (lost["events"], lost["head"]) == ([], 0)
    assert feed(phone, after=5)["head"] == 6, "a phone that gives no stamp is told as before"
    assert phone.get("/api/feed/hazel-70", params={"after": 99, "stamp": told["stamp"]}).json()["head"] == 0


def test_the_stamp_tells_nothing_of_a_hidden_value(phone: Phone) -> None:
    name, script = script_at(phone)
    events = [*people_events(), *answered(script, Writer(), name)]
    at = events.index(blind_entries(script, events, script.groups[0].name)[0])
    stamps = []
    for value in (1, 2):
        kept = chained([*events[:at], replace(events[at], entered={**events[at].entered, "values": {"v": value}})])
        stamps.append(stamp_of(phone.house.store, kept[-1].number, kept))
    assert stamps[0] == stamps[1] != ""
