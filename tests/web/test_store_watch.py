"""A store that is put in the place of another while the server runs: nothing of the old one is taken for the new."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.errors import CannotKeepError, RefusedError
from becket.records.backup import back_up_file, restore_file
from becket.records.store import Store, store_place
from becket.web.house import House
from tests.guide.play import Play
from tests.web.asking import Phone
from tests.web.run_answered import Writer, answered, people_events
from tests.web.test_receive import FOUR, TWO, deliver, script_at

NOON = "2026-11-30T12:00:00+01:00"


def put_in_place(house: House, copy: Path) -> None:
    """Put a backup where the store is, while the server goes on."""
    place = Path(store_place(house.folder))
    for end in ("", "-wal", "-shm"):
        place.with_name(place.name + end).unlink(missing_ok=True)
    restore_file(copy, place)


def test_a_backup_that_is_restored_under_a_running_server_counts_from_then_on(phone: Phone, tmp_path: Path) -> None:
    house = phone.house
    deliver(phone, people_events())
    back_up_file(house.store, tmp_path / "a.copy")
    name, script = script_at(phone)
    events = answered(script, Writer(), name)
    deliver(phone, events)
    assert house.now(house.crane("hazel-70")).state == "main:4"
    put_in_place(house, tmp_path / "a.copy")
    assert house.now(house.crane("hazel-70")).state is None
    assert house.script(name) is None, "the copy has no such script"
    assert deliver(phone, events[:1])["results"][0]["refused"] is not None
    assert script_at(phone)[0] == name
    assert [one["refused"] for one in deliver(phone, events)["results"]] == [None] * len(events)
    assert house.now(house.crane("hazel-70")).state == "main:4"
    with Store.look(store_place(house.folder)) as there:
        assert there.head().number == 2 + len(events), "it came into the file that stands there"


def test_another_store_with_as_many_events_is_noticed(phone: Phone, tmp_path: Path) -> None:
    house = phone.house
    deliver(phone, people_events())
    assert len(house.events("hazel-70")) == 2
    with Store.open(str(tmp_path / "other.sqlite")) as other:
        writer = Writer(device="d9")
        notes = [writer.write("noted", {"text": "x"}, run=None, person=None, key=f"n{one}") for one in range(3)]
        other.append(notes, NOON)
        back_up_file(other, tmp_path / "b.copy")
    put_in_place(house, tmp_path / "b.copy")
    assert [one.key for one in house.events("hazel-70")] == ["n0", "n1", "n2"]


def test_a_store_that_was_taken_away_is_told_and_nothing_is_taken_in_its_place(phone: Phone) -> None:
    house = phone.house
    deliver(phone, people_events())
    place = Path(store_place(house.folder))
    place.rename(place.with_name("elsewhere"))
    with pytest.raises(CannotKeepError, match="was taken away"):
        house.store.append(people_events(), NOON)
    with pytest.raises(CannotKeepError, match="restore a backup there"):
        house.events("hazel-70")
    assert not place.exists()


def test_what_another_process_wrote_is_there(phone: Phone) -> None:
    house = phone.house
    deliver(phone, people_events())
    made = house.script_for(house.crane("hazel-70"), TWO, FOUR)
    assert not isinstance(made, RefusedError)
    before = len(house.events("hazel-70"))
    with Store.open(store_place(house.folder)) as other:
        play = Play(made[1], run="run-7", tick=10)
        other.append(play.start(script=made[0]).upto(None).sign().events, NOON)
    assert house.now(house.crane("hazel-70")).state == "main:4"
    assert len(house.events("hazel-70")) == before + len(play.events)


def test_copies_of_a_house_forget_together(phone: Phone, tmp_path: Path) -> None:
    house, within = phone.house, phone.house.within(frozenset({"hazel-70"}))
    back_up_file(house.store, tmp_path / "a.copy")
    name, _ = script_at(phone)
    assert within.script(name) is not None
    put_in_place(house, tmp_path / "a.copy")
    assert within.script(name) is None
    assert house.script(name) is None
