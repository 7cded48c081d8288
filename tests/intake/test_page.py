"""The notes of one reading."""

from __future__ import annotations

import pytest

from becket.errors import FaultyFileError
from becket.intake.nodes import Span
from becket.intake.page import FAULTS_MOST, LISTED, Page, first_names, near_name, nearest, place_of


def test_faulty_fields_hold_every_outer_field() -> None:
    page = Page("a.yaml")
    page.fault(Span(line=3, column=4), "charts[0].rows[0-0 9.5 m]", "x", "y")
    assert page.faulty_fields() == {"charts", "charts[0]", "charts[0].rows", "charts[0].rows[0-0 9.5 m]"}


def test_a_page_without_faults_does_not_stop() -> None:
    page = Page("a.yaml")
    page.stop_if_faulty()
    page.fault(None, "file", "is empty", "a file")
    with pytest.raises(FaultyFileError) as caught:
        page.stop_if_faulty()
    assert str(caught.value) == "a.yaml:0:0: file: is empty; a file"


def test_there_is_an_end_to_faults() -> None:
    page = Page("a.yaml")
    for number in range(FAULTS_MOST - 1):
        page.fault(Span(line=number, column=1), "x", "y", "z")
    with pytest.raises(FaultyFileError) as caught:
        page.fault(None, "x", "y", "z")
    assert len(caught.value.faults) == FAULTS_MOST + 1


def test_long_lists_of_names_are_cut() -> None:
    assert first_names(range(LISTED + 1)).endswith(f"{LISTED - 1}, ...")
    assert nearest("q", [], "blocks on file") == "blocks on file: none"
    assert near_name("hok", ["ball", "hook"]) == "hook"
    assert near_name("x" * 100_000, ["ball", "hook"]) is None


def test_a_field_that_does_not_stand_there_is_where_its_record_is() -> None:
    marks = {"keepers": (3, 3), "keepers[0]": (4, 5)}
    assert place_of(marks, "keepers[0].holds") == (4, 5)
    assert place_of(marks, "keepers[7].holds") == (3, 3)
    assert place_of(marks, "blocks.main") == (0, 0)
