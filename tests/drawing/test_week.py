"""The week as a strip: plates in time order, what is left out says so, nothing is cut off."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.tackle import State
from becket.drawing.picture import Picture, Polygon, Rect, Text
from becket.drawing.week import change_words, draw_week, title_of, where_words
from becket.planning.answer import Plan, PlannedChange, PlannedGroup
from becket.planning.plan import plan_sheet
from tests.crane import invented_book, invented_settings
from tests.drawing.tackles import LONG_NAME, faults
from tests.planning.jobs import sheet_of

PLAN = plan_sheet(invented_book(), invented_settings(), sheet_of())
CHANGE = PlannedChange(
    before_group=1,
    before=State(block="ball", falls=1),
    after=State(block="main", falls=4),
    where="Y",
    job=None,
    minutes=61.2,
    minutes_left_in_job=None,
    customer_pays=0.0,
    we_pay=900.0,
    why="",
)


def group(**changes: object) -> PlannedGroup:
    whole = PlannedGroup(
        job="K-1", lift="pump", state=State(block="main", falls=2), needed_falls=2, hours=1.0, stopped_by=None, why=None
    )
    return replace(whole, **changes)  # type: ignore[arg-type]


def plates(picture: Picture) -> list[tuple[str, str]]:
    found = []
    for shape in picture.shapes:
        facts = dict(shape.facts)
        if isinstance(shape, Rect) and facts.get("kind") in ("group", "change"):
            found.append((facts["kind"], facts.get("state") or facts["to"]))
    return found


def words(picture: Picture) -> str:
    return " ".join(s.text for s in picture.shapes if isinstance(s, Text))


def test_plates_in_time_order() -> None:
    """The plan of two jobs: lift, change, lift."""
    picture = draw_week(PLAN)
    assert plates(picture) == [("group", "main:2"), ("change", "main:3"), ("group", "main:3")]
    assert picture.title == "One change"
    assert "at the end of K-1 change 2 to 3 falls" in words(picture)
    heavy = [s for s in picture.shapes if isinstance(s, Rect) and s.stroke == 6]
    assert len(heavy) == 1
    assert faults(picture) == []


def test_no_money_on_the_strip() -> None:
    """A crew does not see what a change costs."""
    picture = draw_week(replace(PLAN, changes=(replace(CHANGE, customer_pays=987654.0),)))
    assert "987654" not in words(picture) + picture.description
    assert PLAN.currency not in words(picture) + picture.description


def test_a_lift_that_is_left_out_says_so() -> None:
    """Stopped by a limit that fails: a solid edge; by one that is unknown: hatch; the title counts them."""
    failing = group(state=None, stopped_by="chart", why="main:3: fail at chart: 13 t hang")
    unknown = group(state=None, stopped_by="rope_length", why="main:3: unknown at rope_length: length not on file")
    for one, is_hatched in ((failing, False), (unknown, True)):
        picture = draw_week(replace(PLAN, groups=(group(), one), changes=()))
        assert picture.title == "No change ahead, 1 lift is left out"
        assert f"left out stopped by {str(one.stopped_by).replace('_', ' ')}" in sorted_words(picture)
        assert any(isinstance(s, Polygon) for s in picture.shapes) is is_hatched
        assert str(one.why) in picture.description


def sorted_words(picture: Picture) -> str:
    """Words by height, then from the left."""
    texts = [s for s in picture.shapes if isinstance(s, Text)]
    return " ".join(s.text for s in sorted(texts, key=lambda s: (s.at[1], s.box[0])))


def test_no_plan_says_why_and_shows_what_is_not_known() -> None:
    nothing = replace(PLAN, why_no_plan="No plan: rigged is not stated.", groups=(group(state=None),), changes=())
    picture = draw_week(nothing)
    assert picture.title == "No plan"
    assert "No plan: rigged is not stated." in words(picture)
    assert "?" in [s.text for s in picture.shapes if isinstance(s, Text)]


def test_long_names_are_whole() -> None:
    """Sixty characters in three scripts for job and lift."""
    picture = draw_week(replace(PLAN, groups=(group(job=LONG_NAME, lift=LONG_NAME),), changes=()))
    assert words(picture).count(LONG_NAME) == 2
    assert faults(picture) == []


@pytest.mark.parametrize(
    ("plan", "title"),
    [
        (replace(PLAN, groups=(), changes=()), "No lifts on file"),
        (replace(PLAN, changes=()), "No change ahead"),
        (replace(PLAN, changes=(CHANGE, CHANGE)), "2 changes"),
    ],
)
def test_titles(plan: Plan, title: str) -> None:
    assert title_of(plan) == title


def test_where_and_what() -> None:
    """Minutes up; both blocks named where the block changes."""
    assert change_words(CHANGE) == "change ball 1 to main 4"
    assert where_words(CHANGE) == "in the yard"
    for where, said in (("E", "at the end of"), ("I", "between the lifts of"), ("S", "at the start of")):
        assert where_words(replace(CHANGE, where=where, job="K-1")) == f"{said} K-1"
    assert "62 min" in words(draw_week(replace(PLAN, changes=(CHANGE,))))
