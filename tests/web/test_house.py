"""The house: scripts kept for good, worked out once, refused with the reason; where a change would be made."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

import pytest

from becket.book.tackle import State
from becket.errors import NotOnFileError, RefusedError
from becket.web.change_site import site_for
from tests.web.asking import Phone
from tests.web.test_crane_files import BOOK, touch_later
from tests.web.test_receive import FOUR, TWO


def test_a_script_is_worked_out_once_and_kept_with_its_book(phone: Phone) -> None:
    house = phone.house
    found = house.script_for(house.crane("hazel-70"), TWO, FOUR)
    assert isinstance(found, tuple)
    name, script = found
    again = house.script_for(house.crane("hazel-70"), TWO, FOUR)
    assert isinstance(again, tuple)
    assert (again[0], again[1] is script) == (name, True)
    assert house.script(name) == script
    book = house.store.document(script.book)
    assert book is not None
    assert book.text == (house.folder / BOOK).read_text(encoding="utf-8")


def test_a_change_that_does_not_pass_is_refused_with_its_reason_and_not_kept(phone: Phone) -> None:
    house = phone.house
    refused = house.script_for(house.crane("hazel-70"), TWO, State(block="main", falls=5))
    assert isinstance(refused, RefusedError)
    assert "NOT CONFIRMED" in str(refused)
    assert house.store.documents("script") == ()


def test_a_script_is_worked_out_anew_where_the_jobs_ahead_are_others(
    phone: Phone, monkeypatch: pytest.MonkeyPatch
) -> None:
    """As the days pass the same files stand for another site: here one with no room for the boom."""
    house = phone.house
    crane = house.crane("hazel-70")
    assert isinstance(house.script_for(crane, TWO, FOUR), tuple)
    known = house.site(crane, TWO, FOUR)
    narrow = replace(known, site=replace(known.site, free_radius=9.0))
    with monkeypatch.context() as patch:
        patch.setattr(house, "site", lambda *_: narrow)
        refused = house.script_for(crane, TWO, FOUR)
        assert isinstance(refused, RefusedError)
        assert "free radius 9.0 m" in str(refused)
    assert isinstance(house.script_for(crane, TWO, FOUR), tuple)


def test_a_count_wants_nothing(phone: Phone) -> None:
    _, script = phone.house.count_script_for(phone.house.crane("hazel-70"))
    assert script.kind == "count"
    assert all(field.want is None for item in script.items for field in item.fields)


def test_a_book_that_cannot_be_used_gives_no_script(phone: Phone) -> None:
    book = phone.house.folder / BOOK
    touch_later(book, book.read_text(encoding="utf-8").replace("winch:", "wich:", 1))
    crane = phone.house.crane("hazel-70")
    with pytest.raises(NotOnFileError, match=r"the book of hazel-70 cannot be used; hazel-70.crane.yaml:"):
        phone.house.script_for(crane, TWO, FOUR)
    assert phone.house.plan(crane) is None


def test_the_site_is_that_of_the_plan(phone: Phone) -> None:
    crane = phone.house.crane("hazel-70")
    known = phone.house.site(crane, TWO, FOUR)
    assert known.planned is not None
    assert known.job is not None
    assert (known.job.name, known.site.free_radius, known.site.counterweight) == ("M-1", 40.0, 12_000.0)


def test_a_change_that_is_not_planned_is_made_at_the_job_ahead(phone: Phone) -> None:
    crane, four_to_three = phone.house.crane("hazel-70"), (FOUR, State(block="main", falls=3))
    known = site_for(crane, phone.house.plan(crane), *four_to_three, now=datetime(2027, 3, 2, 8))
    assert known.planned is None
    assert known.job is not None
    assert known.job.name == "T-1"
    past = site_for(crane, phone.house.plan(crane), *four_to_three, now=datetime(2030, 1, 1))
    assert past.job is None
    assert past.site.free_radius is None
    assert past.site.counterweight is None  # the book permits two: neither is taken
    assert past.site.outriggers == "full"  # the book permits no other


def test_what_a_phone_keeps_names_every_script_that_passes_and_changes_its_seals_with_an_event(phone: Phone) -> None:
    before = phone.get("/api/kept/hazel-70").json()
    assert {(one["before"], one["after"]) for one in before["scripts"]} >= {(None, None), ("main:2", "main:4")}
    assert set(before["seals"]) == set(before["pages"])
    phone.house.note("noted", "hazel-70", {"text": "x"})
    after = phone.get("/api/kept/hazel-70").json()
    changed = {url for url in after["pages"] if after["seals"][url] != before["seals"][url]}
    assert {"/c/hazel-70/now", "/c/hazel-70/week"} <= changed
    assert "/c/hazel-70/falls" not in changed
