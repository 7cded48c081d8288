"""Ways to a wrong pass while a change is done, and in what is kept of it."""

from __future__ import annotations

import os
from dataclasses import replace
from pathlib import Path

from becket.guide.crane_now import crane_now
from becket.guide.run import fold_run
from becket.guide.run_state import SEALED, RunState
from becket.records.store import Store
from becket.records.verify import verify
from becket.web.house import House
from tests.guide.play import PEOPLE, SCRIPT, Play
from tests.guide.small import small_change
from tests.web.asking import demo_folder


def state_of(play: Play) -> RunState:
    return fold_run(play.script, play.events)


def test_a_change_that_is_right_closes() -> None:
    assert state_of(Play(small_change()).whole()).status == "closed"


def test_one_person_with_two_accounts() -> None:
    play = Play(small_change()).start(rigger=PEOPLE["operator"])
    for item in play.script.items:
        play.enter(item.id, person=PEOPLE["operator"])
    play.write("signed", {"role": "operator", "values": {}})
    play.write("signed", {"role": "rigger", "values": {}})
    assert state_of(play).status == "open"


def test_one_telephone_for_both_is_said() -> None:
    assert state_of(Play(small_change()).whole()).one_device
    play = Play(small_change()).whole()
    apart = [replace(one, device="phone-2") if one.role == "rigger" else one for one in play.events]
    assert not fold_run(play.script, apart).one_device


def test_a_count_seen_before_the_own_one() -> None:
    play = Play(small_change()).start().upto("f1")
    play.enter("f1")
    assert state_of(play).items["f1"].values == SEALED


def test_a_count_given_for_the_other() -> None:
    play = Play(small_change()).start().upto("f1")
    play.enter("f1")
    play.enter("f2", person=PEOPLE["operator"], role="rigger")
    assert not state_of(play).items["f2"].done


def test_counts_that_agree_on_a_wrong_path() -> None:
    play = Play(small_change()).start().upto("f1")
    play.enter("f1", {"sheaves": [3, 4], "ends_on": "head"})
    play.enter("f2", {"ropes": 4, "block_sheaves": [3, 5]})
    assert state_of(play).screen == "differ"


def test_gone_on_after_a_break_without_looking() -> None:
    play = Play(small_change()).start().upto("a2")
    play.write("stopped", {"item": "a2", "left": ["Block on the ground."], "told": "the supervisor"})
    play.enter("a2")
    assert not state_of(play).items["a2"].done


def test_a_closed_record_changed_afterwards() -> None:
    play = Play(small_change()).whole()
    closed = state_of(play)
    play.enter(play.script.items[0].id, {"angle": 1.0})
    assert replace(state_of(play), late=()) == closed


def test_a_kept_record_changed_in_the_database(tmp_path: Path) -> None:
    store = Store.open(str(tmp_path / "becket.sqlite"))
    store.append(Play(small_change()).whole().events, "2026-11-25T12:00:00+00:00")
    assert verify(store).first_broken is None
    store.close()
    with open(tmp_path / "becket.sqlite", "r+b") as file:
        data = file.read()
        at = data.rindex(b'"ropes":4')
        file.seek(at)
        file.write(b'"ropes":6')
    opened = Store.look(str(tmp_path / "becket.sqlite"))
    assert verify(opened).first_broken is not None
    opened.close()


def test_work_on_a_crane_after_a_shock() -> None:
    play = Play(small_change(), tick=10)
    play.write("trouble_entered", {"what": "shock", "note": ""})
    assert crane_now(play.events, {SCRIPT: play.script}).locked is not None


def test_old_page_after_the_book_changed(tmp_path: Path) -> None:
    """Another state of the book has another fingerprint, so that what a phone keeps is fetched anew."""
    house = House.open(demo_folder(tmp_path))
    before = house.crane("hazel-70").fingerprint
    book = tmp_path / "hazel-70.crane.yaml"
    book.write_text(book.read_text(encoding="utf-8") + "\n# looked through again\n", encoding="utf-8")
    os.utime(book, ns=(1, 1))
    assert house.crane("hazel-70").fingerprint != before
    house.close()
