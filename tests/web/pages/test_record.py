"""The record pages: what stands there, what is hidden, what paper they give; trouble and the reading of a page."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path

import pytest

from becket.book.tackle import State
from becket.guide.event import Event
from becket.guide.run import fold_run
from becket.guide.script import Script
from tests.cards.reading import page_sizes, whole_text
from tests.web.asking import Phone
from tests.web.pages.standing import change_begun, change_done, crew, demo_phone, get, keep, read
from tests.web.run_answered import Writer, entry

BEFORE, AFTER = State(block="main", falls=2), State(block="main", falls=4)
AT = datetime.fromisoformat("2026-11-30T14:40:00+01:00")
RECORD = "/c/hazel-70/record"


@pytest.fixture(scope="module")
def phone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Phone]:
    """Yield a server on which one change was closed and one is open with one count hidden."""
    found = demo_phone(tmp_path_factory.mktemp("data"))
    crew(found.house)
    change_done(found.house, BEFORE, AFTER, AT)
    keep_to_the_first_count(found, change_begun(found.house, AFTER, BEFORE, AT))
    yield found
    found.house.close()


def keep_to_the_first_count(phone: Phone, script: Script) -> None:
    """Keep the entries of a run up to the first blind count."""
    run = phone.house.store.read("hazel-70", run="run-2")
    events: list[Event] = [one.event for one in run]
    writer = Writer(now=AT, number=2000)
    while True:
        state = fold_run(script, events)
        assert state.at is not None
        item = script.item(state.at)
        values = {"counterweight": 11.2} if item.blind else {}
        made = entry(script, writer, item, round_number=state.round or 1, **values)
        events.append(Event(**{**{name: getattr(made, name) for name in made.__dataclass_fields__}, "run": "run-2"}))
        keep(phone.house, [events[-1]])
        if item.blind:
            return


def test_the_list_names_every_run_and_says_which_is_not_closed(phone: Phone) -> None:
    text = read(get(phone, RECORD))
    assert text.count("NOT CLOSED") == 1
    assert "4 falls, main block, since Mon 30 Nov" in text
    assert "4 falls, main block → 2 falls, main block, begun Mon 30 Nov 14:40" in text
    assert "Ada Quill, Bo Fenn" in text


def test_a_crane_without_records_says_so(phone: Phone) -> None:
    assert "No record on file. A change or a count makes one." in read(get(phone, "/c/rowan-30/record"))


def test_a_record_has_no_edit_and_no_delete(phone: Phone) -> None:
    page = get(phone, f"{RECORD}/run-1")
    assert "It cannot be changed. Add a note." in read(page)
    assert re.findall(r"<form[^>]*(?:action|method)=", page) == []
    assert re.findall(r"<(?:input|select)\b", page) == []
    for method in ("POST", "PUT", "DELETE", "PATCH"):
        assert phone.ask(method, f"{RECORD}/run-1", headers={"origin": "http://localhost"}).status_code in (
            403,
            405,
            415,
        )


def test_a_hidden_count_is_in_no_page_and_on_no_paper(phone: Phone) -> None:
    page = get(phone, f"{RECORD}/run-2")
    assert "11.2" not in page
    assert "Hidden until both have entered." in page
    assert "11.2" not in get(phone, RECORD)
    paper = phone.get(f"{RECORD}/run-2.pdf")
    assert "11.2" not in whole_text(paper.content)
    last = phone.house.store.read("hazel-70", run="run-2")[-1]
    assert last.event.entered["values"]["counterweight"] == 11.2
    for text in (page, whole_text(paper.content).replace(" ", "")):
        assert last.hash not in text


def test_the_paper_of_a_record_is_a4_and_says_what_the_page_says(phone: Phone) -> None:
    paper = phone.get(f"{RECORD}/run-1.pdf")
    assert (paper.status_code, paper.headers["content-type"]) == (200, "application/pdf")
    assert set(page_sizes(paper.content)) == {(210, 297)}
    says = re.findall(r'<p class="record-says">(.*?)</p>', get(phone, f"{RECORD}/run-1"))
    text = whole_text(paper.content).replace(" ", "")
    assert says
    assert [one for one in says if one.replace(" ", "") not in text] == []


def test_the_window_card_comes_only_after_both_have_signed(phone: Phone) -> None:
    card = phone.get(f"{RECORD}/run-1/window.pdf")
    assert card.status_code == 200
    text = whole_text(card.content)
    assert "FOUR" in text
    assert "1.10 m" in text
    assert "Ada Quill" not in text
    assert page_sizes(card.content) == [(210, 148)]
    refused = phone.get(f"{RECORD}/run-2/window.pdf")
    assert refused.status_code == 409
    assert "Not signed by both yet. The window card is printed after that." in read(refused.text)
    assert "window.pdf" not in get(phone, f"{RECORD}/run-2")
    assert "The window card is printed after both have signed." in read(get(phone, f"{RECORD}/run-2"))


def test_the_window_card_is_of_the_book_that_the_run_began_with(phone: Phone, tmp_path: Path) -> None:
    other = demo_phone(tmp_path / "data")
    crew(other.house)
    change_done(other.house, BEFORE, AFTER, AT)
    before = other.house.crane("hazel-70").fingerprint
    path = other.house.crane("hazel-70").path
    path.write_text(path.read_text().replace("mass: 720 kg", "mass: 735 kg"))
    assert other.house.crane("hazel-70").fingerprint != before
    text = whole_text(other.get(f"{RECORD}/run-1/window.pdf").content)
    assert "720 kg" in text
    assert before in text
    other.house.close()


def test_a_record_that_is_not_there_says_so(phone: Phone) -> None:
    for path in (f"{RECORD}/run-9", f"{RECORD}/run-9.pdf", f"{RECORD}/run-9/window.pdf", "/c/rowan-30/record/run-1"):
        answer = phone.get(path)
        assert answer.status_code == 404
        assert "of this crane. Look in the list of records." in read(answer.text)


def test_the_reading_page_holds_every_key_and_nothing_of_the_typed_path(phone: Phone) -> None:
    page = get(phone, "/c/hazel-70/pattern/main:4/confirm")
    assert re.findall(r'data-place="head" data-sheave="(\d)"', page) == ["1", "3", "5", "2", "4"]
    assert re.findall(r'data-place="block" data-sheave="(\d)"', page) == ["1", "3", "2"]
    assert re.findall(r'data-end="(.*?)"', page) == ["head left", "head right", "block"]
    assert "<svg" not in page[page.index("<main") : page.index("</main")]
    six = get(phone, "/c/hazel-70/pattern/main:6/confirm")
    keys = [re.findall(r"data-(?:place|sheave|end)=\"[^\"]*\"", one) for one in (page, six)]
    assert keys[0] == keys[1]  # the same keys for every pattern of a crane
    same = page.replace("main:4", "?").replace("4 falls", "?").replace("7-14", "?")
    assert same == six.replace("main:6", "?").replace("6 falls", "?").replace("7-16", "?")


def test_a_pattern_that_is_not_on_file_cannot_be_read(phone: Phone) -> None:
    answer = phone.get("/c/hazel-70/pattern/main:8/confirm")
    assert answer.status_code == 404
    assert "pattern main:8 is not on file; type it from the manual first" in read(answer.text)


def test_trouble_stands_on_its_page_until_an_inspection_says_fit(phone: Phone) -> None:
    path = "/c/hazel-70/trouble"
    assert "Not locked out." in read(get(phone, path))
    writer = Writer(now=AT, number=5000)
    keep(phone.house, [writer.write("trouble_entered", {"what": "two-block", "note": "Block met the head."}, run=None)])
    locked = read(get(phone, path))
    assert "LOCKED OUT: Two-block" in locked
    assert "Entered by Ada Quill, Mon 30 Nov 14:40." in locked
    found = {"by_whom": "Cy Marsh", "licence": "IN 7", "found": "rope: flat spot; head: good", "fit": False}
    keep(phone.house, [writer.write("inspection_entered", found, run=None, role="rigger")])
    still = read(get(phone, path))
    assert "LOCKED OUT: Two-block" in still
    assert "Inspection by Cy Marsh, IN 7: NOT fit" in still
    keep(phone.house, [writer.write("inspection_entered", {**found, "fit": True}, run=None, role="rigger")])
    free = read(get(phone, path))
    assert "Not locked out." in free
    assert "Inspection by Cy Marsh, IN 7: fit" in free
