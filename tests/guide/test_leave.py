"""What is left safe and what is found again, at every screen of every change."""

from __future__ import annotations

import re

from becket.guide.instructions import MOST_WORDS, word_count
from becket.guide.leave import STANDS
from becket.guide.script import Item
from tests.guide.changes import Scripted, every_change, scripted

EVERY = every_change()


def item_at(one: Scripted, kind: str, of: str = "") -> Item:
    number = next(i for i, deed in enumerate(one.deeds, start=1) if deed.kind == kind and deed.of in (of, deed.of))
    return one.script.item(f"s{number}")


def test_no_sentence_has_a_number_or_more_than_nine_words() -> None:
    for one in EVERY:
        for item in one.script.items:
            assert item.leave
            for sentence in item.leave:
                assert not re.search(r"\d", sentence)
                assert word_count(sentence) <= MOST_WORDS


def test_what_is_found_is_the_crane_before_the_screen() -> None:
    for one in EVERY:
        for item in one.script.items:
            assert item.resume is not None
            assert set(item.resume) == {"keepers_out", "last_sheave", "block"}
            assert item.resume["block"] in STANDS
            if item.number is None:
                continue
            state = one.states[item.number - 1]
            assert item.resume["keepers_out"] == len(state.keepers_out)
            assert item.resume["last_sheave"] == (str(state.path[-1]) if state.path else "none")
            assert (item.resume["block"] == "hangs") is (state.block == "hangs")


def test_a_pause_is_found_as_the_step_after_it() -> None:
    for one in EVERY:
        items = one.script.items
        for i, item in enumerate(items):
            if item.number is None:
                step = next(after for after in items[i:] if after.number is not None)
                assert (item.leave, item.resume) == (step.leave, step.resume)


def test_each_thing_is_asked_for_while_it_is_so() -> None:
    for one in EVERY:
        for item in one.script.items:
            if item.number is None:
                continue
            state, said = one.states[item.number - 1], " ".join(item.leave)
            assert ("Winch locked" in said) is (state.winch == "locked")
            assert ("Keepers in the box: count them." in said) is bool(state.keepers_out)
            assert ("Free end tied" in said) is (state.rope_end != "fixed")
            assert ("Switch weight hung up." in said) is (state.weight == "off")
            assert ("Override off, key out." in said) is (state.override == "on")
            assert ("Rigger out" in said) is (state.rigger == "in")
            assert ("chocked" in said) is (state.block == "steadied")
            assert ("nobody under it" in said) is (state.block == "hangs")


def test_in_the_middle_of_threading() -> None:
    one = scripted("main:2", "main:4")
    item = next(item for item in one.script.items if item.do.startswith("Thread head 3."))
    assert item.leave == (
        "Block on the ground, chocked.",
        "Rigger out of the rope, tools out.",
        "Engine off or controls locked, key in pocket.",
        "Winch locked, tag on.",
        "Free end tied to the block.",
        "Keepers in the box: count them.",
        "Switch weight hung up.",
        "Card in the cab: NO HOIST LIMIT.",
        "Area stays closed.",
    )
    assert item.resume == {"keepers_out": 3, "last_sheave": "block 1", "block": "on the ground"}


def test_between_two_blocks_the_end_is_tied_to_the_boom() -> None:
    one = next(one for one in EVERY if one.scene.path.block_changes)
    item = item_at(one, "exchange_block")
    assert "Free end tied to the boom." in item.leave
    assert item.leave[0] == "Old block tied down. Nothing under the head."
    assert item.resume is not None
    assert item.resume["block"] == "away"
