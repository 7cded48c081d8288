"""A record that was changed by hand in the store vouches for nothing: page and paper say so first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import text

from becket.book.tackle import State
from becket.guide.event import order_of
from becket.records.guards import drop_guards
from tests.cards.reading import whole_text
from tests.web.asking import Phone
from tests.web.pages.standing import change_done, crew, demo_phone, get, read

BEFORE, AFTER = State(block="main", falls=2), State(block="main", falls=4)
AT = datetime.fromisoformat("2026-11-30T14:40:00+01:00")
RECORD = "/c/hazel-70/record/run-1"
SAID = "NOT AS IT WAS KEPT."
GIVEN_UP = "An inspection gave this up while it was open."
VOUCHES = "Each entry carries the hash of the one before"
ONE_DEVICE = "replace(body, 'phone-1', 'phone-2')"


@pytest.fixture
def phone(tmp_path: Path) -> Iterator[Phone]:
    """Yield a server on which one change was closed."""
    found = demo_phone(tmp_path / "data")
    crew(found.house)
    change_done(found.house, BEFORE, AFTER, AT)
    yield found
    found.house.close()


def by_hand(phone: Phone, statement: str) -> None:
    """Do what the guards refuse."""
    with phone.house.store.database.writing() as connection:
        drop_guards(connection)
        connection.execute(text(statement))


def paper(phone: Phone) -> str:
    """Return the words of the record as PDF, in one line."""
    return " ".join(whole_text(phone.get(f"{RECORD}.pdf").content).split())


def test_a_record_as_it_was_kept_says_nothing_of_it(phone: Phone) -> None:
    """The control."""
    page = read(get(phone, RECORD))
    assert SAID not in page
    assert VOUCHES in page
    assert "Yes: two persons" in page
    assert SAID.rstrip(".") not in paper(phone)


@pytest.mark.parametrize(
    ("statement", "what"),
    [
        (f"UPDATE events SET body = {ONE_DEVICE} WHERE run = 'run-1' AND person = 'p-ri'", "Entry "),
        ("UPDATE events SET received = '2026-11-30T00:00:00+00:00' WHERE run = 'run-1' AND kind = 'signed'", "Entry "),
        (
            "DELETE FROM events WHERE number = (SELECT min(number) + 7 FROM events WHERE run = 'run-1')",
            "Entry ",
        ),
        ("UPDATE documents SET text = text || ' ' WHERE kind = 'script'", "The steps that were shown have another"),
        ("UPDATE documents SET text = text || '# x' WHERE kind = 'book'", "The book that it began with has another"),
    ],
    ids=["another device", "another time", "dropped", "steps", "book"],
)
def test_what_was_changed_by_hand_stands_first_and_nothing_is_vouched_for(
    phone: Phone, statement: str, what: str
) -> None:
    by_hand(phone, statement)
    html = get(phone, RECORD)
    assert html.index(SAID) < html.index("<h1")
    page = read(html)
    assert what in page
    assert VOUCHES not in page
    assert "Yes: two persons" not in page
    assert "It cannot be said: the record is not as it was kept." in page
    window = phone.get(f"{RECORD}/window.pdf")
    assert window.status_code == 409
    assert SAID in window.text
    words = paper(phone)
    assert SAID in words
    assert what in words
    assert "Yes: two persons" not in words


def test_a_run_that_an_inspection_gave_up_says_so_and_gives_no_window_card(phone: Phone) -> None:
    """Signed all the same: its record says that it does not tell what is rigged. A later inspection changes nothing."""
    house = phone.house
    run = sorted((one.event for one in house.store.read("hazel-70", run="run-1")), key=order_of)
    half = run[len(run) // 2]
    firm: dict[str, Any] = {"run": None, "role": "supervisor", "person": None, "shown": {}}
    wrong = replace(half, key="t-1", kind="trouble_entered", entered={"what": "wrong reeve", "note": ""}, **firm)
    fit = {"by_whom": "Cy Marsh", "found": "no mark", "fit": True}
    looked = replace(half, key="t-2", kind="inspection_entered", entered=fit, **firm)
    end = run[-1].tick
    house.store.append([replace(wrong, tick=end + 1), replace(looked, tick=end + 2)], "2026-11-30T16:00:00+01:00")
    assert GIVEN_UP not in read(get(phone, RECORD)), "it was closed before"
    inside = [replace(wrong, key="t-3"), replace(looked, key="t-4", tick=half.tick + 1)]
    house.store.append(inside, "2026-11-30T16:00:01+01:00")
    assert GIVEN_UP in read(get(phone, RECORD))
    assert GIVEN_UP in paper(phone)
    assert phone.get(f"{RECORD}/window.pdf").status_code == 409
