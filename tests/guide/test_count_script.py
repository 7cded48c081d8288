"""A count: two people, each alone; nothing in it that a person could copy."""

from __future__ import annotations

import json
import re

from becket.guide.count_script import count_script
from becket.guide.instructions import MOST_WORDS, word_count
from becket.guide.script import Script, read_script, script_as_dict, script_text
from becket.reeving.seal import is_confirmed
from tests.crane import invented_book
from tests.guide.changes import SETTINGS
from tests.guide.sample import demo_book, hazel_count

BOOKS = (demo_book("hazel-70"), demo_book("rowan-30"), invented_book())


def counts() -> list[Script]:
    return [count_script(book, SETTINGS, crane="a", fingerprint="b") for book in BOOKS]


def test_nothing_is_wanted_of_any_field() -> None:
    for script in counts():
        for item in script.items:
            assert [field.want for field in item.fields] == [None] * len(item.fields)
            assert word_count(item.do) <= MOST_WORDS
            shown = " ".join((item.do, item.action, item.other, item.look_for or "", *(f.prompt for f in item.fields)))
            assert not re.search(r"\d", shown), shown
            assert item.resume is None
        assert (script.before, script.after, script.keepers_out, script.clips_out) == (None, None, None, None)


def test_no_words_of_a_screen_name_a_state_on_file() -> None:
    for book, script in zip(BOOKS, counts(), strict=True):
        screens = json.dumps(script_as_dict(script)["items"])
        assert not [str(pattern.state) for pattern in book.patterns if str(pattern.state) in screens]


def test_each_thing_is_entered_by_both_the_lot_says_who_is_first() -> None:
    for script in counts():
        assert [(group.name, group.compare) for group in script.groups] == [
            ("falls", "falls"), ("dead end", "equal"), ("indicator", "indicator"),
        ]  # fmt: skip
        blind = [item for item in script.items if item.blind]
        assert [item.who for item in blind] == ["operator", "rigger"] * 4
        assert [item.by_lot for item in blind] == [True, False] * 4
        assert [item.id for item in blind] == [name for group in script.groups for name in group.items]


def test_block_sheaves_and_ropes_are_one_group() -> None:
    """Two falls of one block are another state than two falls of the other: the block is counted with them."""
    script = hazel_count()
    fields = [(item.who, field.name) for item in script.items if item.group == "falls" for field in item.fields]
    assert fields == [
        ("operator", "block"), ("rigger", "block"), ("operator", "sheaves"), ("operator", "ends_on"),
        ("rigger", "ropes"), ("rigger", "block_sheaves"),
    ]  # fmt: skip


def test_it_expects_every_pattern_on_file_and_says_which_are_confirmed() -> None:
    for book, script in zip(BOOKS, counts(), strict=True):
        assert [one.state for one in script.expects] == [str(pattern.state) for pattern in book.patterns]
        assert [one.is_confirmed for one in script.expects] == [is_confirmed(book, p) for p in book.patterns]
        assert {one.is_confirmed for one in script.expects} <= {True, False}
    assert [one.state for one in hazel_count().expects if not one.is_confirmed] == ["main:5"]


def test_the_pads_are_the_whole_head_and_every_block() -> None:
    script = hazel_count()
    pads = {field.name: field.sheaves for item in script.items for field in item.fields if field.sheaves}
    assert pads == {"sheaves": (1, 2, 3, 4, 5), "block_sheaves": (1, 2, 3)}


def test_a_limit_that_was_not_tried_does_not_pass() -> None:
    (field,) = hazel_count().items[-1].fields
    assert field.choices[0] not in field.stops
    assert set(field.choices[1:]) == set(field.stops)


def test_a_kept_count_reads_as_it_was_written() -> None:
    for script in counts():
        assert read_script(script_text(script)) == script
