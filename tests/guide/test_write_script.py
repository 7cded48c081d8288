"""Every change that passes, as screens: its steps one to one, nothing told that is asked, every number the core's."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import pairwise
from math import degrees

import pytest

from becket.book.tackle import State
from becket.errors import RefusedError
from becket.guide.ask_counts import GROUP_OF
from becket.guide.asked import Asked
from becket.guide.figures_said import on_the_phone
from becket.guide.instructions import MOST_WORDS, SIGNS, word_count
from becket.guide.reading import what_is_wrong
from becket.guide.script import Field, Item, read_script, script_text
from becket.guide.wanted import tells_what_is_wanted
from becket.guide.write_script import VIEWS, change_script
from becket.method.change import work_out_change
from becket.method.deeds import SIGNING
from becket.method.site import Site
from becket.verdict import Verdict
from tests.crane import invented_book, invented_settings
from tests.guide.changes import SETTINGS, Scripted, every_change, scripted

EVERY = every_change()
NUMBER = re.compile(r"(?<![\w.-])[-−]?\d+(?:\.\d+)?")
SHOWN_TO_ONE = ("do", "action", "other", "look_for", "full")


def steps_of(one: Scripted) -> list[Item]:
    return [item for item in one.script.items if item.part == "steps"]


def fields(one: Scripted) -> list[tuple[Item, Field]]:
    return [(item, field) for item in one.script.items for field in item.fields]


def test_enough_changes_are_looked_at() -> None:
    kinds = {deed.kind for one in EVERY for deed in one.deeds}
    assert len(EVERY) >= 60
    assert {
        "take_block_away",
        "bare_keeper_out",
        "override_off",
        "count_out_new",
        "draw_out",
        "count_out_block_low",
    } <= kinds


def test_items_stand_one_to_one_with_the_printed_steps() -> None:
    for one in EVERY:
        printed = [step for step, deed in zip(one.change.steps, one.deeds, strict=True) if deed.kind not in SIGNING]
        assert [item.number for item in steps_of(one)] == [step.number for step in printed]
        for item, step in zip(steps_of(one), printed, strict=True):
            assert (item.who, item.phase, item.blind) == (step.who, step.phase, step.blind)


def test_every_screen_has_a_name_of_its_own_and_nine_words_at_most() -> None:
    for one in EVERY:
        names = [item.id for item in one.script.items]
        assert len(set(names)) == len(names)
        for item in one.script.items:
            assert 1 <= word_count(item.do) <= MOST_WORDS, item.do
            assert item.action
            assert item.other
            assert item.sign is None or item.sign in SIGNS
            assert "{" not in item.do + item.action + (item.look_for or "")


def test_a_blind_screen_tells_nothing_that_it_asks() -> None:
    for one in EVERY:
        for item in (item for item in one.script.items if item.blind):
            told = [getattr(item, name) or "" for name in SHOWN_TO_ONE] + [field.prompt for field in item.fields]
            assert not [text for text in told if tells_what_is_wanted(text, item.fields)], item.do
            assert item.picture is None
            assert item.turned is None
            assert not NUMBER.findall(item.do)
            assert all(not field.wrong for field in item.fields)


def test_a_blind_screen_of_the_falls_holds_no_number_and_no_pattern_at_all() -> None:
    for one in EVERY:
        for item in (item for item in one.script.items if item.group == "falls"):
            shown = " ".join(getattr(item, name) or "" for name in SHOWN_TO_ONE)
            assert not re.search(r"\d", shown + " ".join(field.prompt for field in item.fields))
            assert all(field.want is None for field in item.fields)


def test_no_prompt_holds_the_number_that_is_wanted() -> None:
    for one in EVERY:
        for item, field in fields(one):
            bounds = [replace(field, want=value) for value in (field.least, field.most) if value]
            assert not tells_what_is_wanted(field.prompt, [field, *bounds]), (item.do, field.prompt)


def test_every_number_of_an_instruction_stands_in_the_printed_step() -> None:
    """The phone and the paper never name two numbers for one thing."""
    for one in EVERY:
        for item, step in zip(steps_of(one), one.change.steps, strict=False):
            printed = NUMBER.findall(on_the_phone(f"{step.do} {step.look_for or ''}"))
            for number in NUMBER.findall(item.do):
                assert number in printed, (item.do, step.do)


def test_a_group_has_every_blind_item_that_names_it() -> None:
    for one in EVERY:
        blind = {item.id: item.group for item in one.script.items if item.blind}
        assert all(blind.values())
        assert {name: group.name for group in one.script.groups for name in group.items} == blind
        assert not [item for item in one.script.items if item.group and not item.blind]


def test_groups_are_those_of_the_method() -> None:
    """Where the method compares entries of two people, they are of one group; nobody is compared with himself."""
    for one in EVERY:
        groups = {name: group for group in one.script.groups for name in group.items}
        pairs = [group for group in one.script.groups if len(group.items) == 2]
        assert {group.name for group in pairs} == {
            "stand", "hook height", "falls", "dead end", "left in the box", "indicator", "override",
        }  # fmt: skip
        for group in pairs:
            items = [one.script.item(name) for name in group.items]
            assert {item.who for item in items} == {"operator", "rigger"}
            told = {one.change.steps[(item.number or 0) - 1].compares for item in items}
            assert told == {group.name}
        assert all(len(groups[name].items) == 1 for name in groups if groups[name] not in pairs)


def test_falls_that_turn_under_the_first_load_go_into_the_crane_book() -> None:
    """Whoever sees them turn is told where it is kept, so that no later lift passes on that rope."""
    told = {field.wrong for one in EVERY for _, field in fields(one) if field.name == "turns"}
    assert len(told) == 1
    assert "rope.seen_turning" in (told.pop() or "")


def test_the_lot_turns_only_what_stands_side_by_side() -> None:
    for one in EVERY:
        items = one.script.items
        by_lot = [(item, after) for item, after in pairwise(items) if item.by_lot]
        assert {item.group for item, _ in by_lot} == {"stand", "hook height", "indicator", "override"}
        assert all(item.group == after.group and item.who != after.who for item, after in by_lot)


def test_keepers_out_and_in_are_those_that_are_drawn_and_put_back() -> None:
    for one in EVERY:
        wanted = {name: [0, 0] for name in ("out", "in")}
        for item, field in fields(one):
            way = field.name.rpartition("_")[2]
            if (item.group or "").startswith("out at the ") and way == "out":
                wanted["out"][field.name.startswith("clips")] += int(str(field.want))
            if item.group in ("in at the block", "in at the head", "in at the old block"):
                wanted["in"][field.name.startswith("clips")] += int(str(field.want))
        total = [one.script.keepers_out, one.script.clips_out]
        assert wanted == {"out": total, "in": total}, (one.script.before, one.script.after)


def test_what_is_left_in_the_box_is_nothing() -> None:
    for one in EVERY:
        box = [field.want for item, field in fields(one) if item.group == "left in the box"]
        assert box == [0, 0, 0, 0]


def test_sheaves_that_are_entered_are_those_of_the_patterns() -> None:
    for one in EVERY:
        read = [(f"{f.place} {f.want}", item.do) for item, f in fields(one) if f.kind == "sheave"]
        assert [place for place, _ in read] == [str(p) for p in (*one.change.draw_out, *one.change.thread)]
        assert all(re.search(rf"\b{place}\b", do) for place, do in read)


def right_value(field: Field, asked: Asked, item: Item) -> object:
    """What a crew reads if all goes as the core has it; worked out from the core, not from the field."""
    facts, lowering = asked.scene.facts, asked.scene.facts.lowering
    assert facts.position.position is not None
    assert facts.leave is not None
    assert lowering is not None
    position, pause = facts.position.position, item.part
    if field.name == "angle":
        moved = {"pause-1": "read_touch", "pause-2": "down_to_low"}.get(pause, asked.deed.kind)
        window = lowering.weight_window or (position.angle, position.angle)
        touches = lowering.touches_angle if lowering.touches_angle is not None else position.angle
        angles = {
            "set_angle": facts.leave.at_angle,
            "read_touch": touches,
            "down_to_window": position.angle
            if asked.scene.is_low_in_window
            else sum((window[0], min(window[1], touches))) / 2,
            "down_to_low": position.angle,
            "up_to_tight": lowering.tight_angle,
            "lift_off": (lowering.lift_off_angle or 0.0) + 0.005,
        }
        return degrees(angles[moved] or 0.0)
    second = asked.scene.book.second_line
    span = position.head_height - (asked.scene.book.blocks[asked.scene.before.block].stands or 0.0)
    known: dict[str, object] = {
        "free_radius": position.free_radius_needed + 0.1,
        "ground": 0.0,
        "slope": 0.0,
        "wind": 4.0,
        "length": position.length,
        "code": position.code,
        "sector": position.sector,
        "head": position.head_height,
        "span": span,
        "counterweight": position.counterweight / 1000,
        "place": asked.scene.after.dead_end,
        "tail": 1000 * (asked.scene.book.dead_end.tail or 0.0) + 10,
        "wedge": 1000 * (asked.scene.book.dead_end.rope_diameter or 0.0),
        "distance": asked.scene.book.switch.trips,
        "wraps": asked.scene.book.winch.least_wraps,
        "line": asked.scene.path.switch_weight_after,
        "keepers": len(asked.state.keepers_out),
        "clips": len(asked.state.clips_out),
        "sheaves": len(asked.scene.book.head.sheaves) + len(asked.scene.book.blocks[asked.scene.after.block].sheaves),
        "chocks": 2,
        "people": 0,
        "turned": 3.0,
        "turns": 0,
        "rated": (asked.scene.book.blocks[asked.scene.after.block].rated or 0.0) / 1000,
        "mass": (asked.scene.book.blocks[asked.scene.after.block].mass or 0.0) / 1000,
        "block": asked.scene.after.block,
        "winch_locked": "13:02",
        "second_line": "stowed" if second is not None and second.hangs else "no second line",
        "override": "on" if asked.deed.kind == "override_on" and pause == "steps" else "off",
    }
    if field.name in known:
        return known[field.name]
    if field.kind == "sheave":
        return int(asked.deed.of.split(" ")[1])
    if field.kind == "falls":
        return asked.scene.after.falls
    if field.kind == "name":
        return "A person"
    assert field.kind == "choice", field
    return next(word for word in field.choices if word not in field.stops)


def test_a_crew_that_reads_what_the_core_foretells_comes_through() -> None:
    for one in EVERY:
        number = 0
        for item in reversed(one.script.items):
            number = item.number if item.number is not None else number  # a pause stands before its step
            for field in item.fields if not item.blind else ():
                value = right_value(field, one.asked(number), item)
                assert what_is_wrong(field, value) is None, (item.do, field, value)


@pytest.mark.parametrize(
    ("kind", "name", "off"),
    [
        *((kind, "angle", 0.6) for kind in ("read_touch", "up_to_tight")),
        *((kind, "angle", -0.6) for kind in ("read_touch", "up_to_tight")),
        ("lift_off", "angle", -0.9),
        *((kind, "angle", off) for kind in ("set_angle", "down_to_low") for off in (-0.3, 0.3)),
        ("lift_off", "angle", 1.1),
        *(("telescope", "length", off) for off in (-0.25, 0.25)),
        *(("prove_switch", "distance", off) for off in (-0.3, 0.3)),
        *(("close_area", "ground", off) for off in (-0.2, 0.2)),
        ("close_area", "free_radius", -0.3),
        ("close_area", "slope", 9.0),
        ("close_area", "wind", 90.0),
        ("make_dead_end", "tail", -20.0),
        ("read_low", "head", 0.3),
        ("read_low", "head", -0.3),
        ("read_low", "span", -0.9),
        ("spool", "wraps", -1.0),
        ("look_level", "turned", 90.0),
        ("first_lift", "turns", 1.0),
    ],
)
def test_a_reading_that_is_off_does_not_pass(kind: str, name: str, off: float) -> None:
    for one in EVERY:
        number = next(i for i, deed in enumerate(one.deeds, start=1) if deed.kind == kind)
        item = one.script.item(f"s{number}")
        field = next(field for field in item.fields if field.name == name)
        right = float(str(right_value(field, one.asked(number), item)))
        assert what_is_wrong(field, right) is None
        assert what_is_wrong(field, right + off) is not None, (item.do, field, right + off)


def test_a_look_that_finds_something_stops() -> None:
    one = scripted("main:2", "main:4")
    looks = [f for _, f in fields(one) if f.name == "seen"]
    assert len(looks) == 4
    for field in looks:
        assert what_is_wrong(field, "good") is None
        assert all(what_is_wrong(field, word) for word in field.choices if word != "good")


def test_a_wrong_sheave_is_said_with_both() -> None:
    one = scripted("main:2", "main:4")
    item = next(item for item in one.script.items if item.do.startswith("Thread head 2."))
    said = what_is_wrong(item.fields[0], 4)
    assert said == f"You entered head 4. Step {item.number} is head 2. Draw it back out, or enter again."


def test_the_height_of_the_hook_is_never_allowed_past_its_bounds() -> None:
    for one in EVERY:
        leave = one.change.rope_to_leave
        assert leave is not None
        for item, field in fields(one):
            if item.group == "hook height":
                assert field.want == leave.target
                assert field.tolerance is not None
                assert isinstance(field.want, float)
                assert field.want - field.tolerance >= leave.least - 1e-3
                assert field.want + field.tolerance <= leave.most + 1e-3


def test_the_low_angle_is_never_under_what_is_permitted() -> None:
    for one in EVERY:
        position = one.change.position
        assert position is not None
        for item, field in fields(one):
            if field.name == "angle" and item.do.startswith(("Boom down to ", "Boom stays", "Motion stopped")):
                assert field.least is not None
                assert field.least >= degrees(position.lowest) - 1e-6


def test_the_screen_before_says_what_the_change_says() -> None:
    for one in EVERY:
        facts, position, change = dict(one.script.facts), one.change.position, one.change
        assert position is not None
        assert change.rope_to_leave is not None
        assert facts["Boom"] == f"{position.length:.1f} m, code {position.code}"
        assert facts["Counterweight"] == f"{position.counterweight / 1000:g} t"
        assert float(facts["Free radius needed"].removesuffix(" m")) >= position.free_radius_needed
        assert facts["Hook under the head"].startswith(f"{change.rope_to_leave.target:.1f} m")
        assert facts["Keepers that come out"] == (", ".join(change.keepers) or "none")
        assert change.minutes is not None
        assert one.script.minutes == pytest.approx(change.minutes.total / 60)
        assert facts["Time"].endswith("estimate")
        assert (position.page or "") in facts["Manual"]


def test_the_script_expects_the_pattern_that_is_threaded() -> None:
    for one in EVERY:
        (wanted,) = one.script.expects
        path = one.scene.after.path
        assert wanted.head_sheaves == tuple(p.sheave for p in path if p.place == "head")
        assert wanted.block_sheaves == tuple(p.sheave for p in path if p.place == "block")
        assert (wanted.state, wanted.falls, wanted.dead_end) == (
            str(one.change.after), one.change.after.falls, one.scene.after.dead_end,
        )  # fmt: skip
        assert wanted.is_confirmed


def test_a_kept_script_reads_as_it_was_written() -> None:
    for one in EVERY:
        assert read_script(script_text(one.script)) == one.script


def test_pictures_are_named_where_they_are_drawn_and_only_there() -> None:
    one = scripted("main:2", "main:4")
    names = ["side", *(f"{stem}-{view}" for stem in ("thread-1", "thread-5", "draw-1") for view in VIEWS)]
    drawn = change_script(
        one.book, SETTINGS, one.change, crane="a", fingerprint="b", pictures=dict.fromkeys(names, "<svg/>")
    )
    shown = [(item.picture, item.turned, item.view) for item in drawn.items if item.picture]
    assert ("thread-1-rigger", "thread-1-cab", "rigger") in shown
    assert ("draw-1-rigger", "draw-1-cab", "rigger") in shown
    assert ("side", None, "side") in shown
    assert {name for one in shown for name in one[:2] if name} == set(names)
    assert not [item for item in one.script.items if item.picture or item.view]


def test_a_change_that_does_not_pass_has_no_script() -> None:
    book, settings = invented_book(), invented_settings()
    states = State(block="main", falls=2), State(block="main", falls=5)  # its pattern is not confirmed
    change = work_out_change(book, settings, *states, Site(counterweight=7000.0, outriggers="full"))
    assert change.verdict is not Verdict.PASS
    with pytest.raises(RefusedError, match=r"main:2 to main:5 does not pass, so there is no script: .*NOT CONFIRMED"):
        change_script(book, settings, change, crane="a", fingerprint="b")


def test_every_group_of_the_table_is_used() -> None:
    used = {group.name for one in EVERY for group in one.script.groups}
    assert {one.group for one in GROUP_OF.values()} == used
