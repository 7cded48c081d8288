"""The crew's own minutes on the pages: what each closed change taught, and where the minutes of a plan come from."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from math import ceil

import pytest

from becket.book.tackle import State
from becket.guide.event import Event
from becket.guide.script import Script
from becket.web.kept_pages import page_seals
from tests.cards.reading import whole_text
from tests.guide.play import Play
from tests.web.asking import Phone
from tests.web.pages.standing import demo_phone, get, keep, read

MAIN_2, MAIN_4 = State(block="main", falls=2), State(block="main", falls=4)
CHANGE, WEEK, RECORD = "/c/hazel-70/change/main:2/main:4", "/c/hazel-70/week", "/c/hazel-70/record"
START = datetime.fromisoformat("2026-11-25T10:00:00+01:00")
BREAK = 15  # minutes of each interruption


@dataclass(frozen=True, kw_only=True)
class Seen:
    """What stands there at one moment, as a person reads it; the script that a phone would get."""

    week: str
    change: str
    script: str
    minutes: float | None
    facts: Mapping[str, str]
    seals: Mapping[str, str]  # under which a phone keeps its pages


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """Yield a server whose jobs lie ahead, whatever day it is."""
    folder = tmp_path_factory.mktemp("data")
    found = demo_phone(folder)
    sheet = folder / "hazel-70.jobs.yaml"
    sheet.write_text(sheet.read_text("utf-8").replace("2027-", "2127-"), "utf-8")
    yield found
    found.house.close()


@pytest.fixture(scope="module")
def story(phone: Phone) -> dict[str, Seen]:
    """The pages before any record, after the fourth, after the fifth, and after one that was entered afterwards.

    Worked 44, 71, 50, 63 and 52 min: the middle one is 52. Two breaks of 15 min in the second. Two falls are counted
    before each look, so that the plan begins with them, as the job sheet says.
    """
    found = {"none": seen(phone)}
    for number, (minutes, stops) in enumerate(((44, 0), (71, 2), (50, 0), (63, 0)), 1):
        change_closed(phone, number, minutes, stops)
    two_falls_counted(phone, 5)
    found["four"] = seen(phone)
    found["record of the fourth"] = replace(found["four"], week=read(get(phone, f"{RECORD}/run-4")))
    change_closed(phone, 6, 52)
    two_falls_counted(phone, 7)
    found["five"] = seen(phone)
    change_closed(phone, 8, 25.5)
    two_falls_counted(phone, 9)
    found["six"] = seen(phone)
    return found


def seen(phone: Phone) -> Seen:
    """Return what stands there now."""
    name, script = script_now(phone)
    return Seen(
        week=read(get(phone, WEEK)),
        change=read(get(phone, CHANGE)),
        script=name,
        minutes=script.minutes,
        facts=dict(script.facts),
        seals=page_seals(phone.house, phone.app.state.templates, "hazel-70"),
    )


def script_now(phone: Phone) -> tuple[str, Script]:
    """Return the script of the change as a phone would get it now, with its id."""
    made = phone.house.script_for(phone.house.crane("hazel-70"), MAIN_2, MAIN_4)
    assert isinstance(made, tuple), str(made)
    return made


def change_closed(phone: Phone, number: int, minutes: float, stops: int = 0) -> None:
    """Keep a whole change that took so many minutes of work besides its interruptions."""
    name, script = script_now(phone)
    play = Play(script=script, run=f"run-{number}", tick=1000 * number).start(script=name)
    for place, item in enumerate(script.items):
        if place < stops:
            play.write("stopped", {"left": [], "told": "Mo"})
            play.write("resumed", dict(item.resume or {}))
        play.enter(item.id)
    keep(phone.house, timed(play.sign().events, minutes))


def timed(events: Iterable[Event], minutes: float) -> list[Event]:
    """Return events evenly over the minutes, the break between each stop and going on besides."""
    given = list(events)
    work = [one for one in given[1:] if one.kind != "resumed"]
    step, at = timedelta(minutes=minutes) / len(work), START
    found = [replace(given[0], at=at.isoformat())]
    for event in given[1:]:
        at += timedelta(minutes=BREAK) if event.kind == "resumed" else step
        found.append(replace(event, at=(at + timedelta(seconds=0.5)).replace(microsecond=0).isoformat()))
    return found


def two_falls_counted(phone: Phone, number: int) -> None:
    """Keep a closed count of two falls: the week ahead begins with them, as the job sheet says."""
    name, script = phone.house.count_script_for(phone.house.crane("hazel-70"))
    play = Play(script=script, run=f"run-{number}", tick=1000 * number, state="main:2").start(script=name)
    keep(phone.house, play.upto(None).sign().events)


def test_without_a_record_the_minutes_are_an_estimate(story: dict[str, Seen]) -> None:
    now = story["none"]
    assert now.minutes is not None
    assert f"{ceil(now.minutes)} min (estimate by the settings). Worked out for" in now.change
    assert "No own record of this change yet. Not counted in the estimate: telescoping" in now.change
    assert "48 min (estimate), after the last lift of M-1" in now.week
    assert "Minutes: estimate by the settings. No own record of this change yet." in now.week


def test_four_records_are_told_and_do_not_count_yet(story: dict[str, Seen]) -> None:
    now = story["four"]
    said = (
        "Own minutes: 57 min, the median of 4 own records (44 to 71 min); interruption, on average 8 min a change, "
        "is taken out; counted from 5 on, until then the settings."
    )
    assert "48 min (estimate), after the last lift of M-1" in now.week
    assert f"Minutes: estimate by the settings. {said}" in now.week
    assert said in now.change
    assert "(estimate by the settings)" in now.change
    assert (now.script, now.minutes) == (story["none"].script, story["none"].minutes)
    record = story["record of the fourth"].week
    needs = (
        "number 4 of the 5 closed changes of this kind that the plan needs before it uses their minutes. On record: 4."
    )
    assert needs in record


def test_from_the_fifth_on_week_and_change_say_the_median(story: dict[str, Seen]) -> None:
    now = story["five"]
    said = (
        "Own minutes: 52 min, the median of 5 own records (44 to 71 min); interruption, on average 6 min a change, "
        "is taken out."
    )
    assert "52 min (median of 5), after the last lift of M-1" in now.week
    assert now.week.count(said) == 1
    assert now.week.count("own records") == 1, "it stands with its change alone"
    assert "52 min (median of own records). Worked out for" in now.change
    assert said in now.change
    assert "Not counted" not in now.change, "what the crew took holds it"


def test_the_script_that_a_phone_keeps_has_the_median(phone: Phone, story: dict[str, Seen]) -> None:
    now = story["five"]
    assert now.script != story["four"].script
    assert now.minutes == 52
    assert now.facts["Time"] == "52 min, median of 5 own records"
    kept = phone.house.scripts_ahead(phone.house.crane("hazel-70"))
    assert [one["id"] for one in kept if (one["before"], one["after"]) == ("main:2", "main:4")] == [now.script]
    assert f'data-script="{now.script}"' in get(phone, CHANGE)


def test_what_a_phone_keeps_of_the_plan_is_fetched_anew(story: dict[str, Seen]) -> None:
    before, now = story["four"].seals, story["five"].seals
    for page in (WEEK, CHANGE, "/c/hazel-70/falls", "/c/hazel-70/falls/1"):
        assert before[page] != now[page], page


def test_the_record_of_a_closed_change_says_what_it_taught(phone: Phone, story: dict[str, Seen]) -> None:
    """The second one: 101 min by the clock, 71 of them work. On paper as on the page."""
    lesson = "Counts as number 2 of 5 closed changes of this kind. The plan uses their median: 52 min (44 to 71 min)."
    assert "median of 5" in story["five"].week
    page = read(get(phone, f"{RECORD}/run-2"))
    assert lesson in page
    assert "Took 101 min Worked 71 min Interrupted, taken out 30 min, 2 times" in page
    assert "Took 44 min Worked 44 min Interrupted, taken out none" in read(get(phone, f"{RECORD}/run-1"))
    paper = whole_text(phone.get(f"{RECORD}/run-2.pdf").content).replace(" ", "")
    for words in (lesson, "Interrupted, taken out", "30 min, 2 times"):
        assert words.replace(" ", "") in paper


def test_a_change_entered_afterwards_says_why_it_teaches_nothing(phone: Phone, story: dict[str, Seen]) -> None:
    page = read(get(phone, f"{RECORD}/run-8"))
    assert "Teaches the plan no minutes: 25 min, under 50% of the 52 min planned for it: entered afterwards." in page
    assert "Worked" not in page
    assert "52 min (median of 5)" in story["six"].week


def test_a_count_says_nothing_of_lessons(phone: Phone, story: dict[str, Seen]) -> None:
    assert "52 min (median of 5)" in story["six"].week
    page = read(get(phone, f"{RECORD}/run-9"))
    assert "Minutes Began" in page
    assert "Teaches" not in page
    assert "Counts as number" not in page
