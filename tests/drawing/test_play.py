"""The rope played: still until asked, still for whoever wants no motion, the end is the whole pattern."""

from __future__ import annotations

import re
from xml.etree import ElementTree as ET

import pytest

from becket.drawing.front import draw_pattern
from becket.drawing.play import REST, RUN, play_pattern
from becket.drawing.svg import as_svg
from tests.crane import invented_book

BOOK = invented_book()
SVG = "{http://www.w3.org/2000/svg}"
FOUR = next(p for p in BOOK.patterns if p.falls == 4)


def played(view: str = "cab") -> ET.Element:
    return ET.fromstring(play_pattern(BOOK, FOUR, view=view, is_confirmed=True))


@pytest.mark.parametrize("view", ["cab", "rigger"])
def test_without_its_motion_it_is_the_drawing(view: str) -> None:
    """Every shape of the drawing is in it, in the same order; what moves is not seen."""
    still = [attributes(e) for e in ET.fromstring(as_svg(draw_pattern(BOOK, FOUR, view=view, is_confirmed=True)))]
    moving = [e for e in played(view) if e.tag != f"{SVG}style" and not hidden(e)]
    assert [attributes(e) for e in moving[3:]] == still[3:]


def attributes(element: ET.Element) -> dict[str, str]:
    return {name: value for name, value in element.attrib.items() if name != "class"} | {"text": element.text or ""}


def hidden(element: ET.Element) -> bool:
    return bool({"bm", "bw"} & set(str(element.get("class")).split()))


def style() -> str:
    return str(next(e.text for e in played() if e.tag == f"{SVG}style"))


def test_nothing_moves_unless_asked() -> None:
    """Each rule with an animation that runs is under the class or the fragment."""
    rules = [line for line in style().splitlines() if "animation:" in line and "animation:none" not in line]
    assert len(rules) > 10
    for rule in rules:
        selectors = rule.split("{")[0].split(",")
        assert all(s.startswith((".becket-play.is-playing ", ".becket-play:target ")) for s in selectors)
    assert "is-playing" not in str(played().get("class"))
    assert played().get("id") == "play"


def test_less_motion_stops_it() -> None:
    assert "@media (prefers-reduced-motion:reduce){.becket-play *{animation:none!important}}" in style()
    assert "@media print{.becket-play *{animation:none!important}}" in style()


def test_one_pass_after_the_other_with_a_stop() -> None:
    """Phase n of five begins when the one before has run and stood; nothing repeats."""
    found = re.findall(r"target \.bw-[0-9]+{animation:becket-stay [0-9.]+s linear ([0-9.]+)s", style())
    starts = [float(start) for start in found]
    assert starts == pytest.approx([i * (RUN + REST) for i in range(5)])
    assert "infinite" not in style()


def test_no_script_and_the_words_of_every_pass() -> None:
    text = play_pattern(BOOK, FOUR, is_confirmed=True).replace("\u00a0", " ")
    assert "<script" not in text
    assert " on" not in re.sub(r">[^<]*<|=\"[^\"]*\"", "", text)
    said = " ".join(str(e.text) for e in played() if "bw" in str(e.get("class")).split()).replace("\u00a0", " ")
    assert "1: from the drum over head 2 2: down from head 2, under block 2" in said
    assert said.endswith("5: up from block 4 to the dead end")


def test_not_confirmed_stays_in_it() -> None:
    assert "NOT CONFIRMED" in play_pattern(BOOK, FOUR, is_confirmed=False)
