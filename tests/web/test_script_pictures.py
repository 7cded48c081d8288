"""Pictures of scripts: every pass from both sides, letters that can be read, sizes that a phone can keep."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from xml.etree import ElementTree as ET

import brotli  # type: ignore[import-untyped]

from becket.drawing.threading import draw_threading
from becket.guide.script import Script, script_text
from becket.web.script_pictures import pictures_of, script_of_change, slim
from tests.guide.changes import SETTINGS, Scripted, scripted

LEAST_LETTERS = 18.0  # [px] on a screen of 360 px
SCREEN = 360.0  # [px]
CHANGES = (
    ("main:2", "main:4"),
    ("main:4", "main:6"),
    ("main:4", "ball:1"),
    ("ball:1", "hook:4"),
    ("light:2", "main:6"),
)


@cache
def drawn(before: str, after: str) -> tuple[Scripted, Script]:
    one = scripted(before, after)
    return one, script_of_change(one.book, SETTINGS, one.change, crane="a", fingerprint=one.book.fingerprint)


def test_every_pass_has_a_picture_from_both_sides_and_every_picture_is_shown() -> None:
    for states in CHANGES:
        one, script = drawn(*states)
        shown = {name for item in script.items for name in (item.picture, item.turned) if name}
        assert shown == set(script.pictures)
        passes = [item for item in script.items if item.do.startswith(("Thread ", "Draw the rope"))]
        assert len(passes) == len(one.change.draw_out) + len(one.change.thread)
        assert all(item.picture and item.turned and item.picture != item.turned for item in passes)
        assert not [item.do for item in script.items if item.blind and item.picture]


def test_a_picture_is_that_of_its_step() -> None:
    """The words of the picture name the sheave that the item asks for."""
    for states in CHANGES:
        _, script = drawn(*states)
        for item in script.items:
            if item.fields and item.fields[0].kind == "sheave" and item.picture:
                field = item.fields[0]
                label = ET.fromstring(script.pictures[item.picture]).get("aria-label", "").replace("\u00a0", " ")
                assert f"{field.place} {field.want}" in label.partition(".")[0], label


def test_the_two_views_are_mirrors_and_say_so() -> None:
    _, script = drawn("main:2", "main:4")
    rigger, cab = script.pictures["thread-3-rigger"], script.pictures["thread-3-cab"]
    assert "You face the cab" in rigger
    assert "Seen from the cab" in cab


def test_letters_are_18_px_where_the_picture_is_as_wide_as_the_screen() -> None:
    short = {}
    for states in CHANGES:
        _, script = drawn(*states)
        for name, svg in script.pictures.items():
            root = ET.fromstring(svg)
            width = float(root.get("viewBox", "").split()[2])
            letters = min(float(text.get("font-size", "0")) for text in root.iter("{http://www.w3.org/2000/svg}text"))
            seen = letters * min(1.0, SCREEN / width)
            if seen < LEAST_LETTERS:
                short[(states, name)] = (width, seen)
    assert {states for states, _ in short} <= {("light:2", "main:6")}
    assert all(seen >= 15.0 for _, seen in short.values())  # six sheaves at the head: the picture is wider


def test_a_slim_picture_keeps_words_and_shapes_and_nothing_else() -> None:
    one = scripted("main:2", "main:4")
    path = one.change.facts.path
    assert path is not None
    picture = draw_threading(one.book, path, 3)
    root = ET.fromstring(slim(picture))
    assert root.get("role") == "img"
    assert root.get("aria-label") == f"{picture.title}. {picture.description}"
    assert len(root) == len(picture.shapes) + 1  # and the paper
    assert not [name for shape in root for name in shape.attrib if name.startswith("data-")]
    assert not {"script", "style", "title", "desc"} & {shape.tag.rpartition("}")[2] for shape in root}


def test_a_script_with_its_pictures_is_small_on_the_wire() -> None:
    for states in CHANGES:
        _, script = drawn(*states)
        text = script_text(script).encode()
        assert len(text) < 400_000
        assert len(brotli.compress(text)) < 25_000


def test_a_change_without_a_position_has_no_picture() -> None:
    one = scripted("main:2", "main:4")
    assert pictures_of(one.book, replace(one.change, position=None)) == {}
