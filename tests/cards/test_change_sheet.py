"""The change sheet: every step, a box for each value, and no count."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from functools import lru_cache
from typing import Any

import pytest

from becket.book.crane import Book
from becket.book.tackle import State
from becket.cards.change_sheet import change_sheet, change_sheets, is_pause, values_asked
from becket.figures import shown
from becket.method.change import Change, work_out_change
from becket.method.site import Site
from becket.method.step import Step
from tests.cards.hard_books import bare_book
from tests.cards.reading import page_sizes, page_texts, whole_text
from tests.crane import invented_book, invented_settings

DAY = "2026-11-30"


@lru_cache(maxsize=1)
def _change() -> tuple[Book, Change]:
    book = invented_book()
    row = book.rereeve[0]
    site = Site(counterweight=row.counterweight, outriggers=row.outriggers, free_radius=60.0, ground=0.0, slope=0.0)
    change = work_out_change(
        book, invented_settings(), State(block="main", falls=2), State(block="main", falls=4), site
    )
    return book, change


@lru_cache(maxsize=1)
def _text() -> str:
    return whole_text(change_sheet(*_change(), printed=DAY))


def _rows(number: int = 0) -> Sequence[Mapping[str, Any]]:
    rows = change_sheets(*_change(), printed=DAY)[number].data["rows"]
    assert isinstance(rows, list)
    return rows


def test_every_step_stands_once_in_order_with_who_does_it() -> None:
    _, change = _change()
    assert len(change.steps) > 50
    at = -1
    for step in change.steps:
        line = f"{step.number} {step.who} {' '.join(step.do.split())}"
        found = _text().find(line, at + 1)
        assert found > at, line
        at = found


def test_every_phase_has_its_bar_and_hold_points_are_pauses() -> None:
    _, change = _change()
    phases = list(dict.fromkeys(step.phase for step in change.steps))
    assert [row["name"].removeprefix("PAUSE ") for row in _rows() if row["is_phase"]] == phases
    assert sum(row["pause"] for row in _rows() if row["is_phase"]) == 5
    assert "PAUSE H1" in _text()
    assert is_pause("H5 Indicator, lift off")
    assert not is_pause("Hook")


def test_what_is_entered_alone_has_no_box_on_the_sheet_of_both() -> None:
    _, change = _change()
    blind = {step.number for step in change.steps if step.blind}
    assert blind
    on_both = change_sheets(*_change(), printed=DAY)[:1]
    text = whole_text(change_sheet(*_change(), printed=DAY)).split("RIGGER alone")[0]
    assert text.count("alone, on your own sheet") == len(blind)
    assert {row["number"] for row in _rows() if not row["is_phase"] and row["alone"]} == blind
    assert len(on_both) == 1


def test_each_person_has_a_sheet_with_every_value_that_person_enters_alone_and_none_of_the_other() -> None:
    _, change = _change()
    for number, who in enumerate(("rigger", "operator"), 1):
        own = [step.number for step in change.steps if step.blind and step.who == who]
        assert [row["number"] for row in _rows(number)] == own
        for row, step in zip(_rows(number), [s for s in change.steps if s.number in own], strict=True):
            assert tuple(row["asked"]) == values_asked(step)


def test_no_count_stands_on_any_sheet() -> None:
    """The only figures beside a blind step are its own number and tolerances: no keepers, clips, ropes, falls."""
    _, change = _change()
    for row in (*_rows(), *_rows(1), *_rows(2)):
        if row["is_phase"] or not row["alone"]:
            continue
        words = " ".join([row["do"], row["look_for"] or "", *row["asked"]])
        assert re.findall(r"\d+", words.replace("to 0.1", "")) == [], words
    keepers, clips = len(change.keepers), len(change.keepers)
    for word in ("keepers", "clips", "ropes", "sheaves with rope"):
        for count in {keepers, clips, change.after.falls}:
            assert not re.search(rf"\b{count} {word}", _text())
    for number in (1, 2):
        sheet = change_sheets(*_change(), printed=DAY)[number]
        own = whole_text(change_sheet(*_change(), printed=DAY)).split("alone Yours alone")[number]
        assert f"{change.after.falls} falls" not in own
        assert "falls" not in sheet.title


def test_position_rope_and_angles_are_those_of_the_core() -> None:
    _, change = _change()
    position, leave, run = change.position, change.rope_to_leave, change.simulation
    assert position is not None
    assert leave is not None
    assert run is not None
    for words in (
        f"boom length {shown(position.length, 'length', 'metric')}",
        f"code {position.code}",
        f"boom down to {shown(position.angle, 'angle', 'metric')}",
        f"head above the ground {shown(position.head_height, 'length', 'metric')}",
        f"radius of the head {shown(position.radius, 'length', 'metric', 'up')}",
        f"clear room needed {shown(position.free_radius_needed, 'length', 'metric', 'up')}",
        f"hook under the head, shaft to shaft {shown(leave.target, 'length', 'metric', 'up')}",
        f"block touches at {shown(run.touches_angle, 'angle', 'metric')}",
        f"ropes tight at {shown(run.tight_angle, 'angle', 'metric')}",
        f"block lifts off at {shown(run.lift_off_angle, 'angle', 'metric')}",
    ):
        assert words in _text(), words


def test_the_picture_beside_them_has_the_same_radius_and_rope_to_leave() -> None:
    _, change = _change()
    assert change.position is not None
    assert change.rope_to_leave is not None
    for value in (change.position.radius, change.rope_to_leave.target):
        assert _text().count(shown(value, "length", "metric", "up")) >= 2


def test_a_change_that_does_not_pass_says_so_on_every_page() -> None:
    book = bare_book()
    change = work_out_change(
        book, invented_settings(), State(block="main", falls=2), State(block="main", falls=4), Site()
    )
    texts = page_texts(change_sheet(book, change, printed=DAY))
    assert all(f"NOT FOR USE: {change.verdict}" in text for text in texts)
    assert all("NOT CONFIRMED AGAINST THE MANUAL" in text for text in texts)
    assert f"No position: {change.why_no_position}"[:40] in " ".join(texts)
    for reason in change.reasons:
        assert " ".join(reason.why.split())[:60] in " ".join(texts)


def test_one_that_passes_does_not_and_every_page_is_a4() -> None:
    assert "NOT FOR USE" not in _text()
    assert "NOT CONFIRMED" not in _text()
    assert set(page_sizes(change_sheet(*_change(), printed=DAY))) == {(210, 297)}


def test_us_figures_stand_beside_the_metric_ones_of_a_sentence() -> None:
    book, change = _change()
    text = whole_text(change_sheet(book, change, printed=DAY, system="us"))
    assert change.position is not None
    assert f"boom length {shown(change.position.length, 'length', 'us')}" in text


@pytest.mark.parametrize(
    ("asked", "boxes"),
    [
        (None, ()),
        ("time", ("time",)),
        ("counterweight, outriggers, level", ("counterweight", "outriggers", "level")),
        ("off or on; key out or in", ("off or on", "key out or in")),
        ("seen: good, or what is wrong", ("seen: good, or what is wrong",)),
        ("metres, to 0.1", ("metres, to 0.1",)),
        ("metres, metres", ("metres", "metres")),
    ],
)
def test_a_box_for_each_value(asked: str | None, boxes: tuple[str, ...]) -> None:
    step = Step(number=1, who="rigger", phase="Before", do="Do.", value_asked=asked)
    assert values_asked(step) == boxes
    assert values_asked(replace(step, blind=True)) == boxes
