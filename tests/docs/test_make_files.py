"""The page of fields names every field, down to the last."""

from __future__ import annotations

import pytest

from becket.intake.book import BOOK, FIELDS
from becket.intake.fields import record
from becket.intake.jobs import JOB_FIELDS, LIFT_FIELDS, SHEET_FIELDS
from docs.make_files import field_rows

BOOK_ROWS = {path: is_needed for path, _, is_needed in field_rows(BOOK)}
SHEET_ROWS = {path: is_needed for path, _, is_needed in field_rows(record(SHEET_FIELDS))}


def test_every_key_of_the_readers_is_on_the_page() -> None:
    assert set(FIELDS) <= set(BOOK_ROWS)
    assert set(SHEET_FIELDS) <= set(SHEET_ROWS)
    assert {f"jobs[].{name}" for name in JOB_FIELDS} <= set(SHEET_ROWS)
    assert {f"jobs[].lifts[].{name}" for name in LIFT_FIELDS} <= set(SHEET_ROWS)


@pytest.mark.parametrize(
    ("path", "is_needed"),
    [
        ("boom.lengths[].code", True),
        ("head.anchors.NAME.along", False),
        ("blocks.NAME.becket.side", True),
        ("second_line.mass", True),
        ("patterns[].confirmed.seal", False),
        ("charts[].counts.rope", False),
        ("rope.swivel", False),
    ],
)
def test_fields_within_fields_and_whether_they_are_needed(path: str, is_needed: bool) -> None:
    assert BOOK_ROWS[path] is is_needed
