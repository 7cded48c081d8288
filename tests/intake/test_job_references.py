"""A sheet beside its book and beside its own order: what may be, what may not."""

from __future__ import annotations

from pathlib import Path

import pytest

from becket.intake.job_references import JobReferences
from becket.intake.page import Page
from tests.intake.reading import book_of, jobs_messages, jobs_of
from tests.intake.texts import BOOK, JOBS, altered

LAST = ("    from: 2027-02-02 07:00\n    to: 2027-02-02 12:00\n", "")


def faults(folder: Path, text: str) -> list[str]:
    """Return the faults without their places."""
    return [line.split(": ", 1)[1] for line in jobs_messages(folder, text)]


@pytest.mark.parametrize(
    "change",
    [
        ("leave_by: 2027-02-01 13:00", "leave_by: 2027-02-01 12:00"),  # leaves as the job ends
        ("from: 2027-02-02 07:00", "from: 2027-02-01 12:00"),  # begins as the one above ends
        ("    to: 2027-02-01 12:00\n", ""),  # an end that is not given
        ("    from: 2027-02-02 07:00\n", ""),
        ("top: 9 m, bottom: 0 m", "top: 0 m, bottom: 0 m"),
        ("boom: 16 m", "boom: 52.493 ft"),
        ("{name: tank, ", '{name: tank, code: "0-0", '),
    ],
)
def test_what_may_be(change: tuple[str, str], tmp_path: Path) -> None:
    assert len(jobs_of(tmp_path, altered(JOBS, change)).sheet.jobs) == 2


def test_a_job_that_ends_as_it_begins(tmp_path: Path) -> None:
    text = altered(JOBS, ("to: 2027-02-02 12:00", "to: 2027-02-02 07:00"))
    assert faults(tmp_path, text) == ["jobs[1].to: 2027-02-02 07:00 is not after from; a moment after from"]


def test_a_job_without_an_end_still_holds_the_next_one_back(tmp_path: Path) -> None:
    """Its beginning is known: nothing after it in the list begins before it."""
    text = altered(JOBS, ("    to: 2027-02-01 12:00\n", ""), ("from: 2027-02-02 07:00", "from: 2027-01-31 07:00"))
    assert faults(tmp_path, text) == [
        "jobs[1].from: 2027-01-31 07:00 is before the job above ends, 2027-02-01 07:00; "
        "jobs one after the other, in the order of time"
    ]


def test_a_job_without_times_does_not_hide_the_order_of_the_others(tmp_path: Path) -> None:
    third = (
        "  - job: A-3\n    from: 2027-02-01 11:00\n    to: 2027-02-01 15:00\n    lifts: [{name: last, boom: 16 m}]\n"
    )
    text = altered(JOBS, LAST) + third
    assert [line.split(";")[0] for line in faults(tmp_path, text)] == [
        "jobs[2].from: 2027-02-01 11:00 is before the job above ends, 2027-02-01 12:00"
    ]


def test_a_faulty_job_or_lift_is_blamed_once_and_the_others_keep_their_numbers(tmp_path: Path) -> None:
    text = altered(
        JOBS,
        ("jobs:\n", "jobs:\n  - nothing\n"),
        ("lifts:\n", "lifts:\n      - nothing\n"),
        ("boom: 16 m", "boom: 9 m"),
    )
    assert [line.split(": ")[0] for line in faults(tmp_path, text)] == [
        "jobs[0]",
        "jobs[1].lifts[0]",
        "jobs[1].lifts[1].boom",
    ]


def test_the_name_of_a_job_that_cannot_be_read_is_not_called_a_second_one(tmp_path: Path) -> None:
    text = altered(JOBS, ("job: A-1", "job: [A]"), ("job: A-2", "job: [A]"))
    assert [line.split(";")[0] for line in faults(tmp_path, text)] == [
        "jobs[0].job: a list stands there",
        "jobs[1].job: a list stands there",
    ]


def test_a_book_without_charts_does_not_judge_the_name_of_one(tmp_path: Path) -> None:
    book = book_of(tmp_path, BOOK[: BOOK.index("charts:")]).book
    sheet = jobs_of(tmp_path, altered(JOBS, ("chart: full", "chart: other")), book=book).sheet
    assert sheet.jobs[0].lifts[0].chart == "other"


def test_without_a_book_only_the_order_of_the_sheet_is_looked_at(tmp_path: Path) -> None:
    sheet = jobs_of(tmp_path, JOBS).sheet
    page = Page("jobs.yaml")
    JobReferences(page, sheet, None).check()
    assert page.faults == []
