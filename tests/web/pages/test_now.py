"""Now: every state that a crane can be in, in the words of the page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.guide.event import Event
from becket.web.present.now import SHIFT, NowShown, now_shown
from becket.web.present.rigged import Rigged
from becket.web.present.trade import Word
from becket.web.templates import Templates
from tests.web.asking import Phone
from tests.web.pages.standing import change_begun, change_done, crew, demo_phone, get, keep, read, start_of
from tests.web.run_answered import Writer

NOW = "/c/hazel-70/now"
TWO, FOUR, SIX = (State(block="main", falls=falls) for falls in (2, 4, 6))


def clock() -> datetime:
    """Return this moment with its offset."""
    return datetime.now().astimezone()


@pytest.fixture
def phone(tmp_path: Path) -> Iterator[Phone]:
    """A phone at a server with the demo's cranes and a crew."""
    found = demo_phone(tmp_path / "data")
    crew(found.house)
    yield found
    found.house.close()


def test_nothing_recorded_is_a_question_mark_and_no_number(phone: Phone) -> None:
    """The job sheet claims main 2: a page from which people go to count must not say it."""
    page = get(phone, NOW)
    text = read(page)
    assert "Rigged now ? Not known what is rigged. Count it: two people, each alone." in text
    assert "Next change" not in text
    assert "→" not in text
    assert "main" not in text
    assert 'data-kind="count"' in page
    assert "Indicator" not in text


def test_counted_state_stands_with_who_and_when_and_the_next_change(phone: Phone) -> None:
    """Falls, block, setting, both names, the limit, the next change with place, time and reason."""
    change_done(phone.house, FOUR, TWO, start_of(clock(), 2))
    page = get(phone, NOW)
    text = read(page)
    assert "Rigged now 2 falls main block Indicator set to 2 Ada Quill and Bo Fenn, " in text
    assert "Next lift: trusses needs 2" in text
    assert "Next change 2 → 4 falls 12:52 Mon 1 Mar, at School, roof trusses, after the last lift: 48 min." in text
    assert "pump needs 4 falls. On 2 falls it fails: lead line pull 151 %. Open the change" in text
    assert "Limit switch tried on 2 falls, " in text
    assert 'href="/c/hazel-70/change/main:2/main:4"' in page
    for hook in ("falls", "block", "indicator", "by", "since", "plate"):
        assert f'data-now="{hook}"' in page
    assert "EUR" not in text
    assert "ready" not in text.lower()


def test_plan_starts_from_the_record_not_from_the_sheet(phone: Phone) -> None:
    """The sheet says main 2; main 4 was counted: the next change is another one, Week says why."""
    change_done(phone.house, TWO, FOUR, start_of(clock(), 2))
    assert "Next change 4 → 6 falls" in read(get(phone, NOW))
    week = read(get(phone, "/c/hazel-70/week"))
    assert "The job sheet says main 2 hangs. The record says main 4: the plan starts from the record." in week


def test_next_lift_that_fails_as_rigged_says_so(phone: Phone) -> None:
    """On the ball the first lift fails: the plate of the lift is the heavy one, with FAIL and both numbers."""
    crane = phone.house.crane("hazel-70")
    during = datetime(2027, 3, 2, 7, 40).astimezone()
    rigged = Rigged(state=TWO, since=during)
    shown = now_shown(crane, phone.house.plan(crane), rigged, _word(phone), during)
    assert shown.lift is not None
    assert shown.lift.name == "pump"
    assert shown.lift.verdict == "fail"
    assert shown.lift.is_now
    assert {"main:2", "main:3"} <= set(shown.lift.failing)
    assert "main:4" in shown.lift.passing
    page = _page(phone, shown)
    assert "Now: pump needs 4, rigged 2." in read(page)
    assert " FAIL " in read(page)
    assert 'class="plate lift this" data-now="lift"' in page


def test_open_change_takes_the_place_of_everything(phone: Phone) -> None:
    """A change is open: its step, Go on, both numbers on hatch; no next change, no verdict."""
    change_done(phone.house, FOUR, TWO, start_of(clock(), 2))
    change_begun(phone.house, TWO, FOUR, clock())
    page = get(phone, NOW)
    text = read(page)
    assert "Open now 2 → 4 A change is open at step 1. Go on" in text
    assert 'href="/run/run-2"' in page
    assert "Next change" not in text
    assert " pass " not in text
    assert 'class="rigged hatch"' in page


def test_record_older_than_a_shift_is_told(phone: Phone) -> None:
    """After twelve hours: look before the first lift."""
    change_done(phone.house, FOUR, TWO, clock() - SHIFT - timedelta(minutes=30))
    assert "Look before the first lift." in read(get(phone, NOW))


def test_record_of_this_shift_is_not_called_old(phone: Phone) -> None:
    """Within the shift the line is hidden, and the page says from when on a phone has to show it."""
    change_done(phone.house, FOUR, TWO, start_of(clock(), 1))
    page = get(phone, NOW)
    assert "Look before the first lift." not in read(page)
    assert 'data-older-after="' in page


@pytest.mark.parametrize(
    ("what", "words"),
    [("wrong reeve", "wrong reeve"), ("two-block", "two-block"), ("shock", "shock")],
)
def test_trouble_locks_the_crane_until_an_inspection(phone: Phone, what: str, words: str) -> None:
    """Nothing is started while a crane is locked out; Now says what, when, by whom."""
    change_done(phone.house, FOUR, TWO, start_of(clock(), 2))
    writer = Writer(now=clock(), number=5000)
    keep(phone.house, [_of_crane(writer.write("trouble_entered", {"what": what, "note": "seen at the head"}))])
    text = read(get(phone, NOW))
    assert f"Locked out: {words}. Do not lift." in text
    assert "by Ada Quill." in text
    assert "Enter the inspection" in text
    assert "Open the change" not in text
    change = read(get(phone, "/c/hazel-70/change/main:2/main:4"))
    assert "Locked out after trouble. No change until an inspection is entered." in change
    found = {"by_whom": "Kim Hale", "found": "rope and sheaves sound", "fit": True}
    keep(phone.house, [_of_crane(writer.write("inspection_entered", found, role="inspector"))])
    assert "Locked out" not in read(get(phone, NOW))


def test_broken_book_shows_its_faults_with_lines(phone: Phone) -> None:
    """File, line, what stands there and what is wanted; what was counted still stands."""
    change_done(phone.house, FOUR, TWO, start_of(clock(), 2))
    book = phone.house.folder / "hazel-70.crane.yaml"
    book.write_text(book.read_text().replace("diameter: 19 mm", "diameter: 19", 1))
    text = read(get(phone, NOW))
    assert "1 fault in the files" in text
    assert "hazel-70.crane.yaml, line " in text
    assert "has no unit" in text
    assert "Rigged now 2 falls main block" in text
    assert "Next change" not in text
    for path in ("/c/hazel-70/week", "/c/hazel-70/falls", "/c/hazel-70/pattern", "/c/hazel-70/change"):
        assert "1 fault in the files" in read(get(phone, path)), path


def test_no_jobs_on_file(phone: Phone) -> None:
    """Without a sheet: enter one lift, or take in the job sheet."""
    change_done(phone.house, FOUR, TWO, start_of(clock(), 2))
    (phone.house.folder / "hazel-70.jobs.yaml").unlink()
    assert "No lifts on file. Enter one lift, or take in the job sheet." in read(get(phone, NOW))
    assert "No lifts on file." in read(get(phone, "/c/hazel-70/week"))
    assert "No lifts on file." in read(get(phone, "/c/hazel-70/falls"))


def test_no_change_ahead(phone: Phone) -> None:
    """Every lift can be done as rigged: it says on how many falls, and nothing else."""
    crane = phone.house.crane("rowan-30")
    assert crane.sheet is not None
    rigged = State(block="hook", falls=4)
    sheet = replace(crane.sheet, jobs=crane.sheet.jobs[1:], rigged=rigged)
    ahead = replace(crane, sheet=sheet)
    shown = now_shown(ahead, phone.house.plan(ahead), Rigged(state=rigged, since=clock()), _word(phone), clock())
    assert shown.next is None
    assert shown.ahead == "No change ahead. Every lift on file can be done on 4 falls."


def test_every_lift_past_asks_for_the_next_sheet(phone: Phone) -> None:
    """A sheet of last month is no answer for today."""
    crane = phone.house.crane("rowan-30")
    later = datetime(2027, 6, 1, 7, 0).astimezone()
    rigged = Rigged(state=State(block="hook", falls=2), since=later)
    shown = now_shown(crane, phone.house.plan(crane), rigged, _word(phone), later)
    assert shown.lift is None
    assert shown.next is not None or shown.ahead == "No lifts ahead on file. Take in the next job sheet."


def test_setting_unlike_falls_is_told_over_the_number(phone: Phone) -> None:
    """Set 4, rigged 2: do not lift."""
    crane = phone.house.crane("hazel-70")
    rigged = Rigged(state=TWO, since=clock(), indicator_words="4", differs=True)
    shown = now_shown(crane, phone.house.plan(crane), rigged, _word(phone), clock())
    text = _page(phone, shown)
    assert "Set 4, rigged 2. Do not lift." in read(text)
    assert read(text).index("Set 4") < read(text).index("Rigged now")


def _page(phone: Phone, shown: NowShown) -> str:
    """Return the page of a state that takes long to come about."""
    templates: Templates = phone.app.state.templates
    context = {"page": "now", "language": "en", "module": None, "count_script": None}
    look = {"theme": "sun", "text": "normal", "units": "metric"}
    return templates.text("now.html", {**context, "now": shown, "look": look, "crane": phone.house.crane("hazel-70")})


def _word(phone: Phone) -> Word:
    templates: Templates = phone.app.state.templates
    return templates.words.word


def _of_crane(event: Event) -> Event:
    return replace(event, run=None, crane="hazel-70")
