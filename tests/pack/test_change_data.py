"""Every ordered pair of states on file, at every set-up of the book, with its verdict; every sentence once."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations
from typing import Any

from becket.book.tackle import State
from becket.method.change import work_out_change
from becket.method.site import Site
from becket.pack.change_data import change_data, sites_of, states_of
from becket.pack.change_page import change_lines
from tests.crane import invented_book, invented_settings

BOOK = replace(invented_book(), patterns=invented_book().patterns[:4])


def test_each_change_is_there_and_reads_as_its_page() -> None:
    told: list[tuple[int, int]] = []
    data: Any = change_data(BOOK, invented_settings(), "metric", lambda done, of: told.append((done, of)))
    wanted = [(pair, site) for pair in permutations(states_of(BOOK), 2) for site in sites_of(BOOK)]
    assert told == [(number, 12) for number in range(1, 13)]
    assert len(data["changes"]) == len(wanted) == 24
    for ((before, after), site), (first, second, set_up, verdict, page) in zip(wanted, data["changes"], strict=True):
        made = work_out_change(BOOK, invented_settings(), before, after, site)
        assert (first, second, verdict) == (str(before), str(after), str(made.verdict))
        assert data["strings"][set_up] == f"counterweight {'7.00 t' if site.counterweight else '0 kg'}, outriggers full"
        lines = [tuple(data["strings"][word] for word in data["lines"][line]) for line in data["pages"][page]]
        assert lines == list(change_lines(made, "metric"))
    assert len(set(data["strings"])) == len(data["strings"])


def test_set_ups_are_those_of_the_book_each_once() -> None:
    assert sites_of(BOOK) == (
        Site(counterweight=7000.0, outriggers="full"),
        Site(counterweight=0.0, outriggers="full"),
    )


def test_a_book_that_permits_no_position_still_has_its_changes() -> None:
    book = replace(BOOK, rereeve=(), patterns=BOOK.patterns[2:4])
    data: Any = change_data(book, invented_settings(), "metric", lambda *_: None)
    assert [one[:2] for one in data["changes"]] == [["main:2", "main:3"], ["main:3", "main:2"]]
    assert {one[3] for one in data["changes"]} <= {"fail", "unknown"}
    assert data["strings"][data["changes"][0][2]] == "No permitted position on file"


def test_states_stand_once_and_in_order() -> None:
    twice = replace(BOOK, patterns=(*BOOK.patterns, BOOK.patterns[0]))
    assert states_of(twice) == (
        State(block="ball", falls=1),
        State(block="light", falls=2),
        State(block="main", falls=2),
        State(block="main", falls=3),
    )
