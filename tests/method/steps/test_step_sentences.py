"""Words with the figures of one change: everything a method needs is said, and nothing that a blind entry asks for."""

from __future__ import annotations

import re
from dataclasses import replace
from math import degrees

import pytest

from becket.book.hoist import SecondLine
from becket.method.crane_state import Deed
from becket.method.scene import Scene
from becket.method.step import Step
from becket.method.step_sentences import words_of
from becket.method.step_words import Words
from tests.method.steps.scenes import CASES, CHANGES, deeds, method, scene

TWO_PERSONS = {"stand", "hook height", "falls", "dead end", "indicator", "override", "left in the box"}
ONE_PERSON = {"keepers at the head", "keepers at the block", "keepers at the old block", "touch angle"}
NUMBER_WORDS = "one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen"
GIVES_AWAY = re.compile(rf"\b(\d+|{NUMBER_WORDS})[ -](falls?|ropes?|parts?|keepers?|clips?|pins?|sheaves?)\b", re.I)
PASS = re.compile(r"\b(head|block) \d+\b", re.I)

# What METHOD's worked example and the rules name: fact -> (kind of step, words that must stand in it).
NAMED = {
    "second line": ("close_area", "second line"),
    "whole sweep": ("close_area", "whole sweep"),
    "lines": ("close_area", "overhead lines"),
    "wind limit": ("close_area", "Wind under 9 m/s"),
    "wind is entered": ("close_area", "wind"),
    "room is asked": ("close_area", "free radius"),
    "signals": ("brief", "signals"),
    "phones away": ("brief", "Phones away"),
    "pads seen": ("see_stand", "pad"),
    "cab shows": ("read_stand", "display"),
    "over the side": ("slew", "over the side"),
    "limit proved on what is on": ("prove_before", "hoist limit switch"),
    "winch follows": ("telescope", "Winch pays out"),
    "telescoping code": ("telescope", "100-100-92"),
    "hook height": ("set_hook", "3.9 m under the head. Shaft to shaft"),
    "angle it holds for": ("set_hook", "20.0 deg"),
    "lever off, tag": ("lock_winch", "lever off, tag on"),
    "upright": ("down_to_touch", "upright"),
    "on the boom": ("down_to_touch", "Never on the winch"),
    "foretold angle": ("read_touch", "0.5 deg"),
    "engine off, key": ("call_in", "key in pocket"),
    "shows himself clear": ("clear_out", "show yourself clear"),
    "pin with its clip": ("tight_keeper_out", "lynch pin"),
    "ropes tight": ("tight_keeper_out", "Ropes tight"),
    "chocks": ("steady", "Chock"),
    "weight window": ("down_to_window", "-0.6 to 1.3 deg"),
    "slack falls stay in": ("down_to_window", "stay in the sheaves"),
    "weight hung up": ("weight_off", "Hang it up"),
    "line it hangs on": ("weight_off", "dead-end fall"),
    "cab card": ("no_limit_card", "NO HOIST LIMIT. BOOM DOWN ONLY."),
    "override page": ("override_on", "manual page 5-9"),
    "override off, its own item": ("override_off", "Override off, key out."),
    "low position": ("down_to_low", "-1.5 deg"),
    "head height": ("read_low", "ground to head shaft"),
    "rope slack": ("slack_keeper_out", "Rope slack"),
    "end held": ("hold_end", "Hold the rope's end"),
    "held up, named": ("hold_end", "Say what you hold up: wedge socket, pin"),
    "wedge named": ("open_dead_end", "Name the wedge"),
    "mark for turns made": ("mark_rope", "Chalk a straight line"),
    "mark for turns looked at": ("thread", "Chalk line straight: no turn"),
    "pulled tight each": ("thread", "Pull it tight before the next"),
    "left-over rope": ("draw_out", "along the boom, not under the block"),
    "sheaves by hand": ("look_sheaves", "by hand"),
    "operator sees": ("see_sheaves", "yourself"),
    "broken wires": ("look_end", "Broken wires"),
    "tail": ("make_dead_end", "tail 0.34 m"),
    "tail measured": ("make_dead_end", "tail measured"),
    "live line straight": ("make_dead_end", "straight through the pin's line"),
    "never clamped": ("make_dead_end", "never clamped"),
    "rope under, tug": ("slack_keeper_in", "Tug each"),
    "weight on": ("weight_on", "dead-end fall"),
    "lift by hand": ("try_switch", "by hand"),
    "lamp came": ("see_lamp", "lamp"),
    "sheave numbers": ("count_sheaves", "read their numbers"),
    "nothing said": ("count_sheaves", "Say no number aloud"),
    "each sheave seated": ("seated", "every sheave"),
    "ropes counted": ("count_ropes", "count the ropes"),
    "counts compared": ("compare_counts", "Both count again"),
    "block set too": ("set_indicator", "block"),
    "both read aloud": ("read_indicator", "aloud"),
    "hand's width": ("lift_off", "hand's width"),
    "turned how far": ("look_level", "how far it hangs turned"),
    "tag off": ("free_winch", "tag off"),
    "also telescope out": ("prove_switch", "telescope out, derrick down"),
    "under power": ("prove_switch", "Under power"),
    "least wraps": ("spool", "never under 3 wraps"),
    "spooling load": ("spool", "t, block counted"),
    "first lift small": ("first_lift", "small, slow"),
    "wrapping": ("first_lift", "wrapping"),
    "own sign-in": ("sign_rigger", "own sign-in"),
}
OTHER_BLOCK = {
    "emptied and counted": ("count_in_old", "old block"),
    "other means": ("take_block_away", "by other means"),
    "plumb mark": ("take_block_away", "plumb"),
    "nobody between": ("exchange_block", "Nobody between"),
    "tied down, card": ("take_block_away", "card on it: NO ROPE"),
    "groove, pins, rating": ("exchange_block", "Groove, pins and rating"),
    "mass": ("exchange_block", "mass"),
    "chocked": ("steady_new", "Chock the new block"),
    "becket of the new block": ("make_dead_end", "becket of ball"),
    "weight on the single fall": ("weight_on", "last fall"),
    "pin into its empty anchor": ("slack_keeper_in", "empty anchor"),
}


def said(one: Scene, listed: tuple[Deed, ...], kind: str) -> str:
    """Return everything that stands in the steps of a kind [-]."""
    words = [words_of(one, deed) for deed in listed if deed.kind == kind]
    assert words, kind
    return " ".join(f"{w.do} {w.look_for or ''} {w.asks or ''}" for w in words)


@pytest.mark.parametrize("fact", NAMED)
def test_what_the_worked_example_names_is_said(fact: str) -> None:
    kind, part = NAMED[fact]
    assert part.lower() in said(scene("main:2", "main:4"), deeds("main:2", "main:4"), kind).lower()


@pytest.mark.parametrize("fact", OTHER_BLOCK)
def test_what_another_block_asks_for_is_said(fact: str) -> None:
    kind, part = OTHER_BLOCK[fact]
    assert part.lower() in said(scene("main:4", "ball:1"), deeds("main:4", "ball:1"), kind).lower()


def shown(step: Step) -> str:
    """Return what a person reads of a step [-]."""
    return " ".join(filter(None, (step.do, step.look_for, step.value_asked)))


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_no_blind_step_gives_its_answer_away(before: str, after: str, name: str) -> None:
    for step in method(before, after, name).steps:
        if step.blind:
            assert step.value_asked, step
            assert not GIVES_AWAY.search(shown(step)), step
            assert not PASS.search(shown(step)), step
            assert not re.search(r"\d", step.do), step


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_nothing_between_two_entries_of_one_comparison_gives_the_answer_away(
    before: str, after: str, name: str
) -> None:
    """A count of keepers, falls or ropes nowhere; sheaves of the path, falls and setting not while falls are asked."""
    steps, end = method(before, after, name).steps, scene(before, after, name).after.dead_end
    groups = {step.compares for step in steps if step.blind and step.compares}
    for group in groups:
        at = [step.number for step in steps if step.compares == group]
        between = steps[at[0] - 1 : at[-1]]
        for step in between:
            assert not GIVES_AWAY.search(step.do), (group, step)
            if group in ("falls", "dead end", "indicator", "left in the box"):
                assert not PASS.search(shown(step)), (group, step)
            if group == "dead end":
                assert (end if end != "block" else "becket") not in shown(step), step


@pytest.mark.parametrize(("before", "after", "name"), CASES)
def test_both_sides_of_every_comparison_are_there(before: str, after: str, name: str) -> None:
    steps = method(before, after, name).steps
    groups: dict[str, list[Step]] = {}
    for step in steps:
        if step.compares:
            groups.setdefault(step.compares, []).append(step)
    assert TWO_PERSONS <= set(groups) <= TWO_PERSONS | ONE_PERSON
    for group, entries in groups.items():
        if group in TWO_PERSONS:
            assert {"operator", "rigger"} <= {entry.who for entry in entries}, group
            assert all(entry.blind for entry in entries), group
        elif group != "touch angle":
            assert len(entries) == 2, group
            assert [" out" in (e.value_asked or "") for e in entries] == [True, False], group
    assert ("keepers at the old block" in groups) is (before[:4] != after[:4])


@pytest.mark.parametrize(("before", "after"), CHANGES)
def test_an_instruction_is_short_here_too(before: str, after: str) -> None:
    parts = [one for step in method(before, after).steps for one in re.split(r"(?<=[.:?])\s+", step.do)]
    lengths = [len(part.split()) for part in parts if part]
    assert max(lengths) <= 13
    assert sum(length <= 9 for length in lengths) > 0.9 * len(lengths)


def test_every_keeper_and_every_clip_is_named_out_and_in() -> None:
    for before, after, name in CASES:
        one = scene(before, after, name)
        steps = [step.do for step in method(before, after, name).steps]
        for keeper in one.keepers:
            for verb in ("Draw", "Put"):
                found = [do for do in steps if do.startswith(f"{verb} {keeper.name}")]
                assert len(found) == 1, (verb, keeper.name)
                assert keeper.lock is None or keeper.lock in found[0]


def with_book(**changes: object) -> Scene:
    one = scene("main:2", "main:4")
    return replace(one, book=replace(one.book, **changes))  # type: ignore[arg-type]


def words(one: Scene, kind: str) -> Words:
    return words_of(one, Deed(kind=kind))


def test_a_figure_that_is_not_on_file_is_named_and_not_guessed() -> None:
    book = scene("main:2", "main:4").book
    no_wind = scene("main:2", "main:4")
    position = no_wind.facts.position.position
    assert position is not None
    there = replace(no_wind.facts.position, position=replace(position, wind=None, page=None))
    no_wind = replace(no_wind, facts=replace(no_wind.facts, position=there))
    cases = {
        "Wind limit not on file: see manual.": words(no_wind, "close_area").look_for,
        "Page not on file": words(no_wind, "slew").look_for,
        "second line is not on file": words(with_book(second_line=None), "close_area").look_for,
        "tail not on file": words(with_book(dead_end=replace(book.dead_end, tail=None)), "make_dead_end").do,
        "(not on file)": words(with_book(rope=replace(book.rope, spooling_tension=None)), "spool").do,
        "least wraps not on file": words(with_book(winch=replace(book.winch, least_wraps=None)), "spool").look_for,
        "fitting, pin": words(with_book(dead_end=replace(book.dead_end, fitting=None)), "hold_end").do,
    }
    for part, text in cases.items():
        assert part in (text or ""), part


def test_a_second_line_is_named() -> None:
    line = SecondLine(hangs="ball of the second winch", mass=200.0)
    assert "Second line: ball of the second winch; stowed or tied back." in (
        words(with_book(second_line=line), "close_area").look_for or ""
    )


def test_a_line_that_the_book_does_not_name_is_said_to_be_so() -> None:
    one = scene("main:2", "main:4")
    path = replace(one.path, switch_weight_before=None, switch_weight_after=None)
    assert "line it hangs on" in words(replace(one, path=path), "weight_off").do
    assert "line that the book does not name" in words(replace(one, path=path), "weight_on").do


def test_an_end_that_passes_the_sheaves_keeps_its_fitting() -> None:
    one = scene("main:2", "main:4")
    for comes_off, part in (
        (False, "Take the wedge socket out of its anchor."),
        (True, "drive it out"),
        (None, "drive it out"),
    ):
        found = words(replace(one, path=replace(one.path, fitting_comes_off=comes_off)), "open_dead_end")
        assert part in found.do
        assert ("not on file" in (found.look_for or "")) is (comes_off is None)


def test_figures_are_rounded_to_the_safe_side() -> None:
    """The window's angles into the window and under the angle of touching; room and spooling load up."""
    for before, after in CHANGES:
        one = scene(before, after)
        lowering, position = one.facts.lowering, one.facts.position.position
        assert lowering is not None
        assert lowering.weight_window is not None
        assert lowering.touches_angle is not None
        assert position is not None
        low, high = map(float, re.findall(r"-?\d+\.\d", words(one, "down_to_window").do))
        assert degrees(lowering.weight_window[0]) <= low <= high <= degrees(lowering.weight_window[1])
        assert high <= degrees(lowering.touches_angle)
        room = float(re.findall(r"(\d+\.\d) m from", words(one, "close_area").do)[0])
        assert position.free_radius_needed <= room < position.free_radius_needed + 0.1
        rope = one.book.rope
        assert rope.spooling_tension is not None
        assert rope.breaking_force is not None
        load = float(re.findall(r"about (\d+\.\d) t", words(one, "spool").do)[0])
        wanted = rope.spooling_tension * rope.breaking_force * one.after.falls / 9.80665 / 1000
        assert wanted <= load < wanted + 0.1
