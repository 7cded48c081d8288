"""Where the plan had a change and who pays: the mark that a run keeps, the words on its record."""

from __future__ import annotations

from dataclasses import replace

import pytest

from becket.book.tackle import State
from becket.method.site import Site
from becket.planning.answer import PlannedChange
from becket.web.change_site import KnownSite
from becket.web.present.planned import mark_of, mark_words
from becket.web.words import Words
from tests.planning.jobs import first_job

WORD = Words().word
CHANGE = PlannedChange(
    before_group=0,
    before=State(block="main", falls=2),
    after=State(block="main", falls=4),
    where="E",
    job="K-1",
    minutes=40.0,
    minutes_left_in_job=12.0,
    customer_pays=0.0,
    we_pay=0.0,
    why="",
)
JOB = replace(first_job(), name="K-1", site="Quay")


@pytest.mark.parametrize(
    ("where", "customer", "own", "words"),
    [
        ("E", 0.0, 0.0, "After the last lift of K-1, Quay. Nobody pays more."),
        ("I", 360.0, 0.0, "Between the lifts of K-1, Quay. The customer pays."),
        ("S", 0.0, 75.6, "Before the first lift of K-1, Quay. We pay."),
        ("E", 360.0, 75.6, "After the last lift of K-1, Quay. The customer and we pay."),
    ],
)
def test_place_and_payer_without_a_sum(where: str, customer: float, own: float, words: str) -> None:
    planned = replace(CHANGE, where=where, customer_pays=customer, we_pay=own)
    mark = mark_of(KnownSite(site=Site(), job=JOB, planned=planned))
    assert mark_words(mark, WORD) == words
    assert "360" not in mark
    assert "75" not in mark


def test_in_the_yard() -> None:
    planned = replace(CHANGE, where="Y", job=None, we_pay=260.0)
    assert mark_words(mark_of(KnownSite(site=Site(), job=None, planned=planned)), WORD) == "In the yard. We pay."


def test_what_is_not_in_the_plan_says_so_and_who_to_ask() -> None:
    known = mark_of(KnownSite(site=Site(), job=JOB, planned=None))
    assert mark_words(known, WORD) == "Not in the plan; worked out for K-1, Quay. Who pays: ask the office."
    none = mark_of(KnownSite(site=Site(), job=None, planned=None))
    assert mark_words(none, WORD) == "Not in the plan. Who pays: ask the office."


def test_long_and_odd_names_are_cut_so_that_a_code_holds_them() -> None:
    job = replace(JOB, name="K;1; " * 40, site="Ä" * 400)
    mark = mark_of(KnownSite(site=Site(), job=job, planned=CHANGE))
    assert len(mark.encode()) < 64
    assert mark_words(mark, WORD) == f"After the last lift of K,1, K,1, K…, {'Ä' * 17}… Nobody pays more."


@pytest.mark.parametrize("text", ["the lift at two", "E;nobody;K-1;", "Q;none", ";;;;", "E"])
def test_a_text_that_is_no_mark_stays_as_it_is(text: str) -> None:
    assert mark_words(text, WORD) == text
