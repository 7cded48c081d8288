"""The four pauses: where they stand, what is asked, nothing that a blind count wants in their words."""

from __future__ import annotations

import re

from becket.guide.instructions import MOST_WORDS, word_count
from becket.guide.pauses import PAUSES
from becket.guide.reading import what_is_wrong
from becket.guide.script import Item
from becket.method.order import apply_deed
from tests.guide.changes import Scripted, every_change, scripted

EVERY = every_change()
ASKED = {
    "pause-1": ["people", "counterweight", "code", "angle", "second_line", "wind", "free_radius"],
    "pause-2": ["angle", "winch_locked", "stands_on", "chocks", "end_held_by", "hands_off_by"],
    "pause-3": ["keepers", "clips", "sheaves", "worst", "place", "tail", "wedge"],
    "pause-4": [
        "count_operator", "count_rigger", "setting_operator", "setting_rigger", "override", "key", "distance", "wraps",
    ],
}  # fmt: skip


def items_of(one: Scripted, part: str) -> list[Item]:
    return [item for item in one.script.items if item.part == part]


def next_step(one: Scripted, part: str) -> int:
    """Number of the step that a pause stands before."""
    last = items_of(one, part)[-1]
    after = one.script.items[one.script.items.index(last) + 1]
    assert after.number is not None
    return after.number


def test_each_pause_is_asked_once_in_one_piece_of_five_to_nine_values() -> None:
    for one in EVERY:
        for part, names in ASKED.items():
            items = items_of(one, part)
            assert [field.name for item in items for field in item.fields] == names
            assert 5 <= len(items) <= 9
            assert [item.id for item in items] == [f"p{part[-1]}.{i}" for i in range(1, len(items) + 1)]
            start = one.script.items.index(items[0])
            assert list(one.script.items[start : start + len(items)]) == items
            for item in items:
                assert (item.number, item.blind, item.moves, item.picture) == (None, False, False, None)
                assert word_count(item.do) <= MOST_WORDS


def test_pause_1_comes_with_the_crane_isolated_and_the_ropes_tight() -> None:
    for one in EVERY:
        state = one.states[next_step(one, "pause-1") - 1]
        assert (state.controls, state.falls, state.boom, state.block) == ("isolated", "tight", "touch", "stands")
        assert not state.keepers_out


def test_pause_2_comes_before_any_hand_on_slack_rope() -> None:
    for one in EVERY:
        number = next_step(one, "pause-2")
        state = one.states[number - 1]
        assert (state.controls, state.falls, state.boom) == ("isolated", "slack", "low")
        before = {deed.kind for deed in one.deeds[: number - 1]}
        assert not before & {"slack_keeper_out", "hold_end", "dead_end_pin_out", "open_dead_end", "draw_out"}
        assert "read_low" in before


def test_pause_3_comes_with_the_rope_whole_and_before_anything_is_closed() -> None:
    for one in EVERY:
        number = next_step(one, "pause-3")
        state, kinds = one.states[number - 1], {deed.kind for deed in one.deeds[: number - 1]}
        assert state.path == one.scene.after.path
        assert state.dead_end == one.scene.after.dead_end
        assert not kinds & {"slack_keeper_in", "tight_keeper_in", "weight_on"}


def test_pause_4_comes_between_the_limit_and_the_first_load() -> None:
    for one in EVERY:
        number = next_step(one, "pause-4")
        assert one.deeds[number - 1].kind == "first_lift"
        assert {"prove_switch", "spool"} <= {deed.kind for deed in one.deeds[: number - 1]}


def test_a_pause_tells_no_count_not_even_after_a_wrong_one() -> None:
    """Keepers, falls and setting are counted blind: a wrong entry at a pause is told without the right one."""
    for one in EVERY:
        for part in ASKED:
            for item in items_of(one, part):
                (field,) = item.fields
                if field.kind in ("count", "falls"):
                    told = f"{item.do} {item.action} {field.prompt} {field.wrong}"
                    assert not re.search(r"\d", told), told
        place = next(field for item in items_of(one, "pause-3") for field in item.fields if field.name == "place")
        assert f" {one.scene.after.dead_end}." not in place.wrong


def test_keepers_are_counted_in_the_box_as_they_lie_there() -> None:
    for one in EVERY:
        state = one.states[next_step(one, "pause-3") - 1]
        wanted = {f.name: f.want for item in items_of(one, "pause-3") for f in item.fields}
        assert (wanted["keepers"], wanted["clips"]) == (len(state.keepers_out), len(state.clips_out))


def test_each_value_that_is_off_stops_the_pause() -> None:
    one = scripted("main:2", "main:4")
    wrong = {
        "people": 1, "counterweight": 4.0, "code": "0-0-0", "second_line": "hangs free", "wind": 20.0,
        "free_radius": 3.0, "stands_on": "soft ground", "chocks": 0, "keepers": 0, "clips": 9, "sheaves": 1,
        "worst": "crack", "place": "block", "tail": 10.0, "wedge": 22.0, "count_operator": 2, "count_rigger": 3,
        "setting_operator": 2, "setting_rigger": 5, "override": "on", "key": "in its lock", "distance": 0.2,
        "wraps": 1.0, "angle": 45.0,
    }  # fmt: skip
    free = {"winch_locked": "13:02", "end_held_by": "A person", "hands_off_by": "A person"}
    fields = {field.name: field for part in ASKED for item in items_of(one, part) for field in item.fields}
    assert set(wrong) | set(free) == set(fields)
    for name, value in wrong.items():
        why = what_is_wrong(fields[name], value)
        assert why is not None, name
        assert "{" not in why
    for name, text in free.items():
        assert what_is_wrong(fields[name], text) is None


def test_the_pauses_are_these_four() -> None:
    assert [pause.name for pause in PAUSES] == list(ASKED)


def test_the_states_that_these_tests_read_are_those_of_the_method() -> None:
    one = scripted("main:2", "main:4")
    state = one.states[0]
    for deed in one.deeds:
        state = apply_deed(one.scene, state, deed)
    assert state == one.states[-1]
    assert (state.switch, state.block, state.keepers_out) == ("proved", "hangs", frozenset())
